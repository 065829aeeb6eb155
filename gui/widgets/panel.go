package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// NewPanel is the ground on which things lie that belong together. It follows the theme.
func NewPanel() fyne.CanvasObject { return newPanel(Radius) }

func newPanel(radius float32) *panel {
	p := &panel{}
	p.box = p.addBox()
	p.box.CornerRadius = radius
	p.draw(p)
	return p
}

type panel struct {
	drawn
	box *canvas.Rectangle
}

func (p *panel) write(_ fyne.Size, of colours) { fill(p.box, of(ColorNamePanel)) }
func (p *panel) place(size fyne.Size)          { p.box.Resize(size) }
func (p *panel) minSize() fyne.Size            { return p.box.MinSize() }

// newFocusLine returns the outline of what has the focus, its colour to come.
func newFocusLine(radius float32) *canvas.Rectangle {
	line := canvas.NewRectangle(color.Transparent)
	line.StrokeWidth, line.CornerRadius = FocusWidth, radius
	return line
}

// showFocus shows the outline, or hides it.
func showFocus(line *canvas.Rectangle, focused bool, of colours) {
	if c := of(ColorNameFocusLine); line.StrokeColor != c || line.Hidden == focused {
		line.StrokeColor, line.Hidden = c, !focused
		line.Refresh()
	}
}

// edgedPanel is a panel whose edge can stand out: the edge is what the inside leaves of it.
type edgedPanel struct {
	edge, inside *canvas.Rectangle
	width        float32 // of the edge
}

func newEdgedPanel(d *drawn) edgedPanel {
	return edgedPanel{edge: add(d, newPanelBox()), inside: add(d, newPanelBox())}
}

// write shows the edge of what has the focus, or a thin one of what is selected.
func (p *edgedPanel) write(of colours, focused, selected bool) {
	fill(p.inside, of(ColorNamePanel))
	switch {
	case focused:
		p.width = FocusWidth
		fill(p.edge, of(ColorNameFocusLine))
	case selected:
		p.width = 1
		fill(p.edge, of(ColorNameQuiet))
	default:
		p.width = 0
		fill(p.edge, of(ColorNamePanel))
	}
}

func (p *edgedPanel) place(size fyne.Size) {
	p.edge.Resize(size)
	put(p.inside, fyne.NewPos(p.width, p.width), size.SubtractWidthHeight(2*p.width, 2*p.width))
}
