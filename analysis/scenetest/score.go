package scenetest

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

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

// Score compares what a finder says about a scene with the scene's truth.
//
// The rule: the truth is sampled at the middles of the map's pixels. Unjudged pixels, and
// the accent and line of the same family, count for nothing. A report is a family if at
// least half of its light lies in the true light and at least half of its shadow in the
// true shadow, and if it holds at least half of the true light and half of the true
// shadow, of the whole local colour or of one of its forms. So at most one report can be
// a given form. What is no family by this rule is false, unless both of its sides lie
// mostly on what isn't scored: a family that is marked so, or a cast shadow with its
// ground. In an empty scene every report is false.
func Score(s *Scene, a *families.Found) Result {
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

// add compares a report's colours with the truth.
func (r *Result) add(s *Scene, t Truth, f families.Family) {
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
