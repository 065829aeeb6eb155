package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// HueStrip shows many narrow colours of one lightness over their one grey. A press or a drag along
// it shows the cell under the pointer enlarged, and letting go there copies it: the cells are
// narrower than a pen hits.
type HueStrip struct {
	drawn
	focus
	acts     SwatchActs
	swatches []Swatch
	marked   int // the cell of the base's hue; -1 for none
	at       int // the cell pressed, or that keys work on
	pressed  bool

	edge, grey *canvas.Rectangle
	boxes      []*canvas.Rectangle
	frame      *canvas.Rectangle // around the marked cell
	rim, large *canvas.Rectangle // the cell enlarged
	line       outline
	cells      *fyne.Container
}

// Lengths of the strip.
const (
	stripColour = 16
	stripGrey   = 6
	stripLarge  = 5 * Step
)

// NewHueStrip returns a strip without colours.
func NewHueStrip(acts SwatchActs) *HueStrip {
	s := &HueStrip{acts: acts, marked: -1}
	s.focus = focus{keys: acts.Keys, owner: s, changed: s.redraw}
	s.edge = s.addBox()
	s.cells = add(&s.drawn, container.NewWithoutLayout())
	s.grey, s.frame = s.addBox(), s.addBox()
	s.frame.StrokeWidth = 2
	s.line = newOutline(&s.drawn)
	s.rim, s.large = s.addBox(), s.addBox()
	s.draw(s)
	return s
}

// Set shows colours, all of one grey; marked is the cell that stands out, -1 none.
func (s *HueStrip) Set(swatches []Swatch, marked int) {
	if slices.Equal(swatches, s.swatches) && marked == s.marked {
		return
	}
	s.swatches, s.marked = swatches, marked
	s.at = min(s.at, max(len(swatches)-1, 0))
	s.redraw()
}

// Swatches returns what is shown, which must not be changed.
func (s *HueStrip) Swatches() []Swatch { return s.swatches }

// Box returns where cell i lies.
func (s *HueStrip) Box(i int) (fyne.Position, fyne.Size) {
	x, w := slot(i, max(len(s.swatches), 1), s.Size().Width-2*hairline)
	return fyne.NewPos(x+hairline, hairline), fyne.NewSize(w, stripColour)
}

// cellAt returns the cell at x, the nearest where x lies beside the strip; -1 if there is none.
func (s *HueStrip) cellAt(x float32) int {
	for i := range s.swatches {
		if at, size := s.Box(i); x < at.X+size.Width {
			return i
		}
	}
	return len(s.swatches) - 1
}

// MouseDown shows the cell enlarged.
func (s *HueStrip) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		s.press(e.Position.X)
	}
}

// press shows the cell at x enlarged, with its numbers.
func (s *HueStrip) press(x float32) {
	if i := s.cellAt(x); i >= 0 {
		s.at, s.pressed = i, true
		s.redraw()
		s.acts.Tips.Now(s.swatches[i].Tip, s.rim)
	}
}

// MouseUp copies the cell that is pressed.
func (s *HueStrip) MouseUp(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary && s.pressed {
		s.release()
		s.act(s.acts.Press)
	}
}

// release takes the enlarged cell away.
func (s *HueStrip) release() {
	s.pressed = false
	s.acts.Tips.Leave()
	s.redraw()
}

// Dragged goes on to the cell under the pointer.
func (s *HueStrip) Dragged(e *fyne.DragEvent) {
	if s.pressed {
		s.press(e.Position.X)
	}
}

// DragEnd copies the cell where the drag ends: the pointer may have left the strip, which then
// hears nothing of the button.
func (s *HueStrip) DragEnd() {
	if s.pressed {
		s.release()
		s.act(s.acts.Press)
	}
}

// TappedSecondary takes the colour to go on from.
func (s *HueStrip) TappedSecondary(e *fyne.PointEvent) {
	if i := s.cellAt(e.Position.X); i >= 0 {
		s.at = i
		s.act(s.acts.Take)
	}
}

func (s *HueStrip) act(do func(Swatch)) {
	if s.at < len(s.swatches) && !s.swatches[s.at].None {
		do(s.swatches[s.at])
	}
}

// Cursor is the hand: the cells are there to be pressed.
func (s *HueStrip) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusLost takes the enlarged cell away.
func (s *HueStrip) FocusLost() {
	s.release()
	s.focus.FocusLost()
}

// TypedKey goes from cell to cell with the arrows, and copies with Enter or Space.
func (s *HueStrip) TypedKey(e *fyne.KeyEvent) {
	step := arrows[e.Name].X
	switch {
	case presses(e):
		s.act(s.acts.Press)
	case step == 0:
		s.keys.TypedKey(e.Name)
	case s.at+step >= 0 && s.at+step < len(s.swatches):
		s.at += step
		s.redraw()
		s.acts.Tips.Now(s.swatches[s.at].Tip, s.edge)
	}
}

// TypedRune takes the cell at hand to go on from with U, or goes to the window's keys.
func (s *HueStrip) TypedRune(r rune) {
	if r == 'u' || r == 'U' {
		s.act(s.acts.Take)
		return
	}
	s.focus.TypedRune(r)
}

func (s *HueStrip) write(_ fyne.Size, of colours) {
	for len(s.boxes) < len(s.swatches) {
		box := canvas.NewRectangle(nil)
		s.boxes = append(s.boxes, box)
		s.cells.Objects = append(s.cells.Objects, box)
	}
	fill(s.edge, of(ColorNameHairline))
	for i, box := range s.boxes {
		w := nth(s.swatches, i)
		fill(box, rgbFill(w.Colour))
		show(box, i < len(s.swatches) && !w.None)
	}
	fill(s.grey, greyFill(nth(s.swatches, 0).Grey))
	s.frame.StrokeColor = of(ColorNameFocusLine)
	show(s.frame, s.marked >= 0)
	s.line.show(s.focused && len(s.swatches) > 0)
	w := nth(s.swatches, s.at)
	fill(s.rim, of(ColorNameFocusLine))
	fill(s.large, rgbFill(w.Colour))
	show(s.rim, s.pressed && !w.None)
	show(s.large, s.pressed && !w.None)
}

func (s *HueStrip) place(size fyne.Size) {
	put(s.edge, fyne.Position{}, fyne.NewSize(size.Width, stripColour+stripGrey+2*hairline))
	put(s.grey, fyne.NewPos(hairline, hairline+stripColour), fyne.NewSize(size.Width-2*hairline, stripGrey))
	put(s.cells, fyne.Position{}, size)
	for i := range s.swatches[:min(len(s.swatches), len(s.boxes))] {
		at, box := s.Box(i)
		put(s.boxes[i], at, box)
	}
	if s.marked >= 0 {
		at, box := s.Box(s.marked)
		put(s.frame, at.SubtractXY(2, 3), box.AddWidthHeight(4, 6+stripGrey))
	}
	at, box := s.Box(s.at)
	s.line.place(at, box.AddWidthHeight(0, stripGrey))
	x := min(max(at.X+box.Width/2-stripLarge/2, 2), max(size.Width-stripLarge-2, 2))
	put(s.rim, fyne.NewPos(x-2, -stripLarge-Step-2), fyne.NewSquareSize(stripLarge+4))
	put(s.large, fyne.NewPos(x, -stripLarge-Step), fyne.NewSquareSize(stripLarge))
}

// minSize is as high as colour and grey.
func (s *HueStrip) minSize() fyne.Size {
	return fyne.NewSize(8*Step, stripColour+stripGrey+2*hairline)
}
