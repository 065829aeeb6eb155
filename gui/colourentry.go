package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// colourEntry takes a typed colour, to begin from.
type colourEntry struct {
	widget.Entry
	host *host
}

func newColourEntry(h *host) *colourEntry {
	e := &colourEntry{host: h}
	e.PlaceHolder = "#rrggbb"
	e.ExtendBaseWidget(e)
	e.OnSubmitted = e.take
	return e
}

// take begins from what was typed, or says why that is no colour.
func (e *colourEntry) take(text string) {
	c, err := colour.Parse(text)
	if err != nil {
		e.host.messages.note(wording.Explain("use "+wording.Quote(text), err))
		return
	}
	e.SetText("")
	e.host.messages.clear(messageNote)
	e.host.steps.beginFrom(&c)
	e.host.focusMirror()
}

// FocusGained reveals it.
func (e *colourEntry) FocusGained() {
	e.host.keys.Reveal(e)
	e.Entry.FocusGained()
}

// TypedKey gives up with Esc.
func (e *colourEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.SetText("")
		e.host.focusMirror()
		return
	}
	e.Entry.TypedKey(k)
}
