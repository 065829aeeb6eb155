package proposals

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// BasePanel shows the colour from which others are proposed, holds it, and takes a typed one.
type BasePanel struct {
	*host.Host
	Box        *fyne.Container
	swatch     *widgets.SwatchRow
	Code, From *widgets.Line
	Pin        *widgets.Button
	Entry      *widgets.Entry

	base  func() (base analysis.Spot, name string, ok bool)
	typed colour.RGB // what was typed last: it is told from what is held
}

// NewBasePanel returns a panel that begins from nothing yet; base gives the colour of now.
func NewBasePanel(h *host.Host, base func() (analysis.Spot, string, bool), export func()) *BasePanel {
	b := &BasePanel{Host: h, base: base}
	b.swatch = widgets.NewSwatchRow(widgets.SwatchPlan{Height: 4 * widgets.Step, Beside: true}, swatchActs(h))
	b.Code, b.From = widgets.NewLine(), widgets.QuietForms()
	b.Pin = widgets.NewIconButton(icons.Pin, h.Keys, b.hold)
	b.Pin.Explain(h.Tips, language.Say("Hold this colour, or follow the spot again"))
	b.Entry = b.newEntry()
	out := widgets.NewIconButton(icons.Export, h.Keys, export)
	out.Explain(h.Tips, language.Say("Export the colours"))
	b.Box = widgets.Card(0, container.New(widgets.BaseRow{}, b.swatch, b.Code, b.From, b.Pin, b.Entry, out))
	return b
}

// hold holds the colour of now, or follows the spot again.
func (b *BasePanel) hold() {
	if b.Steps.Now().Typed != nil {
		b.Steps.BeginFrom(nil)
		return
	}
	if base, _, ok := b.base(); ok {
		b.Steps.BeginFrom(&base.Colour)
	}
}

// Show renews the panel; ok says whether there is a colour at all.
func (b *BasePanel) Show(base analysis.Spot, name string, ok bool) {
	held := b.Steps.Now().Typed
	b.Pin.SetOn(held != nil)
	b.Pin.SetOff(!ok)
	if !ok {
		b.swatch.Set([]widgets.Swatch{{None: true}})
		b.Code.Set(language.Say("No colour"))
		b.From.Set(wording.SayBaseFrom("", false, false))
		return
	}
	b.swatch.Set([]widgets.Swatch{spotSwatch(base, "")})
	b.Code.Set(base.Colour.Hex())
	b.From.Set(wording.SayBaseFrom(name, held != nil, held != nil && *held == b.typed))
}

// newEntry takes a typed colour, to begin from.
func (b *BasePanel) newEntry() *widgets.Entry {
	e := widgets.NewEntry(b.Keys, "#rrggbb")
	e.OnEscape = func() {
		e.SetText("")
		b.FocusMirror()
	}
	e.OnSubmitted = func(text string) {
		c, err := colour.Parse(text)
		if err != nil {
			b.Messages.Fail(wording.Explain(wording.On("use %s", text), err))
			return
		}
		e.SetText("")
		b.Messages.Clear(host.MessageError)
		b.typed = c
		b.Steps.BeginFrom(&c)
		b.FocusMirror()
	}
	return e
}
