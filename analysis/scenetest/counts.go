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

// overlap returns how many pixels of a report's side lie on a family's side, and on all
// that counts beside that family.
func (c *counts) overlap(s *Scene, report, family int, side Side) (on, of int) {
	for label, n := range c[4*report+1+int(side)] {
		f, is, ok := s.owner(uint8(label))
		switch {
		case uint8(label) == unjudged, ok && f == family && is >= Accent:
		case ok && f == family && is == side:
			on, of = on+n, of+n
		default:
			of += n
		}
	}
	return on, of
}

// recall returns the share of a family's side that a report holds: the larger of that of
// the whole local colour and those of its forms.
func (c *counts) recall(s *Scene, report, family int, side Side) float64 {
	best, all, held := 0.0, 0, 0
	for _, part := range s.Families[family].parts {
		label := firstPart + uint8(4*part) + uint8(side)
		n := 0
		for m := range c {
			n += c[m][label]
		}
		h := c[4*report+1+int(side)][label]
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

// fits says how well a report's side is a family's side: the lower of precision and recall.
func (c *counts) fits(s *Scene, report, family int, side Side) float64 {
	on, of := c.overlap(s, report, family, side)
	return min(share(on, of), c.recall(s, report, family, side))
}

const half = 0.5

func (c *counts) match(s *Scene, report int) (family int, ok bool) {
	for f := range s.Families {
		if c.fits(s, report, f, Light) >= half && c.fits(s, report, f, Shadow) >= half {
			return f, true
		}
	}
	return 0, false
}

// onUnscored reports whether both sides of a report lie mostly on what isn't scored.
func (c *counts) onUnscored(s *Scene, report int) bool {
	if s.Empty {
		return false
	}
	for f, t := range s.Families {
		if t.Scored {
			continue
		}
		if c.within(s, report, Light, f) >= half && c.within(s, report, Shadow, f) >= half {
			return true
		}
	}
	row := c[4*report+1]
	dim := c[4*report+2]
	return share(row[ground]+row[cast], judged(row)) >= half && share(dim[cast], judged(dim)) >= half
}

// within returns the share of a report's side that lies anywhere on a family.
func (c *counts) within(s *Scene, report int, side Side, family int) float64 {
	on := 0
	row := c[4*report+1+int(side)]
	for label, n := range row {
		if f, _, ok := s.owner(uint8(label)); ok && f == family {
			on += n
		}
	}
	return share(on, judged(row))
}

func judged(row [256]int) (n int) {
	for label, k := range row {
		if uint8(label) != unjudged {
			n += k
		}
	}
	return n
}
