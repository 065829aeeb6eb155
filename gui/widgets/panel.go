package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// NewPanelGround is a rectangle of a theme colour that follows the theme.
func NewPanelGround(name fyne.ThemeColorName) fyne.CanvasObject {
	g := &ground{name: name}
	g.ExtendBaseWidget(g)
	return g
}

type ground struct {
	widget.BaseWidget
	name fyne.ThemeColorName
	rect *canvas.Rectangle
}

// CreateRenderer makes the rectangle.
func (g *ground) CreateRenderer() fyne.WidgetRenderer {
	g.rect = canvas.NewRectangle(nil)
	g.rect.CornerRadius = Radius
	g.Refresh()
	return widget.NewSimpleRenderer(g.rect)
}

// Refresh takes the theme's colour of now.
func (g *ground) Refresh() {
	if g.rect != nil {
		g.rect.FillColor = g.Theme().Color(g.name, fyne.CurrentApp().Settings().ThemeVariant())
		g.rect.Refresh()
	}
}
