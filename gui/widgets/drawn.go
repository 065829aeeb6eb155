package widgets

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/icons"
)

// look is a widget that can be drawn. What is shown and where it lies are apart, so that laying
// out only ever moves and resizes.
type look interface {
	fyne.Widget
	write(size fyne.Size, of colours) // words, colours, and what is hidden, in a size
	place(size fyne.Size)             // where all of it lies
	minSize() fyne.Size               // that of drawn is the same at all times
}

// colours gives a colour of the theme of now.
type colours func(fyne.ThemeColorName) color.Color

// coloursOf returns the colours that a widget is drawn in.
func coloursOf(w interface{ Theme() fyne.Theme }) colours {
	th, variant := w.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	return func(name fyne.ThemeColorName) color.Color { return th.Color(name, variant) }
}

// drawn is embedded in a widget in place of Fyne's widget.BaseWidget, and draws it.
type drawn struct {
	widget.BaseWidget
	self    look                // the widget, in which this is embedded
	objects []fyne.CanvasObject // all that is drawn, from below
	least   fyne.Size           // unless the widget has a minSize of its own
	sizes   []sizedBy           // of its texts, which grow with the theme's
	ready   bool                // Fyne has asked for the renderer
}

// sizedBy is a text and the size of type that it has.
type sizedBy struct {
	text *canvas.Text
	size func() float32
}

// draw makes self, in which d is embedded, ready to be drawn.
func (d *drawn) draw(self look) {
	d.self = self
	d.ExtendBaseWidget(self)
}

// add draws o over all that is drawn already.
func add[O fyne.CanvasObject](d *drawn, o O) O {
	d.objects = append(d.objects, o)
	return o
}

// addBox adds a box, its colour to come.
func (d *drawn) addBox() *canvas.Rectangle { return add(d, canvas.NewRectangle(color.Transparent)) }

// addText adds an empty text of a size of type, its colour to come.
func (d *drawn) addText(size func() float32, style fyne.TextStyle) *canvas.Text {
	t := add(d, sizedText(size(), style))
	d.sizes = append(d.sizes, sizedBy{t, size})
	return t
}

// addIcon adds a place for a pictogram, which is to come.
func (d *drawn) addIcon() *canvas.Image {
	i := canvas.NewImageFromResource(nil)
	i.FillMode = canvas.ImageFillContain
	return add(d, i)
}

func (d *drawn) minSize() fyne.Size { return d.least }

// redraw shows what has changed; what is the same costs nothing.
func (d *drawn) redraw() {
	if d.ready {
		d.write()
		d.self.place(d.Size())
	}
}

// write has the widget written in the theme of now.
func (d *drawn) write() {
	for _, t := range d.sizes {
		t.text.TextSize = t.size()
	}
	d.self.write(d.Size(), coloursOf(d))
}

// Resize writes what fits into the size, before Fyne has it laid out.
func (d *drawn) Resize(size fyne.Size) {
	if d.ready && size != d.Size() {
		d.self.write(size, coloursOf(d))
	}
	d.BaseWidget.Resize(size)
}

// CreateRenderer begins to draw.
func (d *drawn) CreateRenderer() fyne.WidgetRenderer {
	d.ready = true
	d.write()
	return drawnRenderer{d}
}

// drawnRenderer is what Fyne sees of a look.
type drawnRenderer struct{ d *drawn }

func (r drawnRenderer) Layout(size fyne.Size)        { r.d.self.place(size) }
func (r drawnRenderer) MinSize() fyne.Size           { return r.d.self.minSize() }
func (r drawnRenderer) Objects() []fyne.CanvasObject { return r.d.objects }
func (r drawnRenderer) Destroy()                     {}
func (r drawnRenderer) Refresh() {
	r.d.redraw()
	for _, o := range r.d.objects {
		o.Refresh()
	}
}

// newPanelBox returns a box with a panel's rounded corners, its colour to come.
func newPanelBox() *canvas.Rectangle {
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius = Radius
	return box
}

// newPictureRaster returns a raster that shows a ready image with square pixels; nil is nothing.
func newPictureRaster(img func() *image.RGBA) *canvas.Raster {
	empty := image.NewRGBA(image.Rect(0, 0, 1, 1))
	raster := canvas.NewRaster(func(int, int) image.Image {
		if i := img(); i != nil {
			return i
		}
		return empty
	})
	raster.ScaleMode = canvas.ImageScalePixels
	return raster
}

// fill gives a box a colour; the same one costs nothing.
func fill(box *canvas.Rectangle, c color.Color) {
	if box.FillColor != c {
		box.FillColor = c
		refresh(box)
	}
}

// fillEdged fills a box that things stand on: in high contrast it has an edge too.
func fillEdged(box *canvas.Rectangle, name fyne.ThemeColorName, of colours) {
	fill(box, of(name))
	ink := of(ColorNameEdge)
	edge(box, ink != color.Transparent, ink)
}

// picture shows a pictogram in a colour of the theme, "" none; the same one costs nothing.
func picture(i *canvas.Image, name icons.Name, ink fyne.ThemeColorName) {
	res := icons.Resource(name)
	show(i, res != nil)
	if res == nil {
		return
	}
	coloured := theme.NewColoredResource(res, ink)
	if i.Resource == nil || i.Resource.Name() != coloured.Name() {
		i.Resource = coloured
		refresh(i)
	}
}

// greyFill and rgbFill are opaque colours to fill a box with.
func greyFill(v uint8) color.Color     { return color.NRGBA{v, v, v, 255} }
func rgbFill(c colour.RGB) color.Color { return color.NRGBA{c.R, c.G, c.B, 255} }

// show shows an object or hides it; costs nothing where that is so already.
func show(o fyne.CanvasObject, visible bool) {
	if o.Visible() == visible {
		return
	}
	if visible {
		o.Show()
	} else {
		o.Hide()
	}
	refresh(o)
}

// refresh has an object painted anew, also one of which the toolkit does not know in which window it
// is: it knows none that was never shown, and forgets those that stayed the same for a minute. What
// changes then would be seen only with the next change elsewhere.
func refresh(o fyne.CanvasObject) {
	o.Refresh()
	app := fyne.CurrentApp()
	if app == nil || app.Driver().CanvasForObject(o) != nil {
		return
	}
	for _, w := range app.Driver().AllWindows() {
		w.Canvas().Refresh(o)
	}
}

// put moves and resizes an object.
func put(o fyne.CanvasObject, pos fyne.Position, size fyne.Size) {
	o.Move(pos)
	o.Resize(size)
}

// nth returns an element of a list, which may be shorter: then it is nothing. There are as many
// canvas objects as there may ever be elements, and a text without words shows nothing.
func nth[T any](list []T, i int) (element T) {
	if i >= 0 && i < len(list) {
		element = list[i]
	}
	return element
}
