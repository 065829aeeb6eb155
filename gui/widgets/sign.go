package widgets

import (
	"image"
	"image/color"
	"math"
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
