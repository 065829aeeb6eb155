package widgets

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
)

// SpreadMark is a spot on the spread.
type SpreadMark struct {
	Name      string
	Lightness float64 // L*
}

// SpreadState is what a spread shows.
type SpreadState struct {
	Histogram [256]int // counts; bin i holds the L* that round to i/2.55
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
	widget.BaseWidget

	// Acts are told what the painter does.
	Acts SpreadActs

	State SpreadState
	hand  spreadHand
	given bool // state has been set
	r     *spreadRenderer
}

// NewSpread returns an empty spread.
func NewSpread(acts SpreadActs) *Spread {
	s := &Spread{Acts: acts, hand: spreadHand{edge: -1}}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows a state; the same once more costs nothing.
func (s *Spread) Set(state SpreadState) {
	same := state.Histogram == s.State.Histogram && state.Limits == s.State.Limits && state.Target == s.State.Target && state.FromWhite == s.State.FromWhite && state.ByHand == s.State.ByHand &&
		sameGroups(state.Groups, s.State.Groups) && slices.Equal(state.Marks, s.State.Marks)
	if same && s.given {
		return
	}
	redraw := state.Histogram != s.State.Histogram || state.Limits != s.State.Limits || state.Target != s.State.Target
	s.State, s.given = state, true
	if s.r != nil {
		s.r.write()
		if redraw {
			s.r.mass.Refresh()
		}
	}
}

// CreateRenderer makes the canvas objects.
func (s *Spread) CreateRenderer() fyne.WidgetRenderer {
	s.r = newSpreadRenderer(s)
	s.r.colour()
	return s.r
}

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

// EdgesNow returns the edges that the spread shows, L*.
func (s *Spread) EdgesNow() []float64 {
	var edges []float64
	for _, g := range s.State.Groups[:s.edges()] {
		edges = append(edges, g.To)
	}
	return edges
}
