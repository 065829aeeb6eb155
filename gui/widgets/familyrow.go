package widgets

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// FamilyActs are the callbacks for what the painter does with a row.
type FamilyActs struct {
	Point  func(on bool)      // the pointer or the focus is on the row, or no longer
	Choose func()             // the row was pressed
	Keep   func()             // its upper button was
	Delete func()             // its cross was
	Take   func(c colour.RGB) // a side was pressed with the other button
	Copy   func(c colour.RGB) // a line's colour was pressed
	Keys   Keys
	Tips   *Tips
}

// FamilyRow shows one family: light and shadow edge to edge, their greys edge to edge, what
// there is to say, and beside it what can be said to it. Pointing at it outlines its sides in
// the mirror, a press makes its colours spots.
type FamilyRow struct {
	drawn
	focus
	acts FamilyActs
	text wording.FamilyRowText
	over int // of the row and its buttons, how many the pointer or the focus is on

	panel              edgedPanel
	boxes              [4]*canvas.Rectangle // light, shadow, their greys
	frame              *canvas.Rectangle    // a thin edge around the swatches: one may be like the panel
	tones, says, share *canvas.Text
	remarks            []*canvas.Text       // as many as there ever were
	lines              [3]*canvas.Rectangle // colours of lines that would fit
	Keep, Cross        *Button
}

// NewFamilyRow returns a row without a reading as yet.
func NewFamilyRow(acts FamilyActs) *FamilyRow {
	f := &FamilyRow{acts: acts}
	f.focus = focus{keys: acts.Keys, owner: f, changed: f.focusChanged}
	f.panel = newEdgedPanel(&f.drawn)
	f.frame = f.addBox()
	for i := range f.boxes {
		f.boxes[i] = f.addBox()
	}
	f.tones, f.says = f.addText(TextSize, fyne.TextStyle{Bold: true}), f.addText(TextSize, fyne.TextStyle{})
	f.share = f.addText(SmallSize, fyne.TextStyle{})
	for i := range f.lines {
		f.lines[i] = f.addBox()
	}
	f.Keep, f.Cross = add(&f.drawn, NewButton("", acts.Keys, acts.Keep)), add(&f.drawn, NewButton("", acts.Keys, acts.Delete))
	f.Cross.Icon = theme.CancelIcon()
	f.Keep.Pointed, f.Cross.Pointed = f.point, f.point
	f.draw(f)
	return f
}

// Pointed reports whether the pointer or the focus is on the row or one of its buttons.
func (f *FamilyRow) Pointed() bool { return f.over > 0 }

// Leave is for a row that is hidden or shown: nothing is on it.
func (f *FamilyRow) Leave() {
	if f.over > 0 {
		f.over = 0
		f.acts.Point(false)
	}
}

// point counts what the pointer and the focus come to and leave.
func (f *FamilyRow) point(on bool) {
	was := f.over > 0
	if on {
		f.over++
	} else {
		f.over = max(f.over-1, 0)
	}
	if now := f.over > 0; now != was {
		f.acts.Point(now)
	}
}

// Set shows t, and reports whether the row asks for another height.
func (f *FamilyRow) Set(t wording.FamilyRowText) (resized bool) {
	if t.Equal(f.text) {
		return false
	}
	width := f.Size().Width
	before := len(f.remarkLines(width))
	f.text = t
	f.redraw()
	return len(f.remarkLines(width)) != before
}

// Text returns what is shown.
func (f *FamilyRow) Text() wording.FamilyRowText { return f.text }

// Tapped makes the colours spots, or copies a line's.
func (f *FamilyRow) Tapped(e *fyne.PointEvent) {
	if i := f.lineAt(e.Position); i >= 0 {
		f.acts.Copy(f.text.Lines[i])
		return
	}
	f.acts.Choose()
}

// TappedSecondary goes on from the side under the pointer, to colours to paint next.
func (f *FamilyRow) TappedSecondary(e *fyne.PointEvent) {
	p := planFamily(f.Size().Width)
	if f.text.Lost || e.Position.X < p.swatch.X || e.Position.X >= p.swatch.X+4*p.side {
		return
	}
	side := f.text.Light
	if i := int((e.Position.X - p.swatch.X) / p.side); i%2 == 1 {
		side = f.text.Shadow
	}
	f.acts.Take(side)
}

// lineAt returns the proposed line's colour at a point, -1 if there is none.
func (f *FamilyRow) lineAt(p fyne.Position) int {
	return slices.IndexFunc(f.lines[:], func(box *canvas.Rectangle) bool { return !box.Hidden && inside(p, box) })
}

// MouseIn points at the family.
func (f *FamilyRow) MouseIn(e *desktop.MouseEvent) {
	f.point(true)
	f.MouseMoved(e)
}

// MouseMoved lets the tip come of the part under the pointer.
func (f *FamilyRow) MouseMoved(e *desktop.MouseEvent) {
	if i := f.lineAt(e.Position); i >= 0 {
		f.acts.Tips.Now("Copy "+f.text.Lines[i].Hex(), f.lines[i])
		return
	}
	f.acts.Tips.enter("Click: these colours become spots A and B. Right click: go on from one", f)
}

// MouseOut points no longer.
func (f *FamilyRow) MouseOut() {
	f.acts.Tips.Leave()
	f.point(false)
}

// Cursor is the hand: rows are there to be pressed.
func (f *FamilyRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// focusChanged shows whether the row has the focus, here and in the mirror.
func (f *FamilyRow) focusChanged() {
	f.point(f.focused)
	f.redraw()
}

// TypedKey presses the row with Enter or Space, and its cross with Delete.
func (f *FamilyRow) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		f.acts.Choose()
	case f.text.Cross != "" && deletes(e):
		f.acts.Delete()
	default:
		f.keys.TypedKey(e.Name)
	}
}

// write puts in what is shown now; how the remarks break depends on the width.
func (f *FamilyRow) write(size fyne.Size, of colours) {
	t, fore, quiet := f.text, of(theme.ColorNameForeground), of(ColorNameQuiet)
	f.panel.write(of, f.focused, false)
	for i, c := range [4]color.Color{rgbFill(t.Light), rgbFill(t.Shadow), greyFill(t.LightGrey), greyFill(t.ShadowGrey)} {
		fill(f.boxes[i], c)
		show(f.boxes[i], !t.Lost)
	}
	fill(f.frame, of(ColorNameMass))
	show(f.frame, !t.Lost)
	f.writeActs()
	say(f.tones, t.Tones, fore)
	say(f.says, longestFitting(planFamily(size.Width).says.width(), TextSize, t.Says, t.SaysShort), fore)
	say(f.share, t.Share, quiet)
	for i, box := range f.lines {
		show(box, i < len(t.Lines))
		fill(box, rgbFill(nth(t.Lines, i)))
	}
	remarks := f.remarkLines(size.Width)
	for len(f.remarks) < len(remarks) {
		f.remarks = append(f.remarks, f.addText(SmallSize, fyne.TextStyle{}))
	}
	for i, text := range f.remarks {
		say(text, nth(remarks, i), quiet)
	}
}

// writeActs puts the words on the buttons. One that goes while it has the focus gives it to the
// other one, so that keys go on from here.
func (f *FamilyRow) writeActs() {
	t := f.text
	f.Keep.Explain(f.acts.Tips, t.KeepTip)
	f.Cross.Explain(f.acts.Tips, t.Cross)
	if f.Keep.Text != t.Keep {
		f.Keep.SetText(t.Keep)
	}
	if f.Cross.focused && t.Cross == "" && t.Keep != "" {
		show(f.Keep, true)
		if c := fyne.CurrentApp().Driver().CanvasForObject(f); c != nil {
			c.Focus(f.Keep)
		}
	}
	show(f.Keep, t.Keep != "")
	show(f.Cross, t.Cross != "")
}

func (f *FamilyRow) place(size fyne.Size) {
	f.panel.place(size)
	p := planFamily(size.Width)
	for i, box := range f.boxes {
		put(box, p.swatch.AddXY(float32(i)*p.side, 0), fyne.NewSize(p.side, SwatchHeight))
	}
	put(f.Keep, p.keep, fyne.NewSize(actsWide, actsHigh))
	put(f.Cross, p.cross, fyne.NewSize(actsWide, actsHigh))
	put(f.frame, p.swatch.SubtractXY(1, 1), fyne.NewSize(4*p.side+2, SwatchHeight+2))
	setLeft(f.tones, p.tones)
	setLeft(f.says, p.says)
	setRight(f.share, p.tones)
	var end fyne.Position // of the last remark, after which the colours of lines stand
	for i, t := range f.remarks {
		at := p.rest
		at.baseline += float32(i) * cardRow
		setLeft(t, at)
		if t.Text != "" {
			end = t.Position().AddXY(t.MinSize().Width+Step, 1)
		}
	}
	for i, box := range f.lines {
		put(box, end.AddXY(float32(i)*lineStep, 0), fyne.NewSquareSize(lineSide))
	}
}

// minSize is as high as its lines.
func (f *FamilyRow) minSize() fyne.Size {
	size := fyne.NewSize(30*Step, 2*Step+SwatchHeight)
	if lines := len(f.remarkLines(f.Size().Width)); lines > 0 {
		size.Height += float32(lines)*cardRow + Step/2
	}
	return size
}

// familyPlan is where everything lies in a row of a certain width.
type familyPlan struct {
	swatch fyne.Position // its top left
	side   float32       // width of each of the four
	tones  span          // beside the swatches; the share stands at its right
	says   span          // below that
	rest   span          // the first remark; the others follow below it
	keep   fyne.Position // its button; the cross is below it
	cross  fyne.Position
}

// actsWide and actsHigh are the size of a row's buttons.
const (
	actsWide = 6.5 * Step
	actsHigh = 3.25 * Step
)

// planFamily lays out a row: swatches and, beside them, the tones and the verdict, then
// the buttons; remarks go below, as wide as the row.
func planFamily(width float32) familyPlan {
	p := familyPlan{swatch: fyne.NewPos(Step, Step)}
	p.side = float32(int(min(width*0.36, 22*Step) / 4))
	left, right := Step+4*p.side+1.5*Step, width-actsWide-Step/2
	p.tones = span{left, right, Step + 2*Step}
	p.says = span{left, right, Step + 4.25*Step}
	p.keep = fyne.NewPos(width-actsWide, 0)
	p.cross = p.keep.AddXY(0, actsHigh)
	p.rest = span{Step, width - Step, Step + SwatchHeight + 2*Step}
	return p
}

// remarkLines are the remarks as they fit below the swatches of a row of this width, in as many
// lines as they need.
func (f *FamilyRow) remarkLines(width float32) []string {
	room := planFamily(width).rest.width()
	var lines []string
	for _, remark := range f.text.Remarks {
		lines = append(lines, brokenLines(remark, room, math.MaxInt, smallWidth)...)
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
