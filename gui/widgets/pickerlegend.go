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

// noKeys are the keys of a window that has none but Esc.
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
	l.box = container.NewStack(NewPanel(), container.NewPadded(row))
	return l
}

// write says how to go on from what is chosen, which may be too small.
func (l *pickerLegend) write(chosen image.Rectangle, small bool) {
	words := wording.SizeSay(chosen.Dx(), chosen.Dy()) + "   " + legendTaken
	switch {
	case small:
		words = legendSmall
	case chosen.Empty():
		words = legendStart
	}
	if l.text.Text != words {
		l.text.SetText(words)
	}
	show(l.take, !chosen.Empty())
}

// legendPlace returns where a legend of its own size goes in a window: below the chosen box,
// or above it, or inside, where there is room; a box without a size is none.
func legendPlace(pos fyne.Position, box, own, window fyne.Size) fyne.Position {
	at := fyne.NewPos((window.Width-own.Width)/2, 4*Step)
	if !box.IsZero() {
		at = fyne.NewPos(pos.X+(box.Width-own.Width)/2, pos.Y+box.Height+2*Step)
		if at.Y+own.Height > window.Height {
			at.Y = pos.Y - own.Height - 2*Step
		}
		if at.Y < 0 {
			at.Y = max(window.Height-own.Height-2*Step, 0)
		}
	}
	at.X = max(0, min(at.X, window.Width-own.Width))
	return at
}
