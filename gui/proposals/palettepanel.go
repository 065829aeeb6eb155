package proposals

import (
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// paletteEvery is the least time between two palettes of a picture that changes.
const paletteEvery = 3 * time.Second

// PalettePanel shows what colours the picture is painted with. It is renewed while the page is open
// and the picture changes.
type PalettePanel struct {
	*host.Host
	acts    PaletteActs
	Box     *fyne.Container
	Colours *widgets.SwatchRow

	palette *palette.Palette // shown last; nil before the first
	of      time.Time        // when its picture was read
	from    setup.Source     // and of what
	began   time.Time        // when it was last asked for
	busy    bool
}

// PaletteActs are what the panel needs from around it.
type PaletteActs struct {
	CopyPicture func(do func(*live.Copy)) // hands over a copy of the picture of now
	Again       func(after time.Duration) // has the page shown again after a while
}

// NewPalettePanel returns a panel without a palette.
func NewPalettePanel(h *host.Host, acts PaletteActs) *PalettePanel {
	p := &PalettePanel{Host: h, acts: acts}
	p.Colours = widgets.NewSwatchRow(widgets.SwatchPlan{Height: 3 * widgets.Step, Greys: 2 * widgets.Step, Cell: 19}, swatchActs(h))
	p.Box = widgets.Card(widgets.Step/2, widgets.NewLine(language.Say("In the picture, dark to light"), language.Say("In the picture")), p.Colours)
	return p
}

// Palette is what is shown; nil before the first.
func (p *PalettePanel) Palette() *palette.Palette { return p.palette }

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
				p.Messages.Fail(wording.Explain("find the colours of the picture", err))
				return
			}
			p.palette, p.of, p.from = found, c.At, c.Source
			p.write()
		})
	})
}

// write shows the palette.
func (p *PalettePanel) write() {
	if p.palette != nil && p.Colours.Set(paletteSwatches(p.palette)) {
		p.Box.Refresh()
		p.LayOutPage()
	}
}
