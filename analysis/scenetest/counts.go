package scenetest

import "app.tonedesk/analysis/families"

// counts says how many pixels of each value of a map lie on each label.
type counts [256][256]int

func (s *Scene) count(a *families.Found) *counts {
	var c counts
	b := s.Image.Rect
	for y := range a.Height {
		sy := (2*y + 1) * b.Dy() / (2 * a.Height)
		for x := range a.Width {
			sx := (2*x + 1) * b.Dx() / (2 * a.Width)
			c[a.Map[y*a.Width+x]][s.labels[sy*b.Dx()+sx]]++
		}
	}
	return &c
}

// row says what a report's side lies on.
func (c *counts) row(report int, side Side) *[256]int { return &c[4*report+1+int(side)] }

// precision returns the share of a report's side that lies on a family's side, of all that
// counts beside that family.
func (c *counts) precision(s *Scene, report, family int, side Side) float64 {
	on, of := 0, 0
	for label, n := range c.row(report, side) {
		f, is, ok := s.owner(uint8(label))
		switch {
		case uint8(label) == unjudged, ok && f == family && is >= Accent:
		case ok && f == family && is == side:
			on, of = on+n, of+n
		default:
			of += n
		}
	}
	return share(on, of)
}

// recall returns the share of a family's side that a report holds: the larger of that of
// the whole local colour and those of its forms.
func (c *counts) recall(s *Scene, report, family int, side Side) float64 {
	best, all, held := 0.0, 0, 0
	for _, part := range s.Families[family].parts {
		label := labelOf(part, side)
		n := 0
		for m := range c {
			n += c[m][label]
		}
		h := c.row(report, side)[label]
		all, held = all+n, held+h
		best = max(best, share(h, n))
	}
	return max(best, share(held, all))
}

func share(part, of int) float64 {
	if of == 0 {
		return 0
	}
	return float64(part) / float64(of)
}

const half = 0.5

// fits reports whether a report's side is a family's side.
func (c *counts) fits(s *Scene, report, family int, side Side) bool {
	return c.precision(s, report, family, side) >= half && c.recall(s, report, family, side) >= half
}

// match returns the family that a report is; ok is false if it is none.
func (c *counts) match(s *Scene, report int) (family int, ok bool) {
	for f := range s.Families {
		if c.fits(s, report, f, Light) && c.fits(s, report, f, Shadow) {
			return f, true
		}
	}
	return 0, false
}

// onUnscored reports whether both sides of a report lie mostly on what isn't scored.
func (c *counts) onUnscored(s *Scene, report int) bool {
	if len(s.Families) == 0 {
		return false
	}
	for f, t := range s.Families {
		if !t.Scored && c.within(s, report, Light, f) >= half && c.within(s, report, Shadow, f) >= half {
			return true
		}
	}
	light, shadow := c.row(report, Light), c.row(report, Shadow)
	return share(light[ground]+light[cast], judged(light)) >= half && share(shadow[cast], judged(shadow)) >= half
}

// within returns the share of a report's side that lies anywhere on a family.
func (c *counts) within(s *Scene, report int, side Side, family int) float64 {
	on := 0
	row := c.row(report, side)
	for label, n := range row {
		if f, _, ok := s.owner(uint8(label)); ok && f == family {
			on += n
		}
	}
	return share(on, judged(row))
}

func judged(row *[256]int) (n int) {
	for _, k := range row {
		n += k
	}
	return n - row[unjudged]
}
