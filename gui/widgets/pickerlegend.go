package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

const (
	legendStart language.Words = "Drag over the picture that you paint. Esc goes back."
	legendSmall language.Words = "That is too small to watch. Drag over a larger part."
	legendTaken language.Words = "Enter watches it, arrows move it, with Ctrl they change its size. Esc goes back."
)

// pickerKeys are the keys of a window that has none but Esc, and the one that quits: our own window is
// hidden then, and hears nothing.
type pickerKeys struct {
	give func()
	keys Keys // of our own window
}

func (pickerKeys) TypedRune(rune) {}
func (k pickerKeys) TypedKey(name fyne.KeyName) bool {
	if name == fyne.KeyEscape {
		k.give()
	}
	return true
}
func (k pickerKeys) TypedShortcut(s fyne.Shortcut) {
	if quits(s) {
		k.give() // first: where not all is saved our own window asks
		k.keys.TypedShortcut(s)
	}
}
func (pickerKeys) Reveal(fyne.CanvasObject) {}

// newLegend makes what says how to choose, and how large the chosen region is.
func (p *Picker) newLegend() *fyne.Container {
	back := func() { p.End(false) }
	p.words, p.take = widget.NewLabel(legendStart.String()), NewButton(language.Say("Watch this"), p.keys, p.accept)
	p.take.Hide()
	row := container.NewHBox(p.words, p.take, NewButton(language.Say("Go back"), p.keys, back))
	return container.NewStack(NewPanel(), container.NewPadded(row))
}

// writeLegend says how to go on from what is chosen, which may be too small.
func (p *Picker) writeLegend() {
	words := language.Say("%s   Enter watches it, arrows move it, with Ctrl they change its size. Esc goes back.", wording.SizeSay(p.chosen.Dx(), p.chosen.Dy()))
	switch {
	case p.small:
		words = legendSmall.String()
	case p.chosen.Empty():
		words = legendStart.String()
	}
	if p.words.Text != words {
		p.words.SetText(words)
	}
	show(p.take, !p.chosen.Empty())
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
