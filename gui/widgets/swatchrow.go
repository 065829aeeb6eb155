package widgets

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// Lengths that swatches share.
const (
	SwatchHeight = 5 * Step // 40, the least for a fair comparison
	cardRow      = 2 * Step // height of a line
	cardBaseline = 1.5 * Step
	crossSize    = 1.75 * Step
)

// inside reports whether p lies on o, or next to it within reach.
func inside(p fyne.Position, o fyne.CanvasObject) bool {
	return within(p, o.Position(), o.Size(), reach)
}

// Swatch is a colour on offer.
type Swatch struct {
	Colour colour.RGB
	Grey   uint8  // of the same lightness
	Label  string // below it, or on it
	Tip    string // its numbers
	None   bool   // there is no such colour: Label says why
	Marked bool   // its label stands out: where the row begins from
}

// SwatchRow shows colours edge to edge inside one hairline, with their greys edge to edge below if
// asked for. A click copies a colour's code, pointing at it shows its numbers.
type SwatchRow struct {
	drawn
	focus
	plan     SwatchPlan
	acts     SwatchActs
	swatches []Swatch
	at       int // which one the keys work on

	// Objects are never thrown away: there are as many as there ever were swatches.
	edges        []*canvas.Rectangle // the hairline, a line of swatches each
	boxes, greys []*canvas.Rectangle
	labels       []*canvas.Text
	line         outline // around the swatch that the keys work on, over all others
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
	Height float32 // of the colours
	Greys  float32 // height of the greys below; 0 for none
	Labels bool    // below them
	Inside bool    // labels stand on the swatches
	Beside bool    // the greys stand beside the colours, half of the width each
	Skip   int     // so many places are left free before the first, for rows under others
	Cell   float32 // a swatch's width where there are as many lines as it takes; 0 for all in one
	Least  float32 // the least height in which a press means a swatch
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
	width := s.Size().Width
	if width == 0 {
		width = plainPageWidth - 2*Step
	}
	c := s.plan.columns(n, width)
	return max((n+c-1)/c, 1)
}

// columns is how many of n swatches stand in a line of this width.
func (p SwatchPlan) columns(n int, width float32) int {
	if p.Cell == 0 {
		return max(n+p.Skip, 1)
	}
	return max(int((width-2*hairline)/p.Cell), 1)
}

// hairline is the width of the line around a group of swatches.
const hairline = 1

// lineHeight is the height of a line with all that belongs to it.
func (p SwatchPlan) lineHeight() float32 {
	h := p.Height + p.Greys + 2*hairline
	if p.Labels {
		h += labelRow()
	}
	return max(h, p.Least)
}

// labelRow is the height of a line of labels below swatches.
func labelRow() float32 { return round(17 * textScale()) }

// box returns where swatch i of n lies in a row of this width.
func (p SwatchPlan) box(i, n int, width float32) (fyne.Position, fyne.Size) {
	columns := p.columns(n, width)
	x, w := slot((i+p.Skip)%columns, columns, width-2*hairline)
	return fyne.NewPos(x+hairline, float32(i/columns)*p.lineHeight()+hairline), fyne.NewSize(w, p.Height)
}

// Target returns where a press means swatch i: on its grey too, and around a low one.
func (s *SwatchRow) Target(i int) (fyne.Position, fyne.Size) {
	at, size := s.Box(i)
	if s.plan.Least > 0 {
		at.Y -= hairline
	}
	return at, fyne.NewSize(size.Width, max(s.plan.Height+s.plan.Greys, s.plan.Least))
}

// swatchAt returns the swatch at a point, -1 if there is none.
func (s *SwatchRow) swatchAt(p fyne.Position) int {
	for i := range s.swatches {
		if at, size := s.Target(i); p.X >= at.X && p.X < at.X+size.Width && p.Y >= at.Y && p.Y < at.Y+size.Height {
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
	step := arrows[e.Name].X
	if s.plan.Cell > 0 {
		step += arrows[e.Name].Y * s.plan.columns(len(s.swatches), s.Size().Width)
	}
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

// grow makes objects for n swatches in so many lines.
func (s *SwatchRow) grow(n, lines int) {
	s.objects = nil // the hairlines lie below all, the outline above
	for len(s.edges) < lines {
		s.edges = append(s.edges, s.addBox())
	}
	for len(s.boxes) < n {
		s.boxes, s.greys = append(s.boxes, s.addBox()), append(s.greys, s.addBox())
		s.labels = append(s.labels, s.addText(SmallSize, fyne.TextStyle{}))
	}
	s.objects = nil
	for _, e := range s.edges {
		s.objects = append(s.objects, e)
	}
	for i := range s.boxes {
		s.objects = append(s.objects, s.boxes[i], s.greys[i], s.labels[i])
	}
	s.objects = append(s.objects, s.line.dark, s.line.light)
}

// write puts in the colours, and the labels that fit.
func (s *SwatchRow) write(size fyne.Size, of colours) {
	n, lines := len(s.swatches), 0
	if c := s.plan.columns(n, size.Width); n > 0 {
		lines = (n + c - 1) / c
	}
	s.grow(n, lines)
	for i, e := range s.edges {
		fill(e, of(ColorNameHairline))
		show(e, i < lines)
	}
	for i := range s.boxes {
		w := nth(s.swatches, i)
		_, box := s.plan.box(i, n, size.Width)
		there := i < n && !w.None
		if there {
			fill(s.boxes[i], rgbFill(w.Colour))
		} else {
			fill(s.boxes[i], of(ColorNamePanel)) // over the hairline, which lies below the whole group
		}
		fill(s.greys[i], greyFill(w.Grey))
		show(s.boxes[i], i < n)
		show(s.greys[i], there && (s.plan.Greys > 0 || s.plan.Beside))
		show(s.labels[i], i < n && (s.plan.Labels || s.plan.Inside || w.None))
		s.labels[i].TextStyle.Bold = w.Marked
		say(s.labels[i], longestFitting(box.Width, SmallSize(), w.Label, shortLabel(w)), s.ink(w, of))
	}
	s.line.show(s.focused && s.at < n)
}

// shortLabel stands where a swatch's label has no room.
func shortLabel(w Swatch) string {
	if w.None {
		return wording.Unknown
	}
	return ""
}

// ink is the colour of a swatch's label.
func (s *SwatchRow) ink(w Swatch, of colours) color.Color {
	switch {
	case w.Marked:
		return of(theme.ColorNameForeground)
	case !s.plan.Inside || w.None:
		return of(ColorNameQuiet)
	case w.Grey < inkTurns:
		return color.White
	}
	return color.Black
}

// inkTurns is the 8-bit grey from which on black letters have more contrast than white ones: 4.6
// to 1 on it, and more elsewhere (WCAG 2.2, contrast ratio: (L+0.05) over (l+0.05)).
const inkTurns = 118

// place stands the swatches edge to edge.
func (s *SwatchRow) place(size fyne.Size) {
	n := len(s.swatches)
	columns := s.plan.columns(n, size.Width)
	for i, e := range s.edges {
		if first, last := i*columns, min((i+1)*columns, n)-1; last >= first {
			from, _ := s.plan.box(first, n, size.Width)
			to, box := s.plan.box(last, n, size.Width)
			put(e, from.SubtractXY(hairline, hairline), fyne.NewSize(to.X+box.Width-from.X+2*hairline, s.plan.Height+s.plan.Greys+2*hairline))
		} else {
			put(e, fyne.Position{}, fyne.Size{})
		}
	}
	for i, w := range s.swatches[:min(n, len(s.boxes))] {
		at, box := s.plan.box(i, n, size.Width)
		high := box.Height
		if w.None {
			high += s.plan.Greys
		}
		put(s.boxes[i], at, fyne.NewSize(box.Width, high))
		put(s.greys[i], at.AddXY(0, box.Height), fyne.NewSize(box.Width, s.plan.Greys))
		if half := float32(int(box.Width / 2)); s.plan.Beside {
			put(s.greys[i], at.AddXY(half, 0), fyne.NewSize(box.Width-half, box.Height))
		}
		middle := at.Y + s.plan.Height + s.plan.Greys + hairline + labelRow()/2
		if w.None || s.plan.Inside {
			middle = at.Y + high/2
		}
		setOn(s.labels[i], at.X+(box.Width-s.labels[i].MinSize().Width)/2, middle+halfCapital*textScale())
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

// slot returns where part i of n equal ones lies in a row of this width.
func slot(i, n int, width float32) (x, w float32) {
	from, to := float32(int(width*float32(i)/float32(n))), float32(int(width*float32(i+1)/float32(n)))
	return from, to - from
}
