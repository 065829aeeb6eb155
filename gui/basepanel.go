package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/widgets"
)

// basePanel shows the colour from which others are proposed, and takes a typed one.
type basePanel struct {
	*host
	acts   baseActs
	box    *fyne.Container
	swatch *widgets.SwatchRow
	words  *widget.Label
	entry  *colourEntry
	follow *widgets.Button
}

// baseActs are what the panel needs from around it.
type baseActs struct {
	base    func() (base analysis.Spot, name string, ok bool) // the colour of now, if there is one
	save    func(rows []swatches.Row, all any, name string)   // to a file that is asked for
	copyAll func(rows []swatches.Row)                         // as text
}

func newBasePanel(h *host, acts baseActs) *basePanel {
	b := &basePanel{host: h, acts: acts, words: widgets.SmallLabel(), entry: newColourEntry(h)}
	b.swatch = widgets.NewSwatchRow(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step}, swatchActs(h))
	b.follow = widgets.NewButton("Spot", h.keys, func() { h.steps.beginFrom(nil) })
	b.follow.Explain(h.tips, "Begin from the selected spot again")
	copyAll := widgets.NewButton("Copy all", h.keys, func() {
		if s := b.shades(); s != nil {
			acts.copyAll(swatches.OfShades(s))
		}
	})
	copyAll.Explain(h.tips, "Copy all proposals as text")
	save := widgets.NewButton("Save", h.keys, func() {
		if s := b.shades(); s != nil {
			acts.save(swatches.OfShades(s), s, "colours")
		}
	})
	save.Explain(h.tips, "Save all proposals as a picture, CSS, JSON or a list")
	row := container.NewGridWithColumns(2, widgets.Inset(b.swatch), container.NewVBox(widgets.Inset(b.entry), container.NewHBox(save, copyAll, b.follow)))
	b.box = widgets.OnPanel(b.words, row)
	return b
}

// shades are the proposals, or nil: then the painter is told why.
func (b *basePanel) shades() *propose.Shades {
	base, _, ok := b.acts.base()
	if !ok {
		b.messages.note("There is no colour to begin from. Click a spot in the picture first.")
		return nil
	}
	return propose.Shade(base, b.steps.now().Shade)
}

// show renews the panel; ok says whether there is a colour at all.
func (b *basePanel) show(base analysis.Spot, name string, ok bool) {
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
	typed := b.steps.now().Typed != nil
	if b.follow.Hidden == typed {
		b.follow.Hidden = !typed
		resized = true
	}
	if resized {
		b.relayPage()
	}
}
