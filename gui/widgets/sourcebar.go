package widgets

import (
	"image"
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// Sign is a state's shape. A state never shows by hue.
type Sign uint8

// The signs, of how the source does.
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
	drawn

	// Region, Freeze, View and More are pressed to do what they say; their owner gives them
	// their tasks.
	Region, Freeze, View, More *Button

	state       Sign
	line, under TextForms

	back                *canvas.Rectangle
	sign                *canvas.Raster
	ink                 color.RGBA // of the sign
	lineText, underText *canvas.Text
}

// TextForms is a text in a long form, and in a short one for where that has no room.
type TextForms struct{ Long, Short string }

// NewSourceBar returns a bar that waits for its source.
func NewSourceBar(keys Keys) *SourceBar {
	b := &SourceBar{state: SignWaiting}
	b.Region = NewButton("Region", keys, nil)
	b.Freeze = NewButton("Freeze", keys, nil)
	b.View = NewButton("Grey", keys, nil)
	b.More = NewButton("", keys, nil)
	b.More.Icon = theme.MoreHorizontalIcon()
	b.back = b.addBox()
	b.sign = add(&b.drawn, canvas.NewRaster(func(w, h int) image.Image { return drawSign(b.state, w, h, b.ink) }))
	b.lineText, b.underText = b.addText(TextSize, fyne.TextStyle{}), b.addText(SmallSize, fyne.TextStyle{})
	for _, button := range b.buttons() {
		add(&b.drawn, button)
	}
	b.draw(b)
	return b
}

// Set shows a state; texts that are the same cost nothing.
func (b *SourceBar) Set(state Sign, line, under TextForms) {
	if state == b.state && line == b.line && under == b.under {
		return
	}
	b.state, b.line, b.under = state, line, under
	b.redraw()
	b.sign.Refresh()
}

// Line returns the first of the texts, in its long form.
func (b *SourceBar) Line() string { return b.line.Long }

// Under returns the second of them.
func (b *SourceBar) Under() string { return b.under.Long }

func (b *SourceBar) buttons() []*Button { return []*Button{b.Region, b.Freeze, b.View, b.More} }

func (b *SourceBar) buttonsWidth() (w float32) {
	for _, b := range b.buttons() {
		w += b.MinSize().Width + Step/2
	}
	return w
}

// Lengths of the bar.
const (
	signSide   = 12
	barHeight  = 5.5 * Step // where the buttons stand beside the texts
	barTwoRows = 45 * Step  // the width below which they stand under the texts
)

// heightFor is the bar's height in a window of this width.
func (b *SourceBar) heightFor(width float32) float32 {
	if width < barTwoRows {
		return 2*barHeight - Step
	}
	return barHeight
}

// textsRoom is the width that is left for the texts.
func (b *SourceBar) textsRoom(width float32) float32 {
	if width < barTwoRows {
		return width - 5*Step
	}
	return width - b.buttonsWidth() - 4.5*Step - Step/2
}

// write puts in the longest texts that fit.
func (b *SourceBar) write(size fyne.Size, of colours) {
	fill(b.back, of(ColorNamePanel))
	b.ink = color.RGBAModel.Convert(of(theme.ColorNameForeground)).(color.RGBA)
	room := b.textsRoom(size.Width)
	say(b.lineText, longestFitting(room, TextSize, b.line.Long, b.line.Short), of(theme.ColorNameForeground))
	say(b.underText, longestFitting(room, SmallSize, b.under.Long, b.under.Short), of(ColorNameQuiet))
}

// place puts the buttons to the right of the texts, or below them in a narrow window.
func (b *SourceBar) place(size fyne.Size) {
	b.back.Resize(size)
	row := size.Height
	if size.Width < barTwoRows {
		row /= 2
	}
	put(b.sign, fyne.NewPos(1.5*Step, (row-signSide)/2), fyne.NewSquareSize(signSide))
	placeText(b.lineText, 4*Step, row/2-b.lineText.MinSize().Height+1)
	placeText(b.underText, 4*Step, row/2+1)
	x := size.Width
	for _, button := range slices.Backward(b.buttons()) {
		least := button.MinSize()
		x -= least.Width + Step/2
		put(button, fyne.NewPos(x, size.Height-row+(row-least.Height)/2), least)
	}
}

// minSize is the narrowest form.
func (b *SourceBar) minSize() fyne.Size { return fyne.NewSize(b.buttonsWidth()+Step, barHeight) }

// drawSign draws a state's shape, w by h pixels.
func drawSign(s Sign, w, h int, ink color.RGBA) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	side := float64(min(w, h))
	for y := range h {
		for x := range w {
			u, v := (float64(x)+0.5)/side*2-1, (float64(y)+0.5)/side*2-1
			img.SetRGBA(x, y, faded(ink, signCover(s, u, v, side)))
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
