package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Button is a word, a pictogram or both that can be pressed, by Space and Enter too. One that is
// on has a bar at its foot, so that it is not told by its grey alone.
type Button struct {
	drawn
	explained
	Text     string
	OnTapped func()

	icon, instead    icons.Name // beside the word, and in its place where that finds no room
	on, off, flat    bool
	shortens         bool // the pictogram may stand alone
	back, foot, line *canvas.Rectangle
	picture          *canvas.Image
	list             *canvas.Image // nil unless it opens a list
	words            *canvas.Text
}

// NewButton returns a button that does tapped when it is pressed.
func NewButton(text string, keys Keys, tapped func()) *Button {
	b := &Button{Text: text, OnTapped: tapped}
	b.focus = focus{keys: keys, owner: b, changed: b.redraw}
	b.back, b.foot = add(&b.drawn, newPanelBox()), b.addBox()
	b.picture, b.words = b.addIcon(), b.addText(TextSize, fyne.TextStyle{})
	b.line = add(&b.drawn, newFocusLine(Radius+FocusGap))
	b.draw(b)
	return b
}

// NewIconButton returns a button with a pictogram alone. What it does is to be explained.
func NewIconButton(icon icons.Name, keys Keys, tapped func()) *Button {
	b := NewButton("", keys, tapped)
	b.SetIcon(icon)
	return b
}

// Flat takes the button's ground away, for rows of pictograms on a ground of their own.
func (b *Button) Flat() *Button {
	b.flat = true
	b.redraw()
	return b
}

// Shortens lets the pictogram stand alone, and close, where there is no room for more.
func (b *Button) Shortens() *Button {
	b.shortens = true
	b.redraw()
	return b
}

// ShortensTo lets a pictogram stand in place of the word where there is no room for that.
func (b *Button) ShortensTo(icon icons.Name) *Button {
	b.instead = icon
	return b.Shortens()
}

// sign is the pictogram beside a word, or in its place.
func (b *Button) sign(word string) icons.Name {
	if word == "" && b.instead != "" {
		return b.instead
	}
	return b.icon
}

// SetFlat is Flat, or takes it back.
func (b *Button) SetFlat(flat bool) { set(b, &b.flat, flat) }

// Opens makes the button one that opens a list: its word stands left, and is cut where it finds no
// room, and a pictogram of its own at the right says so. It asks for no width.
func (b *Button) Opens() *Button {
	b.list = b.addIcon()
	return b
}

// SetText gives the button another word.
func (b *Button) SetText(text string) { set(b, &b.Text, text) }

// SetIcon gives the button another pictogram, left of its word.
func (b *Button) SetIcon(icon icons.Name) { set(b, &b.icon, icon) }

// SetOn shows whether what the button switches is on.
func (b *Button) SetOn(on bool) { set(b, &b.on, on) }

// On reports whether it is.
func (b *Button) On() bool { return b.on }

// SetOff shows whether the button can't be pressed now.
func (b *Button) SetOff(off bool) { set(b, &b.off, off) }

// Off reports whether it can't.
func (b *Button) Off() bool { return b.off }

// set gives a button something else; the same costs nothing.
func set[T comparable](b *Button, at *T, v T) {
	if *at != v {
		*at = v
		b.redraw()
	}
}

// Below is where a menu of the button opens.
func (b *Button) Below() fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(b).AddXY(0, b.Size().Height)
}

// Explain gives the button a tip.
func (b *Button) Explain(tips *Tips, words string) { b.tips, b.tip = tips, words }

// Tip is what the tip says; "" for none.
func (b *Button) Tip() string { return b.tip }

// Tapped presses the button.
func (b *Button) Tapped(*fyne.PointEvent) {
	b.tips.Leave()
	if !b.off && b.OnTapped != nil {
		b.OnTapped()
	}
}

// TypedKey presses the button with Space and Enter.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	b.tips.Leave()
	if presses(e) {
		b.Tapped(nil)
	} else {
		b.keys.TypedKey(e.Name)
	}
}

// write gives the button the greys of its state.
func (b *Button) write(size fyne.Size, of colours) {
	ground, ink := ColorNameRaised, theme.ColorNameForeground
	switch {
	case b.on:
		ground, ink = ColorNameOn, ColorNameFocusLine
	case b.off:
		ink = ColorNameOff
	case b.pointed:
		ground = ColorNamePointed
	}
	fillEdged(b.back, ground, of)
	show(b.back, !b.flat || b.on || b.pointed && !b.off)
	fill(b.foot, of(ColorNameFocusLine))
	show(b.foot, b.on)
	showFocus(b.line, b.focused, of)
	words := b.word(size.Width)
	picture(b.picture, b.sign(words), ink)
	if b.list != nil {
		list := icons.OpenList
		if b.Text == "" { // its pictogram has all the room
			list = ""
		}
		picture(b.list, list, ink)
		words = cutWords(words, b.listRoom(size.Width), textWidth)
	} else if words != "" && size.Width > 0 { // where there is no room at all it is smaller
		icon, gap, _ := b.parts(words)
		b.words.TextSize = fittingSize(words, TextSize(), max(size.Width-icon-gap-Step, 1))
	}
	say(b.words, words, of(ink))
}

// listRoom is the width for the word of a button that opens a list.
func (b *Button) listRoom(width float32) float32 { return width - SmallIcon() - 2.5*Step }

// footInset keeps the bar of a button that is on from its edges.
const footInset = Step

// place centres pictogram and word.
func (b *Button) place(size fyne.Size) {
	b.back.Resize(size)
	if b.flat { // what lies beside would cover the outline; the pictogram is far from it
		put(b.line, fyne.Position{}, size)
	} else {
		putAround(b.line, fyne.Position{}, size)
	}
	put(b.foot, fyne.NewPos(footInset, size.Height-2*footHigh), fyne.NewSize(size.Width-2*footInset, footHigh))
	if b.list != nil {
		b.placeList(size)
		return
	}
	icon, gap, text := b.parts(b.word(size.Width))
	if text.Width > 0 {
		text = b.words.MinSize()
	}
	x := (size.Width - icon - gap - text.Width) / 2
	put(b.picture, fyne.NewPos(x, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	placeText(b.words, x+icon+gap, (size.Height-text.Height)/2)
}

// placeList puts the word left, and what says that a list opens right; where there is no room for
// a word, the pictogram stands in the middle.
func (b *Button) placeList(size fyne.Size) {
	text, side := b.words.MinSize(), SmallIcon()
	placeText(b.words, Step, (size.Height-text.Height)/2)
	put(b.list, fyne.NewPos(size.Width-side-Step/2, (size.Height-side)/2), fyne.NewSquareSize(side))
	icon := IconSize()
	put(b.picture, fyne.NewPos((size.Width-icon)/2, (size.Height-icon)/2), fyne.NewSquareSize(icon))
}

// footHigh is the height of the bar at the foot of what is on.
const footHigh = 2

// word is what stands on a button of this width.
func (b *Button) word(width float32) string {
	if b.shortens && width < b.wish()-1 { // but for rounding
		return ""
	}
	return b.Text
}

// parts are the widths of pictogram and gap, and the size of a word.
func (b *Button) parts(word string) (icon, gap float32, text fyne.Size) {
	if word != "" {
		text = fyne.MeasureText(word, TextSize(), fyne.TextStyle{})
	}
	if b.sign(word) != "" {
		icon = IconSize()
		if word != "" {
			gap = Step / 2
		}
	}
	return icon, gap, text
}

// wish is the width of pictogram and word.
func (b *Button) wish() float32 { return b.widthWith(b.Text) }

func (b *Button) widthWith(word string) float32 {
	icon, gap, text := b.parts(word)
	side := 2 * Step
	switch {
	case b.icon != "" && word != "":
		side = 0.75 * Step
	case b.icon != "":
		side = Step
	}
	return max(icon+gap+text.Width+2*side, Row())
}

// minSize keeps buttons as narrow as their words allow, but for a pen to hit: in large text a
// pictogram that stands alone may have less around it.
func (b *Button) minSize() fyne.Size {
	if b.shortens {
		return fyne.NewSize(max(IconSize()+Step/2, 4*Step), Row())
	}
	return fyne.NewSize(b.wish(), Row())
}
