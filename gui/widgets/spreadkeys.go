package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/analysis/colour"
)

// SpreadActs are told what the painter does with the spread; none may be nil.
type SpreadActs struct {
	Edge      func(i int, to float64, end bool) // an edge is dragged to a lightness (L*)
	Automatic func()                            // the edges are given back
	Keys      Keys                              // gets the keys that the spread has no use for
}

// spreadHand is what the painter is doing with the spread's edges.
type spreadHand struct {
	edge    int // taken hold of by pointer; -1: none
	over    bool
	chosen  int // the edge that keys move
	focused bool
	shift   bool
}

var (
	_ fyne.Draggable      = (*Spread)(nil)
	_ fyne.DoubleTappable = (*Spread)(nil)
	_ fyne.Focusable      = (*Spread)(nil)
	_ fyne.Shortcutable   = (*Spread)(nil)
	_ desktop.Mouseable   = (*Spread)(nil)
	_ desktop.Hoverable   = (*Spread)(nil)
	_ desktop.Cursorable  = (*Spread)(nil)
	_ desktop.Keyable     = (*Spread)(nil)
)

// edgeReach is how far from an edge a press takes hold of it, in Fyne units.
const edgeReach = Step

// edgeAt returns the edge next to x within reach, -1 if there is none.
func (s *Spread) edgeAt(x float32) int {
	best, nearest := -1, edgeReach+1
	for i := range s.edges() {
		d := SpreadX(s.State.Groups[i].To, s.Size().Width) - x
		if d = max(d, -d); d < nearest {
			best, nearest = i, d
		}
	}
	return best
}

// edges is how many edges there are.
func (s *Spread) edges() int { return max(len(s.State.Groups)-1, 0) }

// spreadLightness is the lightness at x in a spread of this width, the reverse of SpreadX.
func spreadLightness(x, width float32) float64 {
	if width <= 2*spreadSide {
		return 0
	}
	return float64(min(max((x-spreadSide)/(width-2*spreadSide), 0), 1)) * 100
}

// MouseDown takes hold of an edge.
func (s *Spread) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		s.hand.edge = s.edgeAt(e.Position.X)
	}
}

// MouseUp lets go of it.
func (s *Spread) MouseUp(*desktop.MouseEvent) {}

// Dragged moves the edge.
func (s *Spread) Dragged(e *fyne.DragEvent) {
	if i := s.hand.edge; i >= 0 && i < s.edges() {
		s.hand.chosen = i
		s.moveEdge(i, spreadLightness(e.Position.X, s.Size().Width), false)
	}
}

// DragEnd lets go of the edge.
func (s *Spread) DragEnd() {
	if i := s.hand.edge; i >= 0 && i < s.edges() {
		s.moveEdge(i, s.State.Groups[i].To, true)
	}
	s.hand.edge = -1
}

// moveEdge tells of an edge, kept between its neighbours by a bin at least.
func (s *Spread) moveEdge(i int, to float64, end bool) {
	const bin = 1 / colour.BinsPerLightness
	groups := s.State.Groups
	to = min(max(to, groups[i].From+bin), groups[i+1].To-bin)
	s.State.Groups[i].To, s.State.Groups[i+1].From = to, to // at once, whenever the next frame comes
	if s.r != nil {
		s.r.write()
	}
	s.Acts.Edge(i, to, end)
}

// DoubleTapped gives the edges back.
func (s *Spread) DoubleTapped(e *fyne.PointEvent) {
	if s.edgeAt(e.Position.X) >= 0 {
		s.Acts.Automatic()
	}
}

// MouseIn and MouseMoved note whether the pointer is over an edge.
func (s *Spread) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved notes it.
func (s *Spread) MouseMoved(e *desktop.MouseEvent) { s.hand.over = s.edgeAt(e.Position.X) >= 0 }

// MouseOut forgets it.
func (s *Spread) MouseOut() { s.hand.over = false }

// Cursor tells that an edge can be moved sideways.
func (s *Spread) Cursor() desktop.Cursor {
	if s.hand.over || s.hand.edge >= 0 {
		return desktop.HResizeCursor
	}
	return desktop.DefaultCursor
}

// FocusGained shows the outline and which edge the keys move.
func (s *Spread) FocusGained() {
	s.Acts.Keys.Reveal(s)
	s.setFocused(true)
}

// FocusLost takes it away.
func (s *Spread) FocusLost() {
	s.hand.shift = false
	s.setFocused(false)
}

func (s *Spread) setFocused(focused bool) {
	s.hand.focused = focused
	if s.r != nil {
		s.r.Refresh()
	}
}

// KeyDown and KeyUp watch the shift key.
func (s *Spread) KeyDown(e *fyne.KeyEvent) { s.watchShift(e, true) }

// KeyUp watches the shift key.
func (s *Spread) KeyUp(e *fyne.KeyEvent) { s.watchShift(e, false) }

func (s *Spread) watchShift(e *fyne.KeyEvent, down bool) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		s.hand.shift = down
	}
}

// edgeStep is how far an arrow key moves an edge, L*; with Shift ten times as far.
const edgeStep = 0.5

// TypedKey moves the chosen edge with Left and Right, chooses another with Up and Down, and
// gives the edges back with Delete.
func (s *Spread) TypedKey(e *fyne.KeyEvent) {
	step := edgeStep
	if s.hand.shift {
		step *= 10
	}
	n := s.edges()
	s.hand.chosen = max(min(s.hand.chosen, n-1), 0)
	switch {
	case n > 0 && e.Name == fyne.KeyLeft:
		s.moveEdge(s.hand.chosen, s.State.Groups[s.hand.chosen].To-step, true)
	case n > 0 && e.Name == fyne.KeyRight:
		s.moveEdge(s.hand.chosen, s.State.Groups[s.hand.chosen].To+step, true)
	case n > 0 && (e.Name == fyne.KeyUp || e.Name == fyne.KeyDown):
		by := 1
		if e.Name == fyne.KeyDown {
			by = n - 1
		}
		s.hand.chosen = (s.hand.chosen + by) % n
		s.setFocused(true)
	case e.Name == fyne.KeyDelete || e.Name == fyne.KeyBackspace:
		s.Acts.Automatic()
	default:
		s.Acts.Keys.TypedKey(e.Name)
	}
}

// TypedRune goes to the window's keys.
func (s *Spread) TypedRune(r rune) { s.Acts.Keys.TypedRune(r) }

// TypedShortcut goes to the window's keys.
func (s *Spread) TypedShortcut(short fyne.Shortcut) { s.Acts.Keys.TypedShortcut(short) }
