package proposals

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/wording"
)

// colourEntry takes a typed colour, to begin from.
type colourEntry struct {
	widget.Entry
	host *host.Host
}

func newColourEntry(h *host.Host) *colourEntry {
	e := &colourEntry{host: h}
	e.PlaceHolder = "#rrggbb"
	e.ExtendBaseWidget(e)
	e.OnSubmitted = e.Take
	return e
}

// Take begins from what was typed, or says why that is no colour.
func (e *colourEntry) Take(text string) {
	c, err := colour.Parse(text)
	if err != nil {
		e.host.Messages.Note(wording.Explain("use "+wording.Quote(text), err))
		return
	}
	e.SetText("")
	e.host.Messages.Clear(host.MessageNote)
	e.host.Steps.BeginFrom(&c)
	e.host.FocusMirror()
}

// FocusGained reveals it.
func (e *colourEntry) FocusGained() {
	e.host.Keys.Reveal(e)
	e.Entry.FocusGained()
}

// TypedKey gives up with Esc.
func (e *colourEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape {
		e.SetText("")
		e.host.FocusMirror()
		return
	}
	e.Entry.TypedKey(k)
}
