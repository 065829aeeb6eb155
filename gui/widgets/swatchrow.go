package widgets

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

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

// SwatchRow shows colours edge to edge, with their greys edge to edge below if so wished. A
// click copies a colour's code, pointing at it shows its numbers. Use it on the Fyne
// goroutine only.
type SwatchRow struct {
	widget.BaseWidget
	Plan     SwatchPlan
	acts     SwatchActs
	Swatches []Swatch
	focused  bool
	at       int // which one the keys work on
	r        *swatchRowRenderer
}

// SwatchActs are told what the painter does with a swatch.
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

var (
	_ fyne.Focusable         = (*SwatchRow)(nil)
	_ fyne.Tappable          = (*SwatchRow)(nil)
	_ fyne.SecondaryTappable = (*SwatchRow)(nil)
	_ fyne.Shortcutable      = (*SwatchRow)(nil)
	_ desktop.Hoverable      = (*SwatchRow)(nil)
	_ desktop.Cursorable     = (*SwatchRow)(nil)
)

func NewSwatchRow(plan SwatchPlan, acts SwatchActs) *SwatchRow {
	s := &SwatchRow{Plan: plan, acts: acts}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows swatches, which it keeps, and reports whether the row asks for another height.
func (s *SwatchRow) Set(swatches []Swatch) (resized bool) {
	if slices.Equal(swatches, s.Swatches) {
		return false
	}
	resized = s.lines(len(swatches)) != s.lines(len(s.Swatches))
	s.Swatches = swatches
	s.at = min(s.at, max(len(swatches)-1, 0))
	if s.r != nil {
		s.r.write()
	}
	return resized
}

// Lines is how many lines n swatches take.
func (s *SwatchRow) lines(n int) int {
	if c := s.Plan.Columns; c > 0 {
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

// Box returns where swatch i of n lies in a row of this width.
func (p SwatchPlan) Box(i, n int, width float32) (fyne.Position, fyne.Size) {
	columns := n
	if p.Columns > 0 {
		columns = p.Columns
	}
	x, w := Slot(i%columns, columns, width)
	return fyne.NewPos(x, float32(i/columns)*p.lineHeight()), fyne.NewSize(w, p.Height)
}

// swatchAt returns the swatch at a point, -1 if there is none.
func (s *SwatchRow) swatchAt(p fyne.Position) int {
	for i := range s.Swatches {
		at, size := s.Plan.Box(i, len(s.Swatches), s.Size().Width)
		if p.X >= at.X && p.X < at.X+size.Width && p.Y >= at.Y && p.Y < at.Y+s.Plan.Height+s.Plan.Greys {
			return i
		}
	}
	return -1
}

// Tapped copies the code.
func (s *SwatchRow) Tapped(e *fyne.PointEvent) { s.press(s.swatchAt(e.Position)) }

func (s *SwatchRow) press(i int) { s.act(i, s.acts.Press) }

// TappedSecondary takes the colour to go on from.
func (s *SwatchRow) TappedSecondary(e *fyne.PointEvent) { s.act(s.swatchAt(e.Position), s.acts.Take) }

func (s *SwatchRow) act(i int, do func(Swatch)) {
	if i >= 0 && i < len(s.Swatches) && !s.Swatches[i].None {
		do(s.Swatches[i])
	}
}

// MouseIn is MouseMoved.
func (s *SwatchRow) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved shows the numbers of the swatch under the pointer.
func (s *SwatchRow) MouseMoved(e *desktop.MouseEvent) { s.tell(s.swatchAt(e.Position)) }

// MouseOut takes them away.
func (s *SwatchRow) MouseOut() { s.acts.Tips.Leave() }

func (s *SwatchRow) tell(i int) {
	if i < 0 || s.r == nil || s.Swatches[i].Tip == "" {
		s.acts.Tips.Leave()
		return
	}
	s.acts.Tips.Now(s.Swatches[i].Tip, s.r.boxes[i])
}

// Cursor is the hand: swatches are there to be pressed.
func (s *SwatchRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline and the numbers.
func (s *SwatchRow) FocusGained() {
	s.acts.Keys.Reveal(s)
	s.focused = true
	if first := slices.IndexFunc(s.Swatches, func(w Swatch) bool { return !w.None }); first >= 0 && s.Swatches[s.at].None {
		s.at = first
	}
	s.Refresh()
	if len(s.Swatches) > 0 {
		s.tell(s.at)
	}
}

// FocusLost takes them away.
func (s *SwatchRow) FocusLost() {
	s.focused = false
	s.acts.Tips.Leave()
	s.Refresh()
}

// TypedKey goes from swatch to swatch with the arrows, and copies with Enter or Space.
func (s *SwatchRow) TypedKey(e *fyne.KeyEvent) {
	columns := s.Plan.Columns
	step := map[fyne.KeyName]int{fyne.KeyLeft: -1, fyne.KeyRight: 1, fyne.KeyUp: -columns, fyne.KeyDown: columns}[e.Name]
	switch {
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace:
		s.press(s.at)
	case step == 0:
		s.acts.Keys.TypedKey(e.Name)
	case s.at+step >= 0 && s.at+step < len(s.Swatches):
		s.at += step
		s.Refresh()
		s.tell(s.at)
	}
}

// TypedRune takes the swatch at hand to go on from with U, or goes to the window's keys.
func (s *SwatchRow) TypedRune(r rune) {
	switch r {
	case 'u', 'U':
		s.act(s.at, s.acts.Take)
	case ' ': // has pressed it
	default:
		s.acts.Keys.TypedRune(r)
	}
}

// TypedShortcut copies the swatch at hand, or goes to the window's keys.
func (s *SwatchRow) TypedShortcut(short fyne.Shortcut) {
	if _, ok := short.(*fyne.ShortcutCopy); ok {
		s.press(s.at)
		return
	}
	s.acts.Keys.TypedShortcut(short)
}

// CreateRenderer makes the canvas objects.
func (s *SwatchRow) CreateRenderer() fyne.WidgetRenderer {
	r := &swatchRowRenderer{s: s, focus: newOutline()}
	s.r = r
	r.write()
	return r
}

type swatchRowRenderer struct {
	s                   *SwatchRow
	boxes, greys, under []*canvas.Rectangle
	labels              []*canvas.Text
	focus               outline
	objects             []fyne.CanvasObject
}

// grow makes objects for n swatches; they are never thrown away.
func (r *swatchRowRenderer) grow(n int) {
	for len(r.boxes) < n {
		r.boxes = append(r.boxes, canvas.NewRectangle(color.Transparent))
		r.greys = append(r.greys, canvas.NewRectangle(color.Transparent))
		r.under = append(r.under, canvas.NewRectangle(color.Transparent))
		r.labels = append(r.labels, sizedText(SmallSize, fyne.TextStyle{}))
	}
	r.objects = r.objects[:0]
	for i := range r.boxes {
		r.objects = append(r.objects, r.boxes[i], r.greys[i], r.under[i], r.labels[i])
	}
	r.objects = append(r.objects, r.focus.objects()...)
}

// write puts in what is shown now.
func (r *swatchRowRenderer) write() {
	s, n := r.s, len(r.s.Swatches)
	if len(r.boxes) < n || len(r.objects) == 0 {
		r.grow(n)
	}
	th, v := s.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	for i := range r.boxes {
		there := i < n
		r.boxes[i].Hidden = !there || s.Swatches[i].None
		r.greys[i].Hidden = r.boxes[i].Hidden || s.Plan.Greys == 0
		r.under[i].Hidden = !there || !s.Swatches[i].Marked
		r.labels[i].Hidden = !there || !s.Plan.Labels && !s.Swatches[i].None
		if there {
			r.under[i].FillColor = th.Color(ColorNameFocusLine, v)
			r.labels[i].Color = th.Color(theme.ColorNameForeground, v)
			r.swatch(i, s.Swatches[i])
		}
	}
	r.focus.hide()
	if s.focused && s.at < n {
		at, size := s.Plan.Box(s.at, n, s.Size().Width)
		r.focus.show(at, fyne.NewSize(size.Width, s.Plan.Height+s.Plan.Greys))
	}
}

// swatch places and fills swatch i.
func (r *swatchRowRenderer) swatch(i int, w Swatch) {
	s := r.s
	at, size := s.Plan.Box(i, len(s.Swatches), s.Size().Width)
	label := at.AddXY(0, s.Plan.Height+s.Plan.Greys+1)
	if w.None {
		label = at.AddXY(0, s.Plan.Height/2-Step)
	}
	top := float32(0)
	if w.Short {
		top = float32(int(size.Height / 2))
	}
	fill(r.boxes[i], color.NRGBA{w.Colour.R, w.Colour.G, w.Colour.B, 255})
	r.boxes[i].Move(at.AddXY(0, top))
	r.boxes[i].Resize(fyne.NewSize(size.Width, size.Height-top))
	fill(r.greys[i], color.NRGBA{w.Grey, w.Grey, w.Grey, 255})
	r.greys[i].Move(at.AddXY(0, size.Height))
	r.greys[i].Resize(fyne.NewSize(size.Width, s.Plan.Greys))
	put(r.labels[i], longestFitting(size.Width, SmallSize, w.Label, ""))
	placeText(r.labels[i], label.X+(size.Width-r.labels[i].MinSize().Width)/2, label.Y)
	wide := min(3*Step, size.Width)
	r.under[i].Move(fyne.NewPos(at.X+(size.Width-wide)/2, at.Y+s.Plan.lineHeight()-2))
	r.under[i].Resize(fyne.NewSize(wide, 2))
}

// Layout places everything.
func (r *swatchRowRenderer) Layout(fyne.Size) { r.write() }

// MinSize has a fixed height for a number of swatches.
func (r *swatchRowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(8*Step, float32(r.s.lines(len(r.s.Swatches)))*r.s.Plan.lineHeight())
}

// Refresh draws with the theme of now.
func (r *swatchRowRenderer) Refresh() {
	r.write()
	for _, o := range r.objects {
		o.Refresh()
	}
}

// Objects are all that is drawn.
func (r *swatchRowRenderer) Objects() []fyne.CanvasObject { return r.objects }

// Destroy has nothing to let go of.
func (r *swatchRowRenderer) Destroy() {}
