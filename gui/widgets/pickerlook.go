package widgets

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/gui/settings"
)

// pickerLook draws the desktop, a veil over what isn't chosen of it, and the legend.
type pickerLook struct {
	p       *Picker
	picture *canvas.Raster
	veil    [4]*canvas.Rectangle // above, below, left and right of what is chosen
	band    outline
	legend  *pickerLegend
}

// newPickerLook makes all that is drawn, from below.
func newPickerLook(p *Picker) *pickerLook {
	d := &p.drawn
	l := &pickerLook{p: p, picture: add(d, newPictureRaster(func() *image.RGBA { return p.still }))}
	for i := range l.veil {
		l.veil[i] = add(d, canvas.NewRectangle(color.NRGBA{A: 0x60}))
	}
	l.band, l.legend = newOutline(d), newPickerLegend(p.accept, func() { p.End(false) })
	add(d, l.legend.box)
	return l
}

func (l *pickerLook) write(fyne.Size, colours) {
	l.band.show(!l.p.chosen.Empty())
	l.legend.write(l.p.chosen, l.p.small)
}

func (l *pickerLook) place(size fyne.Size) {
	f := l.p.fit(size)
	put(l.picture, f.Pos, f.Size)
	pos, box := f.box(l.p.chosen)
	if l.p.chosen.Empty() {
		pos, box = f.Pos, fyne.Size{}
	}
	l.band.place(pos, box)
	for i, v := range veilBoxes(f.Pos, f.Pos.Add(f.Size), pos, pos.Add(box)) {
		put(l.veil[i], v[0], fyne.NewSize(max(v[1].X-v[0].X, 0), max(v[1].Y-v[0].Y, 0)))
	}
	own := l.legend.box.MinSize()
	put(l.legend.box, legendPlace(pos, box, own, size), own)
}

// veilBoxes returns the corners of the four boxes around a chosen one, from pos to end, in
// all that lies from start to stop.
func veilBoxes(start, stop, pos, end fyne.Position) [4][2]fyne.Position {
	return [4][2]fyne.Position{
		{start, {X: stop.X, Y: pos.Y}},
		{{X: start.X, Y: end.Y}, stop},
		{{X: start.X, Y: pos.Y}, {X: pos.X, Y: end.Y}},
		{{X: end.X, Y: pos.Y}, {X: stop.X, Y: end.Y}},
	}
}

// minSize is small: the window covers the desktop anyway.
func (l *pickerLook) minSize() fyne.Size { return fyne.NewSize(settings.MinWidth, 15*Step) }
