package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// NewPanel is the ground on which things lie that belong together. It follows the theme.
func NewPanel() fyne.CanvasObject { return newPanel(Radius) }

func newPanel(radius float32) *panel {
	p := &panel{}
	p.box = p.addBox()
	p.box.CornerRadius = radius
	p.draw(p, p)
	return p
}

type panel struct {
	drawn
	box *canvas.Rectangle
}

func (p *panel) write(_ fyne.Size, of colours) { fill(p.box, of(ColorNamePanel)) }
func (p *panel) place(size fyne.Size)          { p.box.Resize(size) }
func (p *panel) minSize() fyne.Size            { return p.box.MinSize() }
