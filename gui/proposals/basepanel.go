package proposals

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// BasePanel shows the colour from which others are proposed, and takes a typed one.
type BasePanel struct {
	*host.Host
	acts   BaseActs
	Box    *fyne.Container
	swatch *widgets.SwatchRow
	words  *widget.Label
	Entry  *widgets.Entry
	follow *widgets.Button
}

// BaseActs are what the panel needs from around it.
type BaseActs struct {
	Base    func() (base analysis.Spot, name string, ok bool) // the colour of now, if there is one
	Save    func(rows []swatches.Row, all any, name string)   // to a file that is asked for
	CopyAll func(rows []swatches.Row)                         // as text
}

// NewBasePanel returns a panel that begins from nothing yet.
func NewBasePanel(h *host.Host, acts BaseActs) *BasePanel {
	b := &BasePanel{Host: h, acts: acts, words: widgets.SmallLabel(), Entry: newColourEntry(h)}
	b.swatch = widgets.NewSwatchRow(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step}, swatchActs(h))
	b.follow = h.Button("Spot", "Begin from the selected spot again", func() { h.Steps.BeginFrom(nil) })
	copyAll := h.Button("Copy all", "Copy all proposals as text", func() {
		if s := b.shades(); s != nil {
			acts.CopyAll(swatches.OfShades(s))
		}
	})
	save := h.Button("Save", "Save all proposals as a picture, CSS, JSON or a list", func() {
		if s := b.shades(); s != nil {
			acts.Save(swatches.OfShades(s), s, "colours")
		}
	})
	row := container.NewGridWithColumns(2, widgets.Inset(b.swatch), container.NewVBox(widgets.Inset(b.Entry), container.NewHBox(save, copyAll, b.follow)))
	b.Box = widgets.OnPanel(b.words, row)
	return b
}

// shades are the proposals, or nil: then the painter is told why.
func (b *BasePanel) shades() *propose.Shades {
	base, _, ok := b.acts.Base()
	if !ok {
		b.Messages.Note("There is no colour to begin from. Click a spot in the picture first.")
		return nil
	}
	return propose.Shade(base, b.Steps.Now().Shade)
}

// Show renews the panel; ok says whether there is a colour at all.
func (b *BasePanel) Show(base analysis.Spot, name string, ok bool) {
	words := "From " + name + ", " + base.Colour.Hex() + ". A click on a swatch copies its code; a right click goes on from it."
	if !ok {
		words = "Click a spot in the picture, or type a colour, to see what can be painted next to it."
	}
	resized := widgets.SetWords(b.words, words)
	if ok {
		b.swatch.Set([]widgets.Swatch{spotSwatch(base, "")})
	} else {
		b.swatch.Set(nil)
	}
	typed := b.Steps.Now().Typed != nil
	if b.follow.Hidden == typed {
		b.follow.Hidden = !typed
		resized = true
	}
	if resized {
		b.LayOutPage()
	}
}

// newColourEntry takes a typed colour, to begin from.
func newColourEntry(h *host.Host) *widgets.Entry {
	e := widgets.NewEntry(h.Keys, "#rrggbb")
	e.OnEscape = func() {
		e.SetText("")
		h.FocusMirror()
	}
	e.OnSubmitted = func(text string) {
		c, err := colour.Parse(text)
		if err != nil {
			h.Messages.Note(wording.Explain(wording.On("use", text), err))
			return
		}
		e.SetText("")
		h.Messages.Clear(host.MessageNote)
		h.Steps.BeginFrom(&c)
		h.FocusMirror()
	}
	return e
}
