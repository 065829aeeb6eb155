package widgets

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
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
	Marks     []SpreadMark
	Limits    analysis.Limits // bins beyond them are dotted
	Target    *[256]int       // the target's counts, never written to; nil for none
	FromWhite bool            // the foot counts value from white
}

// SpreadActs are the callbacks for what the painter does with the spread; none may be nil.
type SpreadActs struct {
	Border    func(i int, to float64, end bool) // a border is dragged to a lightness (L*)
	Automatic func()                            // the borders are given back
	Keys      Keys                              // gets the keys that the spread has no use for
}

// Spread is the histogram of lightness from black to white: square-root height, group
// borders and shares on it, the spots marked.
type Spread struct {
	drawn
	shiftFocus
	acts  SpreadActs
	state SpreadState
	given bool // state has been set

	held   int  // border taken hold of by pointer; -1: none
	over   bool // the pointer is over a border
	chosen int  // the border that keys move
	spreadParts
}

// NewSpread returns an empty spread.
func NewSpread(acts SpreadActs) *Spread {
	s := &Spread{acts: acts, held: -1}
	s.focus = focus{keys: acts.Keys, owner: s, changed: s.redraw}
	s.makeParts()
	s.draw(s)
	return s
}

// Set shows a state; the same once more costs nothing.
func (s *Spread) Set(state SpreadState) {
	was := s.state
	mass := state.Histogram == was.Histogram && state.Limits == was.Limits && state.Target == was.Target
	if s.given && mass && state.FromWhite == was.FromWhite &&
		sameGroups(state.Groups, was.Groups) && slices.Equal(state.Marks, was.Marks) {
		return
	}
	s.state, s.given = state, true
	s.redraw()
	if !mass {
		s.mass.Refresh()
	}
}

// State returns what is shown, which must not be changed.
func (s *Spread) State() SpreadState { return s.state }

// Borders returns the lightnesses (L*) between the groups.
func (s *Spread) Borders() []float64 {
	var borders []float64
	for _, g := range s.state.Groups[:s.borderCount()] {
		borders = append(borders, g.To)
	}
	return borders
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

// minSize is the least there may be.
func (s *Spread) minSize() fyne.Size { return fyne.NewSize(30*Step, spreadLeast()) }

// borderReach is how far from a border a press takes hold of it, in Fyne units: for a pen a border
// is as wide as its neighbours allow.
const borderReach = 2 * Step

// borderAt returns the border next to x within reach, -1 if there is none.
func (s *Spread) borderAt(x float32) int {
	best, nearest := -1, borderReach+1
	for i := range s.borderCount() {
		d := s.X(s.state.Groups[i].To) - x
		if d = max(d, -d); d < nearest {
			best, nearest = i, d
		}
	}
	return best
}

// borderCount is how many borders there are.
func (s *Spread) borderCount() int { return max(len(s.state.Groups)-1, 0) }

// spreadLightness is the lightness at x in a spread of this width, the reverse of spreadX.
func spreadLightness(x, width float32) float64 {
	if width <= 2*spreadSide() {
		return 0
	}
	return float64(min(max((x-spreadSide())/(width-2*spreadSide()), 0), 1)) * 100
}

// MouseDown takes hold of a border.
func (s *Spread) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		s.held = s.borderAt(e.Position.X)
	}
}

// MouseUp lets go of it.
func (s *Spread) MouseUp(*desktop.MouseEvent) {}

// Dragged moves the border.
func (s *Spread) Dragged(e *fyne.DragEvent) {
	if i := s.held; i >= 0 && i < s.borderCount() {
		s.chosen = i
		s.moveBorder(i, spreadLightness(e.Position.X, s.Size().Width), false)
	}
}

// DragEnd lets go of the border.
func (s *Spread) DragEnd() {
	if i := s.held; i >= 0 && i < s.borderCount() {
		s.moveBorder(i, s.state.Groups[i].To, true)
	}
	s.held = -1
}

// moveBorder reports a border, kept between its neighbours by a bin at least.
func (s *Spread) moveBorder(i int, to float64, end bool) {
	const bin = 1 / colour.BinsPerLightness
	groups := s.state.Groups
	to = min(max(to, groups[i].From+bin), groups[i+1].To-bin)
	s.state.Groups[i].To, s.state.Groups[i+1].From = to, to // at once, whenever the next frame comes
	s.redraw()
	s.acts.Border(i, to, end)
}

// DoubleTapped gives the borders back.
func (s *Spread) DoubleTapped(e *fyne.PointEvent) {
	if s.borderAt(e.Position.X) >= 0 {
		s.acts.Automatic()
	}
}

// MouseIn is MouseMoved.
func (s *Spread) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved notes whether the pointer is over a border.
func (s *Spread) MouseMoved(e *desktop.MouseEvent) { s.over = s.borderAt(e.Position.X) >= 0 }

// MouseOut forgets it.
func (s *Spread) MouseOut() { s.over = false }

// Cursor says that a border can be moved sideways.
func (s *Spread) Cursor() desktop.Cursor {
	if s.over || s.held >= 0 {
		return desktop.HResizeCursor
	}
	return desktop.DefaultCursor
}

// borderStep is how far an arrow key moves a border, L*; with Shift ten times as far.
const borderStep = 0.5

// TypedKey moves the chosen border with Left and Right, chooses another with Up and Down, and
// gives the borders back with Delete.
func (s *Spread) TypedKey(e *fyne.KeyEvent) {
	step := borderStep
	if s.shift {
		step *= 10
	}
	n, arrow := s.borderCount(), arrows[e.Name]
	s.chosen = max(min(s.chosen, n-1), 0)
	switch {
	case n > 0 && arrow.X != 0:
		s.moveBorder(s.chosen, s.state.Groups[s.chosen].To+step*float64(arrow.X), true)
	case n > 0 && arrow.Y != 0:
		s.chosen = (s.chosen - arrow.Y + n) % n
		s.redraw()
	case deletes(e):
		s.acts.Automatic()
	default:
		s.keys.TypedKey(e.Name)
	}
}
