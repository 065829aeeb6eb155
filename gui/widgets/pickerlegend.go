package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/wording"
)

// pickerLegend says how to choose, and how large the chosen region is.
type pickerLegend struct {
	box  *fyne.Container
	text *widget.Label
	take *Button
}

const (
	legendStart = "Drag over the picture that you paint. Esc goes back."
	legendSmall = "That is too small to watch. Drag over a larger part."
	legendTaken = "Enter watches it, arrows move it, with Ctrl they change its size. Esc goes back."
)

// noKeys is for buttons of a window without keys of its own.
type noKeys struct{ give func() }

func (noKeys) TypedRune(rune) {}
func (k noKeys) TypedKey(name fyne.KeyName) bool {
	if name == fyne.KeyEscape {
		k.give()
	}
	return true
}
func (noKeys) TypedShortcut(fyne.Shortcut) {}
func (noKeys) Reveal(fyne.CanvasObject)    {}

func newPickerLegend(take, back func()) *pickerLegend {
	l := &pickerLegend{text: widget.NewLabel(legendStart)}
	keys := noKeys{give: back}
	l.take = NewButton("Watch this", keys, take)
	l.take.Hide()
	row := container.NewHBox(l.text, l.take, NewButton("Go back", keys, back))
	l.box = container.NewStack(NewPanelGround(ColorNamePanel), container.NewPadded(row))
	return l
}

// ask says that what is chosen is too small.
func (l *pickerLegend) ask() { l.say(legendSmall) }

func (l *pickerLegend) say(text string) {
	if l.text.Text != text {
		l.text.SetText(text)
	}
}

// Place puts the legend below the chosen box, or above it, or inside, where there is room.
func (l *pickerLegend) place(chosen image.Rectangle, pos fyne.Position, size, all fyne.Size) {
	if chosen.Empty() {
		l.say(legendStart)
		l.take.Hide()
	} else {
		l.say(wording.SizeSay(chosen.Dx(), chosen.Dy()) + "   " + legendTaken)
		l.take.Show()
	}
	own := l.box.MinSize()
	at := fyne.NewPos((all.Width-own.Width)/2, 4*Step)
	if !chosen.Empty() {
		at = fyne.NewPos(pos.X+(size.Width-own.Width)/2, pos.Y+size.Height+2*Step)
		if at.Y+own.Height > all.Height {
			at.Y = pos.Y - own.Height - 2*Step
		}
		if at.Y < 0 {
			at.Y = max(all.Height-own.Height-2*Step, 0)
		}
	}
	at.X = max(0, min(at.X, all.Width-own.Width))
	l.box.Move(at)
	l.box.Resize(own)
}
