package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
)

// Swatch is a colour on offer.
type Swatch struct {
	Colour colour.RGB
	Grey   uint8  // of the same lightness
	Label  string // below it
	Tip    string // its numbers
	None   bool   // there is no such colour: Label says why
	Short  bool   // drawn half as high: not quite what was asked for
	Marked bool   // a line under it: where the row begins from
}

// SwatchRow shows colours edge to edge, with their greys edge to edge below if asked for. A
// click copies a colour's code, pointing at it shows its numbers.
type SwatchRow struct {
	drawn
	focus
	plan     SwatchPlan
	acts     SwatchActs
	swatches []Swatch
	at       int // which one the keys work on

	// Objects are never thrown away: there are as many as there ever were swatches.
	boxes, greys, under []*canvas.Rectangle
	labels              []*canvas.Text
	line                outline // around the swatch that the keys work on, over all others
}

// SwatchActs are the callbacks for what the painter does with a swatch.
type SwatchActs struct {
	Press func(s Swatch) // pressed
	Take  func(s Swatch) // pressed with the other button
	Keys  Keys
	Tips  *Tips
}

// SwatchPlan says how a row is laid out.
type SwatchPlan struct {
	Height  float32 // of the colours
	Greys   float32 // height of the greys below; 0 for none
	Labels  bool
	Columns int // most swatches in a line; 0 for all in one
}

// NewSwatchRow returns a row without swatches.
func NewSwatchRow(plan SwatchPlan, acts SwatchActs) *SwatchRow {
	s := &SwatchRow{plan: plan, acts: acts}
	s.focus = focus{keys: acts.Keys, owner: s, changed: s.redraw}
	s.line = newOutline(&s.drawn)
	s.draw(s)
	return s
}

// Set shows swatches, which it keeps, and reports whether the row asks for another height.
func (s *SwatchRow) Set(swatches []Swatch) (resized bool) {
	if slices.Equal(swatches, s.swatches) {
		return false
	}
	resized = s.lines(len(swatches)) != s.lines(len(s.swatches))
	s.swatches = swatches
	s.at = min(s.at, max(len(swatches)-1, 0))
	s.redraw()
	return resized
}

// Swatches returns what is shown, which must not be changed.
func (s *SwatchRow) Swatches() []Swatch { return s.swatches }

// Box returns where swatch i lies in the row, without its grey.
func (s *SwatchRow) Box(i int) (fyne.Position, fyne.Size) {
	return s.plan.box(i, len(s.swatches), s.Size().Width)
}

// lines is how many lines n swatches take.
func (s *SwatchRow) lines(n int) int {
	if c := s.plan.Columns; c > 0 {
		return max((n+c-1)/c, 1)
	}
	return 1
}

// lineHeight is the height of a line with all that belongs to it.
func (p SwatchPlan) lineHeight() float32 {
	h := p.Height + p.Greys
	if p.Labels {
		h += cardRow
	}
	return h
}

// box returns where swatch i of n lies in a row of this width.
func (p SwatchPlan) box(i, n int, width float32) (fyne.Position, fyne.Size) {
	columns := max(n, 1)
	if p.Columns > 0 {
		columns = p.Columns
	}
	x, w := slot(i%columns, columns, width)
	return fyne.NewPos(x, float32(i/columns)*p.lineHeight()), fyne.NewSize(w, p.Height)
}

// swatchAt returns the swatch at a point, -1 if there is none.
func (s *SwatchRow) swatchAt(p fyne.Position) int {
	for i := range s.swatches {
		at, size := s.Box(i)
		if p.X >= at.X && p.X < at.X+size.Width && p.Y >= at.Y && p.Y < at.Y+s.plan.Height+s.plan.Greys {
			return i
		}
	}
	return -1
}

// Tapped copies the code.
func (s *SwatchRow) Tapped(e *fyne.PointEvent) { s.act(s.swatchAt(e.Position), s.acts.Press) }

// TappedSecondary takes the colour to go on from.
func (s *SwatchRow) TappedSecondary(e *fyne.PointEvent) { s.act(s.swatchAt(e.Position), s.acts.Take) }

func (s *SwatchRow) act(i int, do func(Swatch)) {
	if i >= 0 && i < len(s.swatches) && !s.swatches[i].None {
		do(s.swatches[i])
	}
}

// MouseIn is MouseMoved.
func (s *SwatchRow) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved shows the numbers of the swatch under the pointer.
func (s *SwatchRow) MouseMoved(e *desktop.MouseEvent) { s.showTip(s.swatchAt(e.Position)) }

// MouseOut takes them away.
func (s *SwatchRow) MouseOut() { s.acts.Tips.Leave() }

func (s *SwatchRow) showTip(i int) {
	if i < 0 || i >= len(s.boxes) || s.swatches[i].Tip == "" {
		s.acts.Tips.Leave()
		return
	}
	s.acts.Tips.Now(s.swatches[i].Tip, s.boxes[i])
}

// Cursor is the hand: swatches are there to be pressed.
func (s *SwatchRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline and the numbers.
func (s *SwatchRow) FocusGained() {
	if first := slices.IndexFunc(s.swatches, func(w Swatch) bool { return !w.None }); first >= 0 && s.swatches[s.at].None {
		s.at = first
	}
	s.focus.FocusGained()
	if len(s.swatches) > 0 {
		s.showTip(s.at)
	}
}

// FocusLost takes them away.
func (s *SwatchRow) FocusLost() {
	s.acts.Tips.Leave()
	s.focus.FocusLost()
}

// TypedKey goes from swatch to swatch with the arrows, and copies with Enter or Space.
func (s *SwatchRow) TypedKey(e *fyne.KeyEvent) {
	step := arrows[e.Name].X + arrows[e.Name].Y*s.plan.Columns
	switch {
	case presses(e):
		s.act(s.at, s.acts.Press)
	case step == 0:
		s.keys.TypedKey(e.Name)
	case s.at+step >= 0 && s.at+step < len(s.swatches):
		s.at += step
		s.redraw()
		s.showTip(s.at)
	}
}

// TypedRune takes the swatch at hand to go on from with U, or goes to the window's keys.
func (s *SwatchRow) TypedRune(r rune) {
	if r == 'u' || r == 'U' {
		s.act(s.at, s.acts.Take)
		return
	}
	s.focus.TypedRune(r)
}

// TypedShortcut copies the swatch at hand, or goes to the window's keys.
func (s *SwatchRow) TypedShortcut(short fyne.Shortcut) {
	if _, ok := short.(*fyne.ShortcutCopy); ok {
		s.act(s.at, s.acts.Press)
		return
	}
	s.focus.TypedShortcut(short)
}

// grow makes objects for n swatches.
func (s *SwatchRow) grow(n int) {
	s.objects = s.objects[:len(s.objects)-2] // all but the outline
	for len(s.boxes) < n {
		s.boxes, s.greys = append(s.boxes, s.addBox()), append(s.greys, s.addBox())
		s.under, s.labels = append(s.under, s.addBox()), append(s.labels, s.addText(SmallSize, fyne.TextStyle{}))
	}
	s.objects = append(s.objects, s.line.dark, s.line.light)
}

// write puts in the colours, and the labels that fit.
func (s *SwatchRow) write(size fyne.Size, of colours) {
	n := len(s.swatches)
	s.grow(n)
	for i := range s.boxes {
		w := nth(s.swatches, i)
		_, box := s.plan.box(i, n, size.Width)
		fill(s.boxes[i], rgbFill(w.Colour))
		fill(s.greys[i], greyFill(w.Grey))
		fill(s.under[i], of(ColorNameFocusLine))
		say(s.labels[i], longestFitting(box.Width, SmallSize, w.Label, ""), of(theme.ColorNameForeground))
		there := i < n && !w.None
		show(s.boxes[i], there)
		show(s.greys[i], there && s.plan.Greys > 0)
		show(s.under[i], w.Marked)
		show(s.labels[i], s.plan.Labels || w.None)
	}
	s.line.show(s.focused && s.at < n)
}

// place stands the swatches edge to edge.
func (s *SwatchRow) place(size fyne.Size) {
	n := len(s.swatches)
	for i, w := range s.swatches[:min(n, len(s.boxes))] {
		at, box := s.plan.box(i, n, size.Width)
		top := float32(0)
		if w.Short {
			top = float32(int(box.Height / 2))
		}
		put(s.boxes[i], at.AddXY(0, top), fyne.NewSize(box.Width, box.Height-top))
		put(s.greys[i], at.AddXY(0, box.Height), fyne.NewSize(box.Width, s.plan.Greys))
		label := s.plan.Height + s.plan.Greys + 1
		if w.None {
			label = s.plan.Height/2 - Step
		}
		placeText(s.labels[i], at.X+(box.Width-s.labels[i].MinSize().Width)/2, at.Y+label)
		wide := min(3*Step, box.Width)
		put(s.under[i], at.AddXY((box.Width-wide)/2, s.plan.lineHeight()-2), fyne.NewSize(wide, 2))
	}
	if n > 0 {
		at, box := s.plan.box(s.at, n, size.Width)
		s.line.place(at, box.AddWidthHeight(0, s.plan.Greys))
	}
}

// minSize has a fixed height for a number of swatches.
func (s *SwatchRow) minSize() fyne.Size {
	return fyne.NewSize(8*Step, float32(s.lines(len(s.swatches)))*s.plan.lineHeight())
}
