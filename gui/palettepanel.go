package gui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// paletteEvery is the least time between two palettes of a picture that changes.
const paletteEvery = 3 * time.Second

// palettePanel shows what colours the picture is painted with, and which values are empty.
// It is renewed while the page is open and the picture changes.
type palettePanel struct {
	*host
	acts    paletteActs
	box     *fyne.Container
	colours *widgets.SwatchRow
	spread  *widgets.SwatchRow
	order   *widgets.Chooser
	words   *widget.Label

	palette *palette.Palette // shown last; nil before the first
	of      time.Time        // when its picture was read
	from    setup.Source     // and of what
	began   time.Time        // when it was last asked for
	busy    bool
	family  bool // ordered by family
}

// paletteActs are what the panel needs from around it.
type paletteActs struct {
	copyPicture func(do func(*live.Copy)) // hands over a copy of the picture of now
	again       func(after time.Duration) // has the page shown again after a while
	save        func(rows []swatches.Row, all any, name string)
}

func newPalettePanel(h *host, acts paletteActs) *palettePanel {
	p := &palettePanel{host: h, acts: acts, words: widgets.SmallLabel()}
	p.colours = widgets.NewSwatchRow(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step, Labels: true, Columns: 8}, swatchActs(h))
	p.spread = widgets.NewSwatchRow(widgets.SwatchPlan{Height: 2 * widgets.Step, Labels: true}, swatchActs(h))
	p.order = widgets.NewChooser([]string{"By value", "By family"}, 4*widgets.Step, h.keys, func(i int) {
		p.family = i == 1
		p.order.Set(i)
		p.write()
	})
	save := widgets.NewButton("Save", h.keys, p.save)
	save.Explain(h.tips, "Save the palette as a picture, CSS, JSON or a list")
	p.box = widgets.Section("Colours of the picture", widgets.AtRight(save), p.colours, p.order, widgets.QuietWords("Values from black to white, in steps:"), p.spread, p.words)
	return p
}

func (p *palettePanel) save() {
	if p.palette == nil || len(p.palette.Colours) == 0 {
		p.messages.note("There is no palette to save yet.")
		return
	}
	p.acts.save(swatches.OfPalette(p.palette), p.palette, "palette")
}

// renew asks for a palette of the picture that was read at a time from a source, if it is
// another than the one shown and it is time.
func (p *palettePanel) renew(at time.Time, from setup.Source) {
	if p.busy || p.palette != nil && at.Equal(p.of) && p.from == from {
		return
	}
	if wait := paletteEvery - time.Since(p.began); p.palette != nil && wait > 0 {
		p.acts.again(wait)
		return
	}
	p.busy, p.began = true, time.Now()
	p.acts.copyPicture(func(c *live.Copy) {
		p.background(func() {
			families := families.Find(c.Pixels, &c.Out, c.Settings.Rules)
			palette := palette.Of(c.Pixels, &c.Out, families)
			p.onWindow(func() {
				p.busy = false
				p.palette, p.of, p.from = palette, c.At, c.Source
				p.write()
			})
		})
	})
}

// write shows the palette.
func (p *palettePanel) write() {
	if p.palette == nil {
		return
	}
	resized := p.colours.Set(paletteSwatches(p.palette, p.family))
	p.spread.Set(valueSwatches(p.palette))
	if widgets.SetWords(p.words, wording.SayEmptyValues(p.palette.Empty)+".") || resized {
		p.box.Refresh()
		p.relayPage()
	}
}
