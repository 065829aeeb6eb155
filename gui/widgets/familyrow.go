package widgets

import (
	"image/color"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// FamilyActs are the callbacks for what the painter does with a row.
type FamilyActs struct {
	Point  func(on bool)                             // the pointer or the focus is on the row, or no longer
	Choose func()                                    // the row was pressed
	Keep   func()                                    // its first button was
	Delete func()                                    // its cross was
	Menu   func(at fyne.Position, side colour.RGB)   // what else can be done is asked for, of a side
	Copy   func(c colour.RGB)                        // the accent or the line was pressed
	Later  func(time.Duration, func()) (stop func()) // does something after a while; nil: never
	Keys   Keys
	Tips   *Tips
}

// FamilyRow shows one local colour: light and shadow edge to edge over their greys, what there is to
// say in two lines, its accent and line, its share. Pointing at it outlines its sides in the mirror
// and shows two buttons below the share; a press makes its colours spots.
type FamilyRow struct {
	drawn
	focus
	acts FamilyActs
	text wording.FamilyRowText
	on   pointedBy
	hold hold
	came func() // stops the timer while the buttons have only just come; nil: none runs

	frame              *canvas.Rectangle    // a hairline around the swatches: one may be like the panel
	boxes              [4]*canvas.Rectangle // light, shadow, their greys
	tones, says, share *canvas.Text
	sign               *canvas.Image // before what is to be minded
	below              *canvas.Text
	marks              [2]familyMark // accent and line
	line               *canvas.Rectangle
	Keep, Cross        *Button
}

// pointedBy says by what a row is pointed at.
type pointedBy struct{ pointer, focus, keep, cross bool }

func (p pointedBy) any() bool { return p != pointedBy{} }

// buttonsSettle is how long after they came the buttons are not yet pressed: who taps with a pen that
// is not seen before it touches can't have meant them (our choice).
const buttonsSettle = 250 * time.Millisecond

// familyMark is the swatch of an accent or a line: a frame, and the colour within it.
type familyMark struct{ frame, inside *canvas.Rectangle }

// hold is a press that is held: it asks for the menu, as a right tap does.
type hold struct {
	stop func() // nil: none runs
	done bool   // it did, so that letting go is no tap
}

// NewFamilyRow returns a row without a reading as yet.
func NewFamilyRow(acts FamilyActs) *FamilyRow {
	f := &FamilyRow{acts: acts}
	f.focus = focus{keys: acts.Keys, owner: f, changed: f.focusChanged}
	f.frame = f.addBox()
	for i := range f.boxes {
		f.boxes[i] = f.addBox()
	}
	f.tones, f.says = f.addText(TextSize, fyne.TextStyle{}), f.addText(TextSize, fyne.TextStyle{})
	f.sign, f.below = f.addIcon(), f.addText(SmallSize, fyne.TextStyle{})
	for i := range f.marks {
		f.marks[i] = familyMark{f.addBox(), f.addBox()}
	}
	f.Keep, f.Cross = add(&f.drawn, NewButton("", acts.Keys, f.meant(acts.Keep)).Flat()), add(&f.drawn, NewButton("", acts.Keys, f.meant(acts.Delete)).Flat())
	f.Cross.SetIcon(icons.Close)
	f.Keep.came = func(on bool) { f.point(&f.on.keep, on) }
	f.Cross.came = func(on bool) { f.point(&f.on.cross, on) }
	f.share = f.addText(TextSize, fyne.TextStyle{}) // over the ground of a button that is pointed at
	f.line = add(&f.drawn, newFocusLine(Radius+FocusGap))
	f.draw(f)
	return f
}

// Pointed reports whether the pointer or the focus is on the row or one of its buttons.
func (f *FamilyRow) Pointed() bool { return f.on.any() }

// Leave is for a row that is hidden or shown: nothing is on it.
func (f *FamilyRow) Leave() { f.left(pointedBy{}) }

// Scrolled is for a row that lies elsewhere now: the pointer is not on it, but the focus may be.
func (f *FamilyRow) Scrolled() {
	f.left(pointedBy{focus: f.focused, keep: f.Keep.focused, cross: f.Cross.focused})
}

func (f *FamilyRow) left(now pointedBy) {
	was := f.on.any()
	if f.on = now; was && !now.any() {
		f.acts.Point(false)
		f.redraw()
	}
}

// meant is what a button does: where it has only just come, what the row does.
func (f *FamilyRow) meant(do func()) func() {
	return func() {
		if f.came != nil && !f.on.focus && !f.Keep.focused && !f.Cross.focused {
			f.acts.Choose()
			return
		}
		do()
	}
}

// settle lets the buttons come under a pointer that has only just come itself.
func (f *FamilyRow) settle() {
	if f.acts.Later == nil || f.came != nil {
		return
	}
	f.came = func() {} // it may be over at once
	if stop := f.acts.Later(buttonsSettle, func() { f.came = nil }); f.came != nil {
		f.came = stop
	}
}

// point notes that the pointer or the focus comes to a part, or goes.
func (f *FamilyRow) point(part *bool, on bool) {
	was := f.on.any()
	if *part = on; f.on.any() != was {
		f.acts.Point(on)
		f.redraw()
	}
}

// Set shows t; the same once more costs nothing.
func (f *FamilyRow) Set(t wording.FamilyRowText) {
	if !t.Equal(f.text) {
		f.text = t
		f.redraw()
	}
}

// Text returns what is shown.
func (f *FamilyRow) Text() wording.FamilyRowText { return f.text }

// side is the colour under a point: a side's, where there is one, else the light's.
func (f *FamilyRow) side(p fyne.Position) colour.RGB {
	if at := planFamily(f.Size().Width); at.swatch.holds(p) && p.X >= at.swatch.x+1+at.side {
		return f.text.Shadow
	}
	return f.text.Light
}

// markAt returns the accent or the line under a point, and what it is called.
func (f *FamilyRow) markAt(p fyne.Position) (mark *colour.RGB, name string, at *canvas.Rectangle) {
	plan := planFamily(f.Size().Width)
	switch {
	case !f.text.Told:
		return nil, "", nil
	case plan.accent.holds(p):
		return f.text.Accent, language.Say("core-shadow accent"), f.marks[0].frame
	case plan.line.holds(p):
		return f.text.Line, language.Say("line"), f.marks[1].frame
	}
	return nil, "", nil
}

// Tapped makes the colours spots, or copies the accent's or the line's.
func (f *FamilyRow) Tapped(e *fyne.PointEvent) {
	f.acts.Tips.Leave()
	if f.hold.done {
		f.hold.done = false
		return
	}
	if mark, _, _ := f.markAt(e.Position); mark != nil {
		f.acts.Copy(*mark)
		return
	}
	f.acts.Choose()
}

// TappedSecondary asks for what else can be done with the side under the pointer.
func (f *FamilyRow) TappedSecondary(e *fyne.PointEvent) {
	if !f.text.Lost {
		f.acts.Tips.Leave()
		f.acts.Menu(e.AbsolutePosition, f.side(e.Position))
	}
}

// MouseDown begins what may become a press that is held.
func (f *FamilyRow) MouseDown(e *desktop.MouseEvent) {
	f.endHold()
	f.hold.done = false
	if e.Button == desktop.MouseButtonPrimary && f.acts.Later != nil {
		at := e.PointEvent
		f.hold.stop = f.acts.Later(longPress, func() {
			if f.hold.stop != nil {
				f.hold = hold{done: true}
				f.TappedSecondary(&at)
			}
		})
	}
}

// MouseUp ends it.
func (f *FamilyRow) MouseUp(*desktop.MouseEvent) { f.endHold() }

func (f *FamilyRow) endHold() {
	if f.hold.stop != nil {
		f.hold.stop()
		f.hold.stop = nil
	}
}

// MouseIn points at the family.
func (f *FamilyRow) MouseIn(e *desktop.MouseEvent) {
	f.MouseMoved(e)
}

// MouseMoved lets the tip come of the part under the pointer. It may come without MouseIn, after
// scrolling.
func (f *FamilyRow) MouseMoved(e *desktop.MouseEvent) {
	if !f.on.any() {
		f.settle()
	}
	f.point(&f.on.pointer, true)
	mark, name, at := f.markAt(e.Position)
	switch {
	case mark != nil:
		f.acts.Tips.Now(language.Say("Copy %s %s", name, mark.Hex()), at)
	case name != "":
		f.acts.Tips.Now(language.Say("No %s is seen", name), at)
	default:
		f.acts.Tips.enter(f.tip(), f)
	}
}

// tip is what the row has no room for, and what a press does.
func (f *FamilyRow) tip() string {
	words := append(append([]string{}, f.text.Remarks...), language.Say("tap: they become A and B"))
	for i := range words {
		words[i] = wording.Capitalised(words[i])
	}
	return strings.Join(words, ". ")
}

// MouseOut points no longer.
func (f *FamilyRow) MouseOut() {
	f.endHold()
	f.acts.Tips.Leave()
	f.point(&f.on.pointer, false)
}

// Cursor is the hand: rows are there to be pressed.
func (f *FamilyRow) Cursor() desktop.Cursor { return desktop.PointerCursor }

// focusChanged shows whether the row has the focus, here and in the mirror.
func (f *FamilyRow) focusChanged() {
	f.point(&f.on.focus, f.focused)
	f.redraw()
}

// TypedKey presses the row with Enter or Space, its cross with Delete, and asks for the menu.
func (f *FamilyRow) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		f.acts.Choose()
	case f.text.Cross != "" && deletes(e):
		f.acts.Delete()
	case e.Name == desktop.KeyMenu && !f.text.Lost:
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(f).AddXY(familyWords, f.Size().Height)
		f.acts.Menu(at, f.text.Light)
	default:
		f.keys.TypedKey(e.Name)
	}
}

// write puts in what is shown now.
func (f *FamilyRow) write(size fyne.Size, of colours) {
	t, p := f.text, planFamily(size.Width)
	fore, quiet := of(theme.ColorNameForeground), of(ColorNameQuiet)
	for i, c := range [4]color.Color{rgbFill(t.Light), rgbFill(t.Shadow), greyFill(t.LightGrey), greyFill(t.ShadowGrey)} {
		fill(f.boxes[i], c)
		show(f.boxes[i], !t.Lost)
	}
	fill(f.frame, of(ColorNameHairline))
	show(f.frame, !t.Lost)
	showFocus(f.line, f.focused, of)
	f.writeActs()
	f.writeMarks(of)
	room := p.first.width()
	if !t.Told {
		room = p.bare.width()
	}
	if t.Tones != "" {
		room -= textWidth(t.Tones) + Step
	}
	say(f.tones, t.Tones, fore)
	say(f.says, cutWords(longestFitting(room, TextSize(), t.Says, t.SaysShort), room, textWidth), quiet)
	f.writeShare(p, quiet)
	f.writeBelow(p, of)
}

// buttons is the width that the buttons take, or would: they come and go with the pointer.
func (f *FamilyRow) buttons() float32 {
	if f.text.Keep != "" && (f.Pointed() || f.text.Kept) || f.text.Cross != "" && f.Pointed() {
		return 2 * Row()
	}
	return 0
}

// writeShare shows the share, in a stacked row as far as the buttons leave room.
func (f *FamilyRow) writeShare(p familyPlan, ink color.Color) {
	room := p.share.width()
	if p.stacked {
		room -= f.buttons()
	}
	say(f.share, longestFitting(room, TextSize(), f.text.Share, f.text.ShareShort, ""), ink)
}

// writeBelow shows the second line, as far as it goes.
func (f *FamilyRow) writeBelow(p familyPlan, of colours) {
	name, ink, room := icons.Name(""), of(ColorNameQuiet), p.below.width()
	if !p.stacked {
		room -= f.buttons()
	}
	if f.text.Black {
		name, ink = icons.Warning, of(theme.ColorNameForeground)
		room -= SmallIcon() + signApart
	}
	picture(f.sign, name, theme.ColorNameForeground)
	short := firstOf(f.text.BelowShort) // of large text the hue alone
	words := longestFitting(room, SmallSize(), f.text.Below, f.text.BelowShort, short)
	if p.brief && !f.text.Black { // all rows alike
		words = longestFitting(room, SmallSize(), f.text.BelowShort, short)
	}
	say(f.below, cutTo(words, room), ink)
}

// writeMarks shows accent and line at their places; an empty frame stands for none.
func (f *FamilyRow) writeMarks(of colours) {
	for i, c := range [2]*colour.RGB{f.text.Accent, f.text.Line} {
		m := f.marks[i]
		fill(m.frame, of(ColorNameHairline))
		inside := of(ColorNamePanel)
		if c != nil {
			inside = rgbFill(*c)
		}
		fill(m.inside, inside)
		show(m.frame, f.text.Told)
		show(m.inside, f.text.Told)
	}
}

// writeActs shows the buttons where the pointer or the focus is, and of what is kept a sign at all
// times. One that goes while it has the focus gives it to the other one, so that keys go on from
// here.
func (f *FamilyRow) writeActs() {
	t, pointed := f.text, f.Pointed()
	f.Keep.Explain(f.acts.Tips, t.KeepTip)
	f.Cross.Explain(f.acts.Tips, t.Cross)
	f.Keep.SetIcon(icons.Check)
	if t.Cross == "" { // it is not shown, and can be again
		f.Keep.SetIcon(icons.View)
	}
	f.Keep.SetOn(t.Kept && pointed)
	if f.Cross.focused && t.Cross == "" && t.Keep != "" {
		show(f.Keep, true)
		if c := fyne.CurrentApp().Driver().CanvasForObject(f); c != nil {
			c.Focus(f.Keep)
		}
	}
	show(f.Keep, t.Keep != "" && (pointed || t.Kept))
	show(f.Cross, t.Cross != "" && pointed)
}

func (f *FamilyRow) place(size fyne.Size) {
	p := planFamily(size.Width)
	put(f.frame, p.swatch.position(), p.swatch.size())
	for i, box := range f.boxes {
		put(box, p.swatch.position().AddXY(1+float32(i%2)*p.side, 1+float32(i/2)*p.high), fyne.NewSize(p.side, p.high))
	}
	put(f.Keep, p.keep.position(), p.keep.size())
	put(f.Cross, p.cross.position(), p.cross.size())
	for i, at := range [2]rect{p.accent, p.line} {
		put(f.marks[i].frame, at.position(), at.size())
		put(f.marks[i].inside, at.position().AddXY(1, 1), at.size().SubtractWidthHeight(2, 2))
	}
	setLeft(f.tones, p.first)
	says := p.first
	if f.tones.Text != "" {
		says.left += f.tones.MinSize().Width + Step
	}
	setLeft(f.says, says)
	if p.stacked {
		setLeft(f.share, p.share)
	} else {
		setRight(f.share, p.share)
	}
	f.placeBelow(p)
	put(f.line, fyne.NewPos(-FocusGap-FocusWidth, -1), fyne.NewSize(size.Width+2*(FocusGap+FocusWidth), size.Height+2))
}

// placeBelow sets the second line, after its sign.
func (f *FamilyRow) placeBelow(p familyPlan) {
	at, side := p.below, SmallIcon()
	if f.text.Black {
		put(f.sign, fyne.NewPos(at.left, at.baseline-side+side/5), fyne.NewSquareSize(side))
		at.left += side + signApart
	}
	setLeft(f.below, at)
}

// minSize is the same whatever is said: nothing moves.
func (f *FamilyRow) minSize() fyne.Size {
	return fyne.NewSize(30*Step, planFamily(max(f.Size().Width, 30*Step)).height)
}
