package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/proposals"
)

// coloursPage proposes colours to paint next, from the selected spot or a typed colour.
type coloursPage struct {
	plainPage
	d         *Desk
	box       *fyne.Container
	from      *proposals.BasePanel
	proposals *proposals.ProposalPanel
	pair      *proposals.PairPanel
	palette   *proposals.PalettePanel
}

func newColoursPage(d *Desk) pageView {
	p := &coloursPage{d: d, proposals: proposals.NewProposalPanel(&d.Host), pair: proposals.NewPairPanel(&d.Host)}
	p.from = proposals.NewBasePanel(&d.Host, proposals.BaseActs{Base: p.base, Save: d.saves.askSwatches, CopyAll: d.clipboard.copySwatches})
	p.palette = proposals.NewPalettePanel(&d.Host, proposals.PaletteActs{CopyPicture: d.copies.CopyPicture, Again: d.comeBack, Save: d.saves.askSwatches})
	p.box = container.NewVBox(p.from.Box, p.proposals.Box, p.pair.Box, p.palette.Box)
	return p
}

func (p *coloursPage) content() fyne.CanvasObject { return p.box }

// base is the colour to begin from.
func (p *coloursPage) base() (base analysis.Spot, name string, ok bool) {
	return live.BaseOf(p.d.setup, p.d.last.spots, p.d.selected)
}

func (p *coloursPage) show(*analysis.Reading) {
	base, name, ok := p.base()
	p.from.Show(base, name, ok)
	p.proposals.Show(base, ok)
	p.pair.Show(p.d.last.spots, p.d.selected, p.d.settings.Rules)
	if !p.d.last.bounds.Empty() {
		p.palette.Refresh(p.d.last.at, p.d.setup.Source)
	}
}
