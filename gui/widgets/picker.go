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
// drag, then Enter; arrow keys move it. Use it on the Fyne goroutine only.
type Picker struct {
	widget.BaseWidget
	still   *image.RGBA
	desktop image.Rectangle // what still shows, in desktop pixels
	chosen  image.Rectangle
	done    func(image.Rectangle, bool)

	grip   pickGrip
	held   image.Rectangle // chosen, when the drag began
	from   image.Point
	down   bool
	shift  bool
	fit    Fit
	r      *pickerRenderer
	legend *pickerLegend
}

var (
	_ desktop.Mouseable  = (*Picker)(nil)
	_ desktop.Cursorable = (*Picker)(nil)
	_ desktop.Keyable    = (*Picker)(nil)
	_ fyne.Draggable     = (*Picker)(nil)
	_ fyne.Focusable     = (*Picker)(nil)
	_ fyne.Shortcutable  = (*Picker)(nil)
)

// NewPicker shows still, which pictures the desktop, with a region chosen already (or
// none, if empty). done is called once, with the region or, given up, with false.
func NewPicker(still *image.RGBA, desktop, chosen image.Rectangle, done func(image.Rectangle, bool)) *Picker {
	p := &Picker{still: still, desktop: desktop, chosen: chosen.Intersect(desktop), done: done}
	p.legend = newPickerLegend(p.accept, func() { p.End(false) })
	p.ExtendBaseWidget(p)
	return p
}

func (p *Picker) End(ok bool) {
	if done := p.done; done != nil {
		p.done = nil
		done(p.chosen, ok)
	}
}

// accept takes the region, if there is one.
func (p *Picker) accept() {
	if p.chosen.Dx() < setup.LeastSide || p.chosen.Dy() < setup.LeastSide {
		p.legend.ask()
		return
	}
	p.End(true)
}

func (p *Picker) choose(r image.Rectangle) {
	p.chosen = r
	if p.r != nil {
		p.r.place()
	}
}

// pixel returns the desktop's pixel corner at a point of the widget.
func (p *Picker) pixel(at fyne.Position) image.Point {
	if p.fit.Size.Width <= 0 || p.fit.Size.Height <= 0 {
		return p.desktop.Min
	}
	x := float64(at.X-p.fit.Pos.X) / float64(p.fit.Size.Width) * float64(p.desktop.Dx())
	y := float64(at.Y-p.fit.Pos.Y) / float64(p.fit.Size.Height) * float64(p.desktop.Dy())
	return image.Pt(
		min(max(p.desktop.Min.X+int(math.Round(x)), p.desktop.Min.X), p.desktop.Max.X),
		min(max(p.desktop.Min.Y+int(math.Round(y)), p.desktop.Min.Y), p.desktop.Max.Y))
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

// FocusGained is of no consequence: the picker is alone in its window.
func (p *Picker) FocusGained() {}

// FocusLost forgets the shift key.
func (p *Picker) FocusLost() { p.shift = false }

// KeyDown watches the shift key.
func (p *Picker) KeyDown(e *fyne.KeyEvent) { p.watchShift(e, true) }

// KeyUp watches the shift key.
func (p *Picker) KeyUp(e *fyne.KeyEvent) { p.watchShift(e, false) }

func (p *Picker) watchShift(e *fyne.KeyEvent, down bool) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		p.shift = down
	}
}

// TypedRune has no meaning here.
func (p *Picker) TypedRune(rune) {}

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
	}
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

// CreateRenderer makes the canvas objects.
func (p *Picker) CreateRenderer() fyne.WidgetRenderer {
	r := &pickerRenderer{p: p, band: newOutline()}
	r.picture = newStill(func() *image.RGBA { return p.still })
	for i := range r.veil {
		r.veil[i] = canvas.NewRectangle(color.NRGBA{A: 0x60})
	}
	p.r = r
	return r
}

type pickerRenderer struct {
	p       *Picker
	picture *canvas.Raster
	veil    [4]*canvas.Rectangle // over what isn't chosen
	band    outline
}

// Layout gives the picture the whole window, pixel by pixel where it has the size.
func (r *pickerRenderer) Layout(size fyne.Size) {
	scale := float32(1)
	if c := fyne.CurrentApp().Driver().CanvasForObject(r.p); c != nil {
		scale = c.Scale()
	}
	r.p.fit = fitDesktop(r.p.desktop, size, scale)
	r.picture.Move(r.p.fit.Pos)
	r.picture.Resize(r.p.fit.Size)
	r.place()
}

// fitDesktop is fitPicture, never enlarging.
func fitDesktop(desktop image.Rectangle, size fyne.Size, scale float32) Fit {
	room := fyne.NewSize(
		min(size.Width, float32(desktop.Dx())/scale),
		min(size.Height, float32(desktop.Dy())/scale))
	return fitPicture(desktop, room, scale, false)
}

func (r *pickerRenderer) place() {
	f, chosen := r.p.fit, r.p.chosen
	pos, size := f.box(chosen)
	if chosen.Empty() {
		pos, size = f.Pos, fyne.Size{}
		r.band.hide()
	} else {
		r.band.show(pos, size)
	}
	end, all := pos.Add(size), f.Pos.Add(f.Size)
	boxes := [4][2]fyne.Position{
		{f.Pos, {X: all.X, Y: pos.Y}},
		{{X: f.Pos.X, Y: end.Y}, all},
		{{X: f.Pos.X, Y: pos.Y}, {X: pos.X, Y: end.Y}},
		{{X: end.X, Y: pos.Y}, {X: all.X, Y: end.Y}},
	}
	for i, b := range boxes {
		r.veil[i].Move(b[0])
		r.veil[i].Resize(fyne.NewSize(max(b[1].X-b[0].X, 0), max(b[1].Y-b[0].Y, 0)))
	}
	r.p.legend.place(chosen, pos, size, r.p.Size())
}

// MinSize is small: the window covers the desktop anyway.
func (r *pickerRenderer) MinSize() fyne.Size { return fyne.NewSize(settings.MinWidth, 15*Step) }

// Refresh draws again.
func (r *pickerRenderer) Refresh() {
	r.Layout(r.p.Size())
	canvas.Refresh(r.p)
}

// Objects are all that is drawn, from below.
func (r *pickerRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.picture}
	for _, v := range r.veil {
		all = append(all, v)
	}
	all = append(all, r.band.objects()...)
	return append(all, r.p.legend.box)
}

// Destroy has nothing to let go of.
func (r *pickerRenderer) Destroy() {}
