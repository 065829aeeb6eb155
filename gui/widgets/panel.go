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

func (p *panel) write(_ fyne.Size, of colours) { fillEdged(p.box, ColorNamePanel, of) }
func (p *panel) place(size fyne.Size)          { p.box.Resize(size) }
func (p *panel) minSize() fyne.Size            { return p.box.MinSize() }

// newFocusLine returns the outline of what has the focus, its colour to come.
func newFocusLine(radius float32) *canvas.Rectangle {
	line := canvas.NewRectangle(color.Transparent)
	line.StrokeWidth, line.CornerRadius = FocusWidth, radius
	return line
}

// putAround lays an outline around what lies at a place, a little away from it.
func putAround(line *canvas.Rectangle, pos fyne.Position, size fyne.Size) {
	const out = FocusGap + FocusWidth
	put(line, pos.SubtractXY(out, out), size.AddWidthHeight(2*out, 2*out))
}

// showFocus shows the outline, or hides it.
func showFocus(line *canvas.Rectangle, focused bool, of colours) {
	if c := of(ColorNameFocusLine); line.StrokeColor != c || line.Hidden == focused {
		line.StrokeColor, line.Hidden = c, !focused
		refresh(line)
	}
}
