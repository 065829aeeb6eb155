package analysis

import (
	"errors"
	"fmt"
	"image"
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// Layout says how the four bytes of a pixel are laid out in memory.
type Layout uint8

const (
	// RGBA is red, green, blue, alpha, one byte each, straight (not premultiplied).
	// A pixel with alpha 0 has no colour and is left out of every statistic.
	RGBA Layout = iota
	// BGRX is blue, green, red and one byte that means nothing and may hold anything;
	// such pixels are opaque.
	BGRX
)

// ErrPixels says that the sizes of a Pixels don't fit its bytes.
var ErrPixels = errors.New("sizes do not fit the bytes")

// PixelBytes is the size of one pixel in either layout.
const PixelBytes = 4

// Pixels is a picture in memory: rows of 8-bit pixels, Stride bytes apart. The
// bytes between the end of a row and the next one are never looked at.
//
// Their numbers stand for colours of Space, and everything that is measured of them is measured
// in it: lightness is exact in any space. What is made of a picture to be shown or painted (its
// reduced picture, its palette, the code of a spot) is sRGB.
type Pixels struct {
	Pix []byte
	// Rest is, of a picture of 16 bits a channel (RGBA alone), what rounding to 8 took away:
	// signed bytes that lie as Pix does, so that a channel's 16 bits are 257 times its byte of Pix
	// plus its byte here. nil: there are 8. Spots, patches, a Reading and a Change go by all 16;
	// whatever else is measured, found or shown goes by Pix.
	Rest          []byte
	Stride        int // bytes from a row to the next, at least 4 * Width
	Width, Height int // pixels
	Layout        Layout
	Space         *colour.Space // nil: sRGB
}

// Check returns nil if the rows lie inside Pix, otherwise an error that wraps ErrPixels.
// An empty picture (no width or no height) is fine. Everything else in this package that
// takes Pixels expects them to pass; what fails counts as empty.
func (p Pixels) Check() error {
	switch {
	case p.Layout > BGRX:
		return fmt.Errorf("pixels: layout %d is unknown: %w", p.Layout, ErrPixels)
	case p.Width < 0 || p.Height < 0:
		return fmt.Errorf("pixels: %d x %d: %w", p.Width, p.Height, ErrPixels)
	case p.Width == 0 || p.Height == 0:
		return nil
	case p.Width > math.MaxInt32/PixelBytes || p.Height > math.MaxInt32:
		return fmt.Errorf("pixels: %d x %d is more than memory holds: %w", p.Width, p.Height, ErrPixels)
	case p.Stride < PixelBytes*p.Width:
		return fmt.Errorf("pixels: stride %d under %d pixels a row: %w", p.Stride, p.Width, ErrPixels)
	}
	if p.Rest != nil && (p.Layout != RGBA || len(p.Rest) < len(p.Pix)) {
		return fmt.Errorf("pixels: %d bytes of 16-bit rest for %d: %w", len(p.Rest), len(p.Pix), ErrPixels)
	}
	// Divided, not multiplied: a product of wild sizes may overflow.
	rest := len(p.Pix) - PixelBytes*p.Width
	if rest < 0 || (p.Height > 1 && rest/p.Stride < p.Height-1) {
		return fmt.Errorf("pixels: %d bytes for %d x %d at stride %d: %w",
			len(p.Pix), p.Width, p.Height, p.Stride, ErrPixels)
	}
	return nil
}

// At returns the colour of the pixel in column x of row y. counted is false outside the
// picture and where the pixel is fully transparent.
func (p Pixels) At(x, y int) (r, g, b uint8, counted bool) {
	if x < 0 || y < 0 || x >= p.Width || y >= p.Height {
		return 0, 0, 0, false
	}
	q := p.Pix[y*p.Stride+PixelBytes*x:][:PixelBytes]
	if p.Layout == BGRX {
		return q[2], q[1], q[0], true
	}
	return q[0], q[1], q[2], q[3] != 0
}

// Bin returns the bin of the histogram in which a pixel of the picture is.
func (p *Pixels) Bin(x, y int) uint8 {
	if p.Rest != nil {
		bin, _ := fixed.CodesOf(p.Space).Deep().PlaceOf(p.deepAt(x, y))
		return bin
	}
	c := p.Pixel(x, y)
	return fixed.CodesOf(p.Space).Bins.Of(c.R, c.G, c.B)
}

// Row returns the bytes of row y, which lies inside the picture.
func (p *Pixels) Row(y int) []byte { return p.Pix[y*p.Stride:][:PixelBytes*p.Width] }

// restRow returns the bytes of Rest of a row, of a picture of 16 bits a channel.
func (p *Pixels) restRow(y int) []byte { return p.Rest[y*p.Stride:][:PixelBytes*p.Width] }

// Bounds returns the picture's rectangle, from (0, 0).
func (p Pixels) Bounds() image.Rectangle { return image.Rect(0, 0, p.Width, p.Height) }

// Crop returns the part of the picture inside r, which shares its bytes and counts from
// (0, 0) again. What of r lies outside the picture is cut off.
func (p Pixels) Crop(r image.Rectangle) Pixels {
	r = r.Intersect(p.Bounds())
	if r.Empty() {
		return Pixels{Layout: p.Layout, Space: p.Space}
	}
	first := r.Min.Y*p.Stride + PixelBytes*r.Min.X
	last := (r.Max.Y-1)*p.Stride + PixelBytes*r.Max.X
	part := Pixels{
		Pix: p.Pix[first:last], Stride: p.Stride,
		Width: r.Dx(), Height: r.Dy(), Layout: p.Layout, Space: p.Space,
	}
	if p.Rest != nil {
		part.Rest = p.Rest[first:last]
	}
	return part
}

// Pixel returns the colour of a pixel of the picture, also of a transparent one, in the picture's
// space.
func (p *Pixels) Pixel(x, y int) colour.RGB {
	q := p.Pix[y*p.Stride+PixelBytes*x:][:PixelBytes]
	if p.Layout == BGRX {
		return colour.RGB{R: q[2], G: q[1], B: q[0]}
	}
	return colour.RGB{R: q[0], G: q[1], B: q[2]}
}

// lightAt returns the linear light of a pixel of the picture in its space's own primaries.
func (p *Pixels) lightAt(x, y int) (red, green, blue float64) {
	if p.Rest != nil {
		return p.deepLight(p.deepAt(x, y))
	}
	c, t := p.Pixel(x, y), p.Space.Linears()
	return t[0][c.R], t[1][c.G], t[2][c.B]
}
