package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"app.tonedesk/analysis"
)

// structurePage tells how light and shadow hold together: the groups of the whole picture
// and its families.
type structurePage struct {
	d   *Desk
	box *fyne.Container
}

func newStructurePage(d *Desk) pageView {
	p := &structurePage{d: d}
	p.box = container.NewVBox(d.parts.spread)
	return p
}

func (p *structurePage) content() fyne.CanvasObject { return p.box }

func (p *structurePage) opened(bool) {}

func (p *structurePage) show(r *analysis.Reading) { p.d.showSpread(r) }
