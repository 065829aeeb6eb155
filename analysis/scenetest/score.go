package scenetest

import (
	"fmt"
	"math"

	"app.tonedesk/analysis"
)

// Answer is what a finder says about a scene: the map, of any size, shows the whole
// picture; 0 is no family, 4*i+1 the light, +2 the shadow, +3 the accent, +4 the line of
// List[i].
type Answer struct {
	Width, Height int
	Map           []uint8
	List          []analysis.Family
}

// Result is how an answer fares against the truth.
type Result struct {
	Scene  string
	Scored int // families that should be found

	Found  []Match
	Missed []Miss
	False  []string // what was reported and isn't there, with where it lies
	// Ignored counts reports that lie on what isn't scored: neither found nor false.
	Ignored int

	Accents, Lines Extras

	// Misplaced counts the places that lie outside of their true side.
	Misplaced int
}

// Match is a scored family that was found.
type Match struct {
	Family                string
	LightOff, ShadowOff   float64  // L*, answer minus truth
	LightCore, ShadowCore float64  // the same against the truth without the soft terminator
	TurnOff               *float64 // degrees; nil where a side's true C*ab is under 10 or the answer has none
	TurnMissing           bool     // the answer has no turn where it is judged
	TonesOff              float64
	TowardBlack           Flag
	ToneOfAccent          *float64 // L*, answer minus truth; nil unless both have one
}

// Flag is how a toward-black flag fares.
type Flag uint8

const (
	FlagUnjudged Flag = iota // too near a limit
	FlagRight
	FlagMissing // it goes toward black and that wasn't said
	FlagWrong   // it was said and isn't so
)

// Miss is a scored family that wasn't found.
type Miss struct{ Family, Why string }

// Extras counts accents or lines of the families that were found.
type Extras struct{ Wanted, Found, Invented int }

// turnChroma is the C*ab from which a hue turn is judged.
const turnChroma = 10

// Score compares an answer with a scene's truth.
//
// The rule: the truth is sampled at the middles of the map's pixels. Unjudged pixels, and
// the accent and line of the same family, count for nothing. A report is a family if at
// least half of its light lies in the true light and at least half of its shadow in the
// true shadow, and if it holds at least half of the true light and half of the true
// shadow, of the whole local colour or of one of its forms. So at most one report can be
// a given form. What is no family by this rule is false, unless both of its sides lie
// mostly on what isn't scored: a family that is marked so, or a cast shadow with its
// ground. In an empty scene every report is false.
func Score(s *Scene, a Answer) Result {
	r := Result{Scene: s.Name}
	c := s.count(a)
	found := make([]int, len(s.Families)) // 1 + report
	for i := range a.List {
		f, ok := c.match(s, i)
		switch {
		case ok && !s.Families[f].Scored:
			r.Ignored++
		case ok && found[f] == 0:
			found[f] = 1 + i
		case ok: // another form of the same local colour
		case c.onUnscored(s, i):
			r.Ignored++
		default:
			r.False = append(r.False, c.describe(s, i))
		}
	}
	for f, t := range s.Families {
		switch {
		case !t.Scored:
		case found[f] == 0:
			r.Scored++
			r.Missed = append(r.Missed, Miss{t.Name, c.whyMissed(s, f)})
		default:
			r.Scored++
			r.add(s, t, a.List[found[f]-1])
		}
	}
	return r
}

// counts says how many pixels of each value of a map lie on each label.
type counts [256][256]int

func (s *Scene) count(a Answer) *counts {
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

// describe says where a false report lies.
func (c *counts) describe(s *Scene, report int) string {
	return fmt.Sprintf("light on %s, shadow on %s", c.where(s, report, Light), c.where(s, report, Shadow))
}

// where names what most of a report's side lies on.
func (c *counts) where(s *Scene, report int, side Side) string {
	row := c[4*report+1+int(side)]
	most, at := 0, unjudged
	for label, n := range row {
		if n > most {
			most, at = n, uint8(label)
		}
	}
	return fmt.Sprintf("%s (%.0f %% of it)", s.nameOf(at), 100*share(most, judged(row)+row[unjudged]))
}

func (s *Scene) nameOf(label uint8) string {
	switch label {
	case unjudged:
		return "lines and soft edges"
	case ground:
		return "the ground"
	case cast:
		return "a cast shadow"
	}
	f, side, ok := s.owner(label)
	if !ok {
		return "nothing"
	}
	return fmt.Sprintf("%s of %s", [...]string{"the light", "the shadow", "the accent", "the line"}[side], s.Families[f].Name)
}

// whyMissed says where a family's sides went.
func (c *counts) whyMissed(s *Scene, family int) string {
	return fmt.Sprintf("its light is %s, its shadow %s", c.went(s, family, Light), c.went(s, family, Shadow))
}

func (c *counts) went(s *Scene, family int, side Side) string {
	all, most, at := 0, -1, 0
	for m := range c {
		n := 0
		for _, part := range s.Families[family].parts {
			n += c[m][firstPart+uint8(4*part)+uint8(side)]
		}
		all += n
		if n > most {
			most, at = n, m
		}
	}
	if at == 0 {
		return fmt.Sprintf("in no family (%.0f %%)", 100*share(most, all))
	}
	return fmt.Sprintf("%s of report %d (%.0f %%, which is on %s)",
		[...]string{"the light", "the shadow", "the accent", "the line"}[(at-1)%4], (at-1)/4, 100*share(most, all),
		c.where(s, (at-1)/4, Side((at-1)%4)))
}

// add compares a report's colours with the truth.
func (r *Result) add(s *Scene, t Truth, f analysis.Family) {
	m := Match{
		Family:     t.Name,
		LightOff:   f.Light.Lightness - t.Light.Lab().L,
		ShadowOff:  f.Shadow.Lightness - t.Shadow.Lab().L,
		LightCore:  f.Light.Lightness - t.LightCore.Lab().L,
		ShadowCore: f.Shadow.Lightness - t.ShadowCore.Lab().L,
		TonesOff:   f.Tones - (t.Light.Value() - t.Shadow.Value()),
	}
	if min(t.Light.Lab().Chroma(), t.Shadow.Lab().Chroma()) >= turnChroma {
		if f.HueTurn == nil {
			m.TurnMissing = true
		} else {
			off := turn(t.turn(), *f.HueTurn)
			m.TurnOff = &off
		}
	}
	if t.Clear() {
		switch {
		case t.TowardBlack && !f.TowardBlack:
			m.TowardBlack = FlagMissing
		case !t.TowardBlack && f.TowardBlack:
			m.TowardBlack = FlagWrong
		default:
			m.TowardBlack = FlagRight
		}
	}
	if t.Accent != nil && f.Accent != nil {
		off := f.Accent.Lightness - t.Accent.Lab().L
		m.ToneOfAccent = &off
	}
	r.Accents.add(t.Accent != nil, f.Accent != nil)
	r.Lines.add(t.Line != nil, f.Line != nil)
	r.place(s, t, f.Light, Light)
	r.place(s, t, f.Shadow, Shadow)
	r.Found = append(r.Found, m)
}

func (e *Extras) add(wanted, got bool) {
	switch {
	case wanted && got:
		e.Wanted++
		e.Found++
	case wanted:
		e.Wanted++
	case got:
		e.Invented++
	}
}

// place checks that a spot's place lies on the side that it stands for.
func (r *Result) place(s *Scene, t Truth, spot analysis.Spot, side Side) {
	if spot.X == nil || spot.Y == nil {
		r.Misplaced++
		return
	}
	x, y := *spot.X, *spot.Y
	b := s.Image.Rect
	if x < 0 || y < 0 || x >= b.Dx() || y >= b.Dy() {
		r.Misplaced++
		return
	}
	f, is, ok := s.owner(s.labels[y*b.Dx()+x])
	if !ok || s.Families[f].Name != t.Name || is != side {
		r.Misplaced++
	}
}

// turn returns the way from one angle to another, (-180, 180] degrees.
func turn(from, to float64) float64 {
	d := math.Mod(to-from, 360)
	switch {
	case d > 180:
		d -= 360
	case d <= -180:
		d += 360
	}
	return d
}
