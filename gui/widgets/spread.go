package widgets

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
)

// SpreadMark is a spot on the spread.
type SpreadMark struct {
	Name      string
	Lightness float64 // L*
}

// SpreadState is what a spread shows.
type SpreadState struct {
	Histogram [256]int // counts; bin i holds the L* whose colour.BinOf is i
	Groups    []analysis.Group
	ByHand    bool // the groups' edges were set by hand
	Marks     []SpreadMark
	Limits    analysis.Limits // bins beyond them are dotted
	Target    *[256]int       // the target's counts, never written to; nil for none
	FromWhite bool            // the foot counts value from white
}

// Spread is the histogram of lightness from black to white: square-root height, group
// edges and shares on it, the spots marked. Use it on the Fyne goroutine only.
type Spread struct {
	drawn
	shiftFocus
	acts  SpreadActs
	state SpreadState
	given bool // state has been set
	hand  spreadHand
	look  *spreadLook
}

// NewSpread returns an empty spread.
func NewSpread(acts SpreadActs) *Spread {
	s := &Spread{acts: acts, hand: spreadHand{edge: -1}}
	s.focus = focus{keys: acts.Keys, owner: s, changed: s.redraw}
	s.look = newSpreadLook(s)
	s.draw(s, s.look, s.look.objects()...)
	return s
}

// Set shows a state; the same once more costs nothing.
func (s *Spread) Set(state SpreadState) {
	was := s.state
	mass := state.Histogram == was.Histogram && state.Limits == was.Limits && state.Target == was.Target
	if s.given && mass && state.FromWhite == was.FromWhite && state.ByHand == was.ByHand &&
		sameGroups(state.Groups, was.Groups) && slices.Equal(state.Marks, was.Marks) {
		return
	}
	s.state, s.given = state, true
	s.redraw()
	if !mass {
		s.look.mass.Refresh()
	}
}

// State returns what is shown, which must not be changed.
func (s *Spread) State() SpreadState { return s.state }

// Edges returns the lightnesses (L*) between the groups.
func (s *Spread) Edges() []float64 {
	var edges []float64
	for _, g := range s.state.Groups[:s.edgeCount()] {
		edges = append(edges, g.To)
	}
	return edges
}

// X returns where a lightness (L*) lies in the spread.
func (s *Spread) X(lightness float64) float32 { return spreadX(lightness, s.Size().Width) }

// sameGroups reports whether two groups look the same; the mean of an empty one is no
// number, and so equals nothing, not even itself.
func sameGroups(a, b []analysis.Group) bool {
	return slices.EqualFunc(a, b, func(a, b analysis.Group) bool {
		if math.IsNaN(a.Mean) && math.IsNaN(b.Mean) {
			a.Mean, b.Mean = 0, 0
		}
		return a == b
	})
}
