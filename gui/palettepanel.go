package gui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
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
	d       *Desk
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

func newPalettePanel(d *Desk) *palettePanel {
	p := &palettePanel{d: d, words: widgets.SmallLabel()}
	p.colours = widgets.NewSwatchRow(widgets.SwatchPlan{Height: widgets.SwatchHeight, Greys: 2 * widgets.Step, Labels: true, Columns: 8}, d.swatchActs())
	p.spread = widgets.NewSwatchRow(widgets.SwatchPlan{Height: 2 * widgets.Step, Labels: true}, d.swatchActs())
	p.order = widgets.NewChooser([]string{"By value", "By family"}, 4*widgets.Step, d, func(i int) {
		p.family = i == 1
		p.order.Set(i)
		p.write()
	})
	save := widgets.NewButton("Save", d, func() {
		if p.palette == nil || len(p.palette.Colours) == 0 {
			d.parts.strip.Say(widgets.MessageNote, "There is no palette to save yet.")
			return
		}
		d.askSwatches(swatches.OfPalette(p.palette), p.palette, "palette")
	})
	save.Explain(d.parts.tips, "Save the palette as a picture, CSS, JSON or a list")
	p.box = widgets.Section("Colours of the picture", widgets.AtRight(save), p.colours, p.order, widgets.QuietWords("Values from black to white, in steps:"), p.spread, p.words)
	return p
}

// renew asks for a palette, if the picture changed and it is time.
func (p *palettePanel) renew() {
	d := p.d
	if d.bounds.Empty() || p.busy || p.palette != nil && d.at.Equal(p.of) && p.from == d.setup.Source {
		return
	}
	if wait := paletteEvery - time.Since(p.began); p.palette != nil && wait > 0 {
		d.comeBack(wait)
		return
	}
	p.busy, p.began = true, time.Now()
	d.copyPicture(func(c *live.Copy) {
		d.aside(func() {
			families := families.Find(c.Pixels, &c.Out, c.Settings.Rules)
			palette := palette.Of(c.Pixels, &c.Out, families)
			d.onWindow(func() {
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
	var colours []widgets.Swatch
	add := func(i int) {
		c := p.palette.Colours[i]
		w := spotSwatch(c.Spot, wording.Percent(c.Share))
		if c.Family != nil {
			w.Tip += fmt.Sprintf(", family %d, %s", *c.Family+1, c.Side)
		}
		colours = append(colours, w)
	}
	if p.family {
		for _, g := range p.palette.ByFamily() {
			for _, i := range g.Colours {
				add(i)
			}
		}
	} else {
		for i := range p.palette.Colours {
			add(i)
		}
	}
	resized := p.colours.Set(colours)
	p.spread.Set(valueSwatches(p.palette))
	if widgets.SetWords(p.words, wording.SayEmptyValues(p.palette.Empty)+".") || resized {
		p.box.Refresh()
		p.d.relayPage()
	}
}

// valueSwatches shows the ten steps of value, those that are empty without a colour.
func valueSwatches(p *palette.Palette) []widgets.Swatch {
	all := make([]widgets.Swatch, len(p.Spread))
	for i, share := range p.Spread {
		v := colour.GreyOf(colour.Lightness(colour.YOfValue(float64(i) + 0.5)))
		all[i] = widgets.Swatch{Colour: colour.RGB{R: v, G: v, B: v}, Grey: v, Label: wording.Percent(share),
			Tip: fmt.Sprintf("value %d to %d: %s of the picture", i, i+1, wording.Percent(share))}
	}
	for _, i := range p.Empty {
		all[i].None, all[i].Label = true, wording.Unknown
	}
	return all
}

// copyPicture has the picture of now copied, and then calls do on the Fyne goroutine.
func (d *Desk) copyPicture(do func(*live.Copy)) {
	d.copies++
	d.copied = append(d.copied, do)
	d.renew()
}

// takeCopy hands a copied picture to all who asked for one.
func (d *Desk) takeCopy(c *live.Copy) {
	if c == nil {
		return
	}
	all := d.copied
	d.copied = nil
	for _, do := range all {
		do(c)
	}
}
