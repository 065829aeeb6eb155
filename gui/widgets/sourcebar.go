package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Sign is a state's shape. State is never told by hue.
type Sign uint8

const (
	SignLive    Sign = iota // a disc
	SignSame                // a ring
	SignFrozen              // two bars
	SignWaiting             // three dots
	SignHidden              // an empty square
	SignTrouble             // a cross
)

// SourceBar is the window's first row: how the source does, and what can be done with it.
type SourceBar struct {
	widget.BaseWidget
	state       Sign
	Line, under Widths
	Region      *Button
	Freeze      *Button
	View        *Button
	More        *Button
	r           *sourceBarRenderer
}

// Widths is a text in a long and a short form.
type Widths struct{ Long, Short string }

func NewSourceBar(keys Keys) *SourceBar {
	b := &SourceBar{state: SignWaiting}
	b.Region = NewButton("Region", keys, nil)
	b.Freeze = NewButton("Freeze", keys, nil)
	b.View = NewButton("Grey", keys, nil)
	b.More = NewButton("", keys, nil)
	b.More.Icon = theme.MoreHorizontalIcon()
	b.ExtendBaseWidget(b)
	return b
}

// Set shows a state; texts that are the same cost nothing.
func (b *SourceBar) Set(state Sign, line, under Widths) {
	if state == b.state && line == b.Line && under == b.under {
		return
	}
	b.state, b.Line, b.under = state, line, under
	if b.r != nil {
		b.r.write()
		b.r.sign.Refresh()
	}
}

// CreateRenderer makes the canvas objects.
func (b *SourceBar) CreateRenderer() fyne.WidgetRenderer {
	r := &sourceBarRenderer{b: b, back: canvas.NewRectangle(color.Transparent)}
	r.sign = canvas.NewRaster(func(w, h int) image.Image { return drawSign(b.state, w, h, r.ink) })
	r.line, r.under = canvas.NewText("", color.White), canvas.NewText("", color.White)
	r.line.TextSize, r.under.TextSize = TextSize, SmallSize
	b.r = r
	r.colour()
	return r
}

type sourceBarRenderer struct {
	b           *SourceBar
	back        *canvas.Rectangle
	sign        *canvas.Raster
	ink         color.NRGBA
	line, under *canvas.Text
	room        float32 // for the texts
}

func (r *sourceBarRenderer) colour() {
	th, v := r.b.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.line.Color = th.Color(theme.ColorNameForeground, v)
	r.under.Color = th.Color(ColorNameQuiet, v)
	r.ink = color.NRGBAModel.Convert(th.Color(theme.ColorNameForeground, v)).(color.NRGBA)
}

const signSide = 12

// barHeight is the row's height when its buttons stand beside the texts, and the height
// of each of two rows where there is no room for that.
const barHeight = 5.5 * Step

// barTwoRows is the width of the window below which the texts get a row of their own.
const barTwoRows = 45 * Step

func (r *sourceBarRenderer) buttons() []*Button {
	return []*Button{r.b.Region, r.b.Freeze, r.b.View, r.b.More}
}

func (r *sourceBarRenderer) buttonsWidth() (w float32) {
	for _, b := range r.buttons() {
		w += b.MinSize().Width + Step/2
	}
	return w
}

// Layout puts the buttons to the right of the texts, or below them in a narrow window.
func (r *sourceBarRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	row := size.Height
	r.room = size.Width - r.buttonsWidth() - 4.5*Step - Step/2
	if size.Width < barTwoRows {
		r.room, row = size.Width-5*Step, size.Height/2
	}
	r.sign.Move(fyne.NewPos(1.5*Step, (row-signSide)/2))
	r.sign.Resize(fyne.NewSquareSize(signSide))
	r.write()
	r.line.Move(fyne.NewPos(4*Step, row/2-r.line.MinSize().Height+1))
	r.under.Move(fyne.NewPos(4*Step, row/2+1))
	x := size.Width - Step/2
	for i := len(r.buttons()) - 1; i >= 0; i-- {
		b := r.buttons()[i]
		w := b.MinSize().Width
		x -= w
		b.Move(fyne.NewPos(x, size.Height-row+(row-b.MinSize().Height)/2))
		b.Resize(fyne.NewSize(w, b.MinSize().Height))
		x -= Step / 2
	}
}

// write puts in the longest texts that fit.
func (r *sourceBarRenderer) write() {
	put := func(t *canvas.Text, w Widths) {
		text := w.Long
		if fyne.MeasureText(text, t.TextSize, t.TextStyle).Width > r.room {
			text = w.Short
		}
		if t.Text != text {
			t.Text = text
			t.Refresh()
		}
	}
	put(r.line, r.b.Line)
	put(r.under, r.b.under)
}

// heightFor is the bar's height in a window of this width.
func (b *SourceBar) heightFor(width float32) float32 {
	if width < barTwoRows {
		return 2*barHeight - Step
	}
	return barHeight
}

// MinSize is the narrowest form.
func (r *sourceBarRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.buttonsWidth()+Step, barHeight)
}

// Refresh draws with the theme of now.
func (r *sourceBarRenderer) Refresh() {
	r.colour()
	r.Layout(r.b.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn.
func (r *sourceBarRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.sign, r.line, r.under, r.b.Region, r.b.Freeze, r.b.View, r.b.More}
}

// Destroy has nothing to let go of.
func (r *sourceBarRenderer) Destroy() {}

// drawSign draws a state's shape, w by h pixels.
func drawSign(s Sign, w, h int, ink color.NRGBA) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	side := float64(min(w, h))
	for y := range h {
		for x := range w {
			u, v := (float64(x)+0.5)/side*2-1, (float64(y)+0.5)/side*2-1
			cover := signCover(s, u, v, side)
			img.SetRGBA(x, y, color.RGBA{
				R: uint8(float64(ink.R)*cover + 0.5), G: uint8(float64(ink.G)*cover + 0.5),
				B: uint8(float64(ink.B)*cover + 0.5), A: uint8(255*cover + 0.5),
			})
		}
	}
	return img
}

// signCover says how much of a pixel at (u, v), both -1 to 1, the shape covers; side is
// the shape's in pixels. The distance to the outline, in pixels, softens it.
func signCover(s Sign, u, v, side float64) float64 {
	inside := func(d float64) float64 { return min(max(0.5-d*side/2, 0), 1) }
	radius := math.Hypot(u, v)
	square := max(math.Abs(u), math.Abs(v))
	switch s {
	case SignLive:
		return inside(radius - 0.85)
	case SignSame:
		return inside(math.Abs(radius-0.72) - 0.16)
	case SignFrozen:
		return inside(max(math.Abs(math.Abs(u)-0.5)-0.24, math.Abs(v)-0.85))
	case SignHidden:
		return inside(math.Abs(square-0.7) - 0.15)
	case SignTrouble:
		return inside(max(min(math.Abs(u-v), math.Abs(u+v))/math.Sqrt2-0.18, square-0.85))
	}
	return inside(math.Hypot(math.Mod(u+3, 0.7)-0.35+0.02, v) - 0.2)
}
