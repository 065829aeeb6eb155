package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/live"
)

// coloursPage proposes colours to paint next, from the selected spot or a typed colour.
type coloursPage struct {
	d         *Desk
	box       *fyne.Container
	from      *basePanel
	proposals *proposalPanel
	pair      *pairPanel
	palette   *palettePanel
}

func newColoursPage(d *Desk) pageView {
	p := &coloursPage{d: d, proposals: newProposalPanel(&d.host), pair: newPairPanel(&d.host)}
	p.from = newBasePanel(&d.host, baseActs{base: p.base, save: d.saves.askSwatches, copyAll: d.clipboard.copySwatches})
	p.palette = newPalettePanel(&d.host, paletteActs{copyPicture: d.copies.CopyPicture, again: d.comeBack, save: d.saves.askSwatches})
	p.box = container.NewVBox(p.from.box, p.proposals.box, p.pair.box, p.palette.box)
	return p
}

func (p *coloursPage) content() fyne.CanvasObject { return p.box }

func (p *coloursPage) searches() bool { return false }

func (p *coloursPage) told(pageEvent) {}

func (p *coloursPage) traced(*traceLine) {}

func (p *coloursPage) opened(bool) {}

// base is the colour to begin from.
func (p *coloursPage) base() (base analysis.Spot, name string, ok bool) {
	return live.BaseOf(p.d.setup, p.d.spots, p.d.selected)
}

func (p *coloursPage) show(*analysis.Reading) {
	base, name, ok := p.base()
	p.from.show(base, name, ok)
	p.proposals.show(base, ok)
	p.pair.show(p.d.spots, p.d.selected, p.d.settings.Rules)
	if !p.d.bounds.Empty() {
		p.palette.renew(p.d.at, p.d.setup.Source)
	}
}
