package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Picker shows a frozen picture of the whole desktop, on which a region is chosen: by a
// drag, then Enter; arrow keys move it.
type Picker struct {
	drawn
	shiftFocus
	still   *image.RGBA
	desktop image.Rectangle // what still shows, in desktop pixels
	chosen  image.Rectangle
	done    func(image.Rectangle, bool)

	grip  pickGrip
	held  image.Rectangle // chosen, when the drag began
	from  image.Point
	down  bool
	small bool // what is chosen was wanted, but is too small

	picture *canvas.Raster
	veil    [4]*canvas.Rectangle // above, below, left and right of what is chosen
	band    outline
	legend  *fyne.Container
	words   *widget.Label // of the legend
	take    *Button
}

// NewPicker returns a picker on which nothing is chosen yet. The key that quits gives up, and goes to
// the keys of our own window.
func NewPicker(keys Keys) *Picker {
	p := &Picker{}
	p.focus = focus{keys: pickerKeys{func() { p.End(false) }, keys}, owner: p, changed: p.redraw}
	p.picture = add(&p.drawn, newPictureRaster(func() *image.RGBA { return p.still }))
	for i := range p.veil {
		p.veil[i] = add(&p.drawn, canvas.NewRectangle(color.NRGBA{A: 0x60}))
	}
	p.band, p.legend = newOutline(&p.drawn), add(&p.drawn, p.newLegend())
	p.least = fyne.NewSize(settings.MinWidth, 15*Step) // small: the window covers the desktop anyway
	p.draw(p)
	return p
}

// Begin shows still, which pictures the desktop, with a region chosen already (or none, if
// empty). done is called once, with the region or, given up, with false.
func (p *Picker) Begin(still *image.RGBA, desktop, chosen image.Rectangle, done func(image.Rectangle, bool)) {
	p.still, p.desktop, p.done = still, desktop, done
	p.down, p.shift = false, false // they may have been down when the last choosing ended
	p.picture.Refresh()
	p.choose(chosen.Intersect(desktop))
}

// End ends the choosing with the region as it is or, given up, with false; once.
func (p *Picker) End(ok bool) {
	if done := p.done; done != nil {
		p.done, p.still = nil, nil // what the screen showed is kept no longer than it is needed
		done(p.chosen, ok)
	}
}

// accept takes the region, if it is large enough to watch.
func (p *Picker) accept() {
	if p.chosen.Dx() < setup.LeastSide || p.chosen.Dy() < setup.LeastSide {
		p.small = true
		p.redraw()
		return
	}
	p.End(true)
}

func (p *Picker) choose(r image.Rectangle) {
	p.chosen, p.small = r, false
	p.redraw()
}

// fit is how the desktop lies in a window of a size: pixel by pixel where it has the room,
// and never enlarged.
func (p *Picker) fit(size fyne.Size) Fit {
	scale := scaleOf(p)
	room := fyne.NewSize(min(size.Width, float32(p.desktop.Dx())/scale), min(size.Height, float32(p.desktop.Dy())/scale))
	return fitPicture(p.desktop, room, scale, false)
}

// pixel returns the desktop's pixel corner at a point of the widget.
func (p *Picker) pixel(at fyne.Position) image.Point {
	f := p.fit(p.Size())
	if f.Size.IsZero() {
		return p.desktop.Min
	}
	x, y := f.place(at)
	return image.Pt(
		min(max(int(math.Round(x)), p.desktop.Min.X), p.desktop.Max.X),
		min(max(int(math.Round(y)), p.desktop.Min.Y), p.desktop.Max.Y))
}

// MouseDown takes hold of the rectangle, or begins one. Another button gives up.
func (p *Picker) MouseDown(e *desktop.MouseEvent) {
	if e.Button != desktop.MouseButtonPrimary {
		p.End(false)
		return
	}
	p.from = p.pixel(e.Position)
	p.grip, p.held, p.down = gripAt(p.chosen, p.from), p.chosen, true
}

// Dragged changes what MouseDown took hold of.
func (p *Picker) Dragged(e *fyne.DragEvent) {
	if p.down {
		p.drag(p.pixel(e.Position))
	}
}

func (p *Picker) drag(to image.Point) {
	if p.grip.outside() {
		p.choose(image.Rectangle{Min: p.from, Max: to}.Canon())
		return
	}
	p.choose(p.grip.pull(p.held, to.Sub(p.from), p.desktop))
}

// MouseUp ends a drag; Enter or the button takes the region.
func (p *Picker) MouseUp(e *desktop.MouseEvent) {
	if to := p.pixel(e.Position); p.down && to != p.from {
		p.drag(to)
	}
	p.down = false
}

// DragEnd ends a drag.
func (p *Picker) DragEnd() { p.down = false }

// Cursor is a cross.
func (p *Picker) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

// TypedKey moves, takes or gives up.
func (p *Picker) TypedKey(e *fyne.KeyEvent) {
	if by, ok := arrows[e.Name]; ok {
		p.nudge(by, p.shift, slide)
		return
	}
	switch e.Name {
	case fyne.KeyEscape:
		p.End(false)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.accept()
	}
}

// TypedShortcut changes the size: arrow keys with Ctrl.
func (p *Picker) TypedShortcut(s fyne.Shortcut) {
	c, ok := s.(*desktop.CustomShortcut)
	if !ok || c.Modifier&fyne.KeyModifierControl == 0 {
		return
	}
	if by, ok := arrows[c.KeyName]; ok {
		p.nudge(by, c.Modifier&fyne.KeyModifierShift != 0, grow)
		return
	}
	p.keys.TypedShortcut(s)
}

// nudge moves or grows the region by one pixel, or by ten.
func (p *Picker) nudge(by image.Point, far bool, how func(image.Rectangle, image.Point, image.Rectangle) image.Rectangle) {
	if p.chosen.Empty() {
		p.choose(middleHalf(p.desktop))
		return
	}
	if far {
		by = by.Mul(farStep)
	}
	p.choose(how(p.chosen, by, p.desktop))
}

func (p *Picker) write(fyne.Size, colours) {
	p.band.show(!p.chosen.Empty())
	p.writeLegend()
}

// place lays a veil over what isn't chosen.
func (p *Picker) place(size fyne.Size) {
	f := p.fit(size)
	put(p.picture, f.Pos, f.Size)
	pos, box := f.box(p.chosen)
	if p.chosen.Empty() {
		pos, box = f.Pos, fyne.Size{}
	}
	p.band.place(pos, box)
	for i, v := range veilBoxes(f.Pos, f.Pos.Add(f.Size), pos, pos.Add(box)) {
		put(p.veil[i], v[0], fyne.NewSize(max(v[1].X-v[0].X, 0), max(v[1].Y-v[0].Y, 0)))
	}
	own := p.legend.MinSize()
	put(p.legend, legendPlace(pos, box, own, size), own)
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
