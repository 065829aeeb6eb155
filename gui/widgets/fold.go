package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/gui/icons"
)

// Fold is a quiet row that opens what is folded away below it, or folds it again.
type Fold struct {
	drawn
	explained
	Text     string
	OnTapped func()

	open       bool
	back, line *canvas.Rectangle
	sign       *canvas.Image
	words      *canvas.Text
}

// NewFold returns a fold that calls tapped when it is pressed; the tip says what is in it.
func NewFold(tip string, tips *Tips, keys Keys, tapped func()) *Fold {
	f := &Fold{OnTapped: tapped}
	f.explained = explained{focus: focus{keys: keys, owner: f, changed: f.redraw}, tips: tips, tip: tip}
	f.back, f.sign, f.words = add(&f.drawn, newPanelBox()), f.addIcon(), f.addText(SmallSize, fyne.TextStyle{})
	f.line = add(&f.drawn, newFocusLine(Radius+FocusGap))
	f.draw(f)
	return f
}

// Set gives the fold its words, and shows whether it is open.
func (f *Fold) Set(words string, open bool) {
	if words != f.Text || open != f.open {
		f.Text, f.open = words, open
		f.redraw()
	}
}

// Tapped presses the fold.
func (f *Fold) Tapped(*fyne.PointEvent) {
	f.tips.Leave()
	f.OnTapped()
}

// TypedKey presses it with Space and Enter.
func (f *Fold) TypedKey(e *fyne.KeyEvent) {
	if presses(e) {
		f.Tapped(nil)
	} else {
		f.keys.TypedKey(e.Name)
	}
}

func (f *Fold) write(_ fyne.Size, of colours) {
	name, ink := icons.OpenList, ColorNameQuiet
	if f.open {
		name = icons.CloseList
	}
	if f.pointed {
		ink = ColorNameQuietRaised
	}
	fillEdged(f.back, ColorNameRaised, of)
	show(f.back, f.pointed)
	picture(f.sign, name, ink)
	say(f.words, f.Text, of(ink))
	showFocus(f.line, f.focused, of)
}

func (f *Fold) place(size fyne.Size) {
	f.back.Resize(size)
	putAround(f.line, fyne.Position{}, size)
	icon := SmallIcon()
	put(f.sign, fyne.NewPos(0, (size.Height-icon)/2), fyne.NewSquareSize(icon))
	placeText(f.words, icon+Step/2, (size.Height-f.words.MinSize().Height)/2)
}

func (f *Fold) minSize() fyne.Size {
	return fyne.NewSize(SmallIcon()+Step/2+smallWidth(f.Text), Row())
}
