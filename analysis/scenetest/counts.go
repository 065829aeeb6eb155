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

// Answer is what a report is.
type Answer uint8

const (
	Wrong   Answer = iota // no family
	Right                 // a family that should be found
	Ignored               // something that isn't scored
)

// Answers says what the reports about a scene are, and which families.
func (s *Scene) Answers(a *families.Found) (answers []Answer, family []int) {
	c := s.count(a)
	for i := range a.List {
		f, ok := c.match(s, i)
		answer := Right
		switch {
		case ok && !s.Families[f].Scored, !ok && c.onUnscored(s, i):
			answer = Ignored
		case !ok:
			answer = Wrong
		}
		answers, family = append(answers, answer), append(family, f)
	}
	return answers, family
}

// Unscored is the owner of colours whose family isn't scored: see Owners.
const Unscored = -2

// Owners says what colours show: of[y*width+x] is the colour of a place, -1 for none, of so
// many. It returns for each colour the family on which at least half of it lies, -1 for none,
// and Unscored where that isn't scored.
func (s *Scene) Owners(width, height int, of []int32, count int) []int {
	b := s.Image.Rect
	on := make([][]int, count)
	for i := range on {
		on[i] = make([]int, len(s.Families)+2) // the last two: of none, unjudged
	}
	for y := range height {
		sy := (2*y + 1) * b.Dy() / (2 * height)
		for x := range width {
			k := of[y*width+x]
			if k < 0 {
				continue
			}
			label := s.labels[sy*b.Dx()+(2*x+1)*b.Dx()/(2*width)]
			f, _, ok := s.owner(label)
			switch {
			case label == unjudged:
				f = len(s.Families) + 1
			case !ok:
				f = len(s.Families)
			}
			on[k][f]++
		}
	}
	owners := make([]int, count)
	for i := range owners {
		owners[i] = -1
		all := 0
		for _, n := range on[i][:len(s.Families)+1] {
			all += n
		}
		for f, n := range on[i][:len(s.Families)] {
			if 2*n >= all && n > 0 {
				if owners[i] = f; !s.Families[f].Scored {
					owners[i] = Unscored
				}
			}
		}
	}
	return owners
}
