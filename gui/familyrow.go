package gui

import (
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
)

// FamilyRowText is what a family's row shows, ready to be drawn.
type FamilyRowText struct {
	Light, Shadow         analysis.RGB
	LightGrey, ShadowGrey uint8          // of the same lightness
	Title, Short          string         // "2.2 tones: reads"; the same for a narrow window
	Remarks               []string       // quieter, a line each
	Lines                 []analysis.RGB // lines to draw instead, after the last remark
	ByHand                bool           // set by the painter, who may take it away
	Lost                  bool           // there is no reading
}

func (t FamilyRowText) equal(o FamilyRowText) bool {
	return t.Light == o.Light && t.Shadow == o.Shadow && t.LightGrey == o.LightGrey && t.ShadowGrey == o.ShadowGrey &&
		t.Title == o.Title && t.Short == o.Short && slices.Equal(t.Remarks, o.Remarks) && slices.Equal(t.Lines, o.Lines) && t.ByHand == o.ByHand && t.Lost == o.Lost
}

// FamilyActs are told what the painter does with row i.
type FamilyActs struct {
	Point  func(i int, on bool) // the pointer or the focus is on the row
	Choose func(i int)          // the row was pressed
	Delete func(i int)          // of a family set by hand
	Copy   func(c analysis.RGB) // a line's colour was pressed
	Keys   keySink
	Tips   *tips
}

// familyRow shows one family: light and shadow edge to edge, their greys edge to edge, what
// there is to say. Pointing at it outlines its sides in the mirror, a press makes its
// colours spots. Use it on the Fyne goroutine only.
type familyRow struct {
	widget.BaseWidget
	index   int
	acts    FamilyActs
	text    FamilyRowText
	focused bool
	over    bool
	r       *familyRowRenderer
}

var (
	_ fyne.Focusable     = (*familyRow)(nil)
	_ fyne.Tappable      = (*familyRow)(nil)
	_ fyne.Shortcutable  = (*familyRow)(nil)
	_ desktop.Cursorable = (*familyRow)(nil)
	_ desktop.Hoverable  = (*familyRow)(nil)
)

func newFamilyRow(index int, acts FamilyActs) *familyRow {
	f := &familyRow{index: index, acts: acts}
	f.ExtendBaseWidget(f)
	return f
}

// set shows t, and reports whether the row asks for another height.
func (f *familyRow) set(t FamilyRowText) (resized bool) {
	if t.equal(f.text) {
		return false
	}
	before := len(f.lines())
	f.text = t
	resized = len(f.lines()) != before
	if f.r != nil {
		f.r.write()
	}
	return resized
}

// lines are the remarks as they fit into the row: the first beside the swatches, the others
// below them in as many lines as they need.
func (f *familyRow) lines() []string {
	if len(f.text.Remarks) == 0 {
		return nil
	}
	p := planFamily(f.Size().Width, 0)
	lines := []string{f.text.Remarks[0]}
	for _, remark := range f.text.Remarks[1:] {
		lines = append(lines, wrapped(remark, p.rest.width(), func(s string) float32 {
			return fyne.MeasureText(s, SmallSize, fyne.TextStyle{}).Width
		})...)
	}
	if len(f.text.Lines) > 0 {
		lines = append(lines, lineOffer)
	}
	return lines
}

// lineOffer stands before the colours of lines that would fit.
const lineOffer = "a line that fits it:"

// lineSide is the side of such a colour, and the way from one to the next.
const (
	lineSide = 1.75 * Step
	lineStep = 2.25 * Step
)

// wrapped breaks words into lines no wider than room, but for a word that is wider itself.
func wrapped(words string, room float32, measure func(string) float32) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(words, " ") { // a space that doesn't break is none of these
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && measure(longer) > room {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// Tapped makes the colours spots, or deletes a family that was set by hand.
func (f *familyRow) Tapped(e *fyne.PointEvent) {
	if f.text.ByHand && f.r != nil && inside(e.Position, f.r.cross) {
		f.acts.Delete(f.index)
		return
	}
	if f.r != nil {
		for i, box := range f.r.lines {
			if !box.Hidden && inside(e.Position, box) {
				f.acts.Copy(f.text.Lines[i])
				return
			}
		}
	}
	f.acts.Choose(f.index)
}

// MouseIn points at the family.
func (f *familyRow) MouseIn(e *desktop.MouseEvent) {
	f.over = true
	f.acts.Point(f.index, true)
	f.MouseMoved(e)
}

// MouseMoved lets the tip come of the part under the pointer.
func (f *familyRow) MouseMoved(e *desktop.MouseEvent) {
	if f.text.ByHand && f.r != nil && inside(e.Position, f.r.cross) {
		f.acts.Tips.enter("Take this family away (Delete)", f.r.cross)
		return
	}
	if f.r != nil {
		for i, box := range f.r.lines {
			if !box.Hidden && inside(e.Position, box) {
				f.acts.Tips.now("Copy "+f.text.Lines[i].Hex(), box)
				return
			}
		}
	}
	f.acts.Tips.enter("Make these colours spots A and B (Enter)", f)
}

// MouseOut points no longer.
func (f *familyRow) MouseOut() {
	f.over = false
	f.acts.Tips.leave()
	f.acts.Point(f.index, f.focused)
}

// Cursor is the hand: rows are there to be pressed.
func (f *familyRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline, here and in the mirror.
func (f *familyRow) FocusGained() { f.setFocused(true) }

// FocusLost takes it away.
func (f *familyRow) FocusLost() { f.setFocused(false) }

func (f *familyRow) setFocused(focused bool) {
	f.focused = focused
	f.acts.Point(f.index, focused || f.over)
	if f.r != nil {
		f.r.Refresh()
	}
}

// TypedKey presses the row with Enter or Space and deletes with Delete.
func (f *familyRow) TypedKey(e *fyne.KeyEvent) {
	switch {
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter || e.Name == fyne.KeySpace:
		f.acts.Choose(f.index)
	case f.text.ByHand && (e.Name == fyne.KeyDelete || e.Name == fyne.KeyBackspace):
		f.acts.Delete(f.index)
	default:
		f.acts.Keys.typedKey(e.Name)
	}
}

// TypedRune goes to the window's keys.
func (f *familyRow) TypedRune(r rune) {
	if r != ' ' {
		f.acts.Keys.typedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (f *familyRow) TypedShortcut(s fyne.Shortcut) { f.acts.Keys.typedShortcut(s) }

// familyPlan is where everything lies in a row of a certain width.
type familyPlan struct {
	swatch fyne.Position // its top left
	side   float32       // width of each of the four
	title  span          // beside the swatches
	first  span          // the first remark, below the title
	rest   span          // the second remark; the others follow below it
	cross  fyne.Position
	height float32
}

// planFamily lays out a row: swatches and, beside them, the title and the first remark;
// the other remarks go below, as wide as the row.
func planFamily(width float32, lines int) familyPlan {
	p := familyPlan{swatch: fyne.NewPos(Step, Step)}
	p.side = float32(int(min(width*0.48, 22*Step) / 4))
	left, right := Step+4*p.side+1.5*Step, width-Step
	p.title = span{left, right - crossSize, Step + 2*Step}
	p.first = span{left, right, Step + 4*Step}
	p.cross = fyne.NewPos(right-crossSize+2, Step)
	p.rest = span{Step, right, Step + swatchHeight + 1.75*Step}
	p.height = 2*Step + swatchHeight
	if lines > 1 {
		p.height += float32(lines-1)*cardRow + Step/4
	}
	return p
}

// CreateRenderer makes the canvas objects.
func (f *familyRow) CreateRenderer() fyne.WidgetRenderer {
	r := &familyRowRenderer{f: f, back: canvas.NewRectangle(nil), outline: canvas.NewRectangle(nil),
		cross: canvas.NewImageFromResource(theme.CancelIcon()), title: sizedText(TextSize, fyne.TextStyle{Bold: true})}
	r.back.CornerRadius, r.outline.CornerRadius = Radius, Radius
	for i := range r.boxes {
		r.boxes[i] = canvas.NewRectangle(color.Transparent)
	}
	for i := range r.lines {
		r.lines[i] = canvas.NewRectangle(color.Transparent)
	}
	f.r = r
	r.colour()
	r.write()
	return r
}

type familyRowRenderer struct {
	f             *familyRow
	outline, back *canvas.Rectangle
	boxes         [4]*canvas.Rectangle // light, shadow, their greys
	title         *canvas.Text
	remarks       []*canvas.Text
	lines         [3]*canvas.Rectangle // colours of lines that would fit
	cross         *canvas.Image
}

func (r *familyRowRenderer) colour() {
	th, v := r.f.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.outline.FillColor = r.back.FillColor
	width := float32(0)
	if r.f.focused {
		r.outline.FillColor, width = th.Color(ColorNameFocusLine, v), FocusWidth
	}
	r.back.Move(fyne.NewPos(width, width))
	r.back.Resize(r.f.Size().SubtractWidthHeight(2*width, 2*width))
	r.title.Color = th.Color(theme.ColorNameForeground, v)
	for _, t := range r.remarks {
		t.Color = th.Color(ColorNameQuiet, v)
	}
}

// write puts in what is shown now.
func (r *familyRowRenderer) write() {
	t := r.f.text
	for i, c := range [4]analysis.RGB{t.Light, t.Shadow, greyOf(t.LightGrey), greyOf(t.ShadowGrey)} {
		fill(r.boxes[i], color.NRGBA{c.R, c.G, c.B, 255})
		r.boxes[i].Hidden = t.Lost
	}
	put(r.title, longestFitting(planFamily(r.f.Size().Width, 0).title.width(), TextSize, t.Title, t.Short))
	r.cross.Hidden = !t.ByHand
	lines := r.f.lines()
	for len(r.remarks) < len(lines) {
		r.remarks = append(r.remarks, sizedText(SmallSize, fyne.TextStyle{}))
		r.colour()
	}
	for i, text := range r.remarks {
		text.Hidden = i >= len(lines)
		if !text.Hidden {
			put(text, lines[i])
		}
	}
	r.place(len(lines))
}

func greyOf(v uint8) analysis.RGB { return analysis.RGB{R: v, G: v, B: v} }

// Layout writes anew: how the remarks break depends on the width.
func (r *familyRowRenderer) Layout(fyne.Size) { r.write() }

// place places everything.
func (r *familyRowRenderer) place(lines int) {
	size := r.f.Size()
	r.outline.Resize(size)
	r.colour()
	p := planFamily(size.Width, lines)
	for i, box := range r.boxes {
		box.Move(p.swatch.AddXY(float32(i)*p.side, 0))
		box.Resize(fyne.NewSize(p.side, swatchHeight))
	}
	r.cross.Move(p.cross)
	r.cross.Resize(fyne.NewSquareSize(crossSize))
	setLeft(r.title, p.title)
	for i, t := range r.remarks {
		at := p.first
		if i > 0 {
			at = p.rest
			at.baseline += float32(i-1) * cardRow
		}
		setLeft(t, at)
	}
	for i, box := range r.lines {
		box.Hidden = i >= len(r.f.text.Lines)
		if !box.Hidden {
			c := r.f.text.Lines[i]
			last := r.remarks[lines-1]
			fill(box, color.NRGBA{c.R, c.G, c.B, 255})
			box.Move(last.Position().AddXY(last.MinSize().Width+Step+float32(i)*lineStep, 1))
			box.Resize(fyne.NewSquareSize(lineSide))
		}
	}
}

// MinSize is as high as its lines.
func (r *familyRowRenderer) MinSize() fyne.Size {
	return fyne.NewSize(30*Step, planFamily(r.f.Size().Width, len(r.f.lines())).height)
}

// Refresh draws with the theme of now.
func (r *familyRowRenderer) Refresh() {
	r.colour()
	r.write()
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn, from below.
func (r *familyRowRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.outline, r.back}
	for _, b := range r.boxes {
		all = append(all, b)
	}
	all = append(all, r.title, r.cross)
	for _, t := range r.remarks {
		all = append(all, t)
	}
	for _, b := range r.lines {
		all = append(all, b)
	}
	return all
}

// Destroy has nothing to let go of.
func (r *familyRowRenderer) Destroy() {}
