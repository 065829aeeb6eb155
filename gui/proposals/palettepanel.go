package proposals

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// paletteEvery is the least time between two palettes of a picture that changes.
const paletteEvery = 3 * time.Second

// PalettePanel shows what colours the picture is painted with, and which values are empty.
// It is renewed while the page is open and the picture changes.
type PalettePanel struct {
	*host.Host
	acts    PaletteActs
	Box     *fyne.Container
	Colours *widgets.SwatchRow
	Spread  *widgets.SwatchRow
	order   *widgets.Chooser
	words   *widget.Label

	palette *palette.Palette // shown last; nil before the first
	of      time.Time        // when its picture was read
	from    setup.Source     // and of what
	began   time.Time        // when it was last asked for
	busy    bool
	family  bool // ordered by family
}

// PaletteActs are what the panel needs from around it.
type PaletteActs struct {
	CopyPicture func(do func(*live.Copy)) // hands over a copy of the picture of now
	Again       func(after time.Duration) // has the page shown again after a while
	Save        func(rows []swatches.Row, all any, name string)
}

// NewPalettePanel returns a panel without a palette.
func NewPalettePanel(h *host.Host, acts PaletteActs) *PalettePanel {
	p := &PalettePanel{Host: h, acts: acts, words: widgets.SmallLabel()}
	p.Colours = widgets.NewSwatchRow(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step, Labels: true, Columns: 8}, swatchActs(h))
	p.Spread = widgets.NewSwatchRow(widgets.SwatchPlan{Height: 2 * widgets.Step, Labels: true}, swatchActs(h))
	p.order = widgets.NewChooser([]string{"By value", "By family"}, 4*widgets.Step, h.Keys, func(i int) {
		p.family = i == 1
		p.order.Set(i)
		p.write()
	})
	save := h.Button("Save", "Save the palette as a picture, CSS, JSON or a list", p.save)
	p.Box = widgets.Section("Colours of the picture", widgets.AtRight(save), p.Colours, p.order, widgets.QuietWords("Values from black to white, in steps:"), p.Spread, p.words)
	return p
}

func (p *PalettePanel) save() {
	if p.palette == nil || len(p.palette.Colours) == 0 {
		p.Messages.Note("There is no palette to save yet.")
		return
	}
	p.acts.Save(swatches.OfPalette(p.palette), p.palette, "palette")
}

// Refresh asks for a palette of the picture that was read at a time from a source, if it is
// another than the one shown and it is time.
func (p *PalettePanel) Refresh(at time.Time, from setup.Source) {
	if p.busy || p.palette != nil && at.Equal(p.of) && p.from == from {
		return
	}
	if wait := paletteEvery - time.Since(p.began); p.palette != nil && wait > 0 {
		p.acts.Again(wait)
		return
	}
	p.busy, p.began = true, time.Now()
	p.acts.CopyPicture(func(c *live.Copy) {
		var found *palette.Palette
		judged := p.Steps.Now().Judged
		p.Background(func() error {
			listed := setup.Listed(families.Find(c.Pixels, &c.Mask, c.Settings.Rules), judged)
			found = palette.Of(c.Pixels, &c.Mask, listed)
			return nil
		}, func(err error) {
			p.busy = false
			if err != nil {
				p.Messages.Note(wording.Explain("find the colours of the picture", err))
				return
			}
			p.palette, p.of, p.from = found, c.At, c.Source
			p.write()
		})
	})
}

// write shows the palette.
func (p *PalettePanel) write() {
	if p.palette == nil {
		return
	}
	resized := p.Colours.Set(paletteSwatches(p.palette, p.family))
	p.Spread.Set(valueSwatches(p.palette))
	if widgets.SetWords(p.words, wording.SayEmptyValues(p.palette.Empty)+".") || resized {
		p.Box.Refresh()
		p.LayOutPage()
	}
}
