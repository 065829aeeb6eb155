package pointer

import (
	"bytes"
	"context"
	"image"
	"image/draw"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/gui/pictures"
)

const (
	every   = 100 * time.Millisecond // between two looks: ten a second
	wait    = time.Second            // how long the system may take for one. Our choice
	squared = 15                     // side of the square that is read and enlarged, pixels: the loupe's in the mirror
)

// look is what lies around the pointer.
type look struct {
	at    image.Point // pixel under the pointer, on the desktop
	img   *image.RGBA // the square around it as far as it lies on the desktop, opaque, its place the desktop's; nil: not read
	space *colour.Space
}

// read looks once: where the pointer is, and around it if that is wanted there.
func read(ctx context.Context, acts Acts, wanted func(image.Point) bool) (l look, err error) {
	ctx, cancel := context.WithTimeout(ctx, wait)
	defer cancel()
	err = acts.Use(func(b capture.Backend) (err error) {
		if l.at, err = capture.PointerAt(ctx, b); err != nil || !wanted(l.at) {
			return err
		}
		f, err := capture.ReadSquare(ctx, b, l.at, squared)
		if err == nil {
			l.img = image.NewRGBA(image.Rectangle{Max: f.Size})
			pictures.CopyOpaque(l.img, pictures.Pixels(&f))
			l.img.Rect = l.img.Rect.Add(f.Origin)
		}
		return err
	})
	if l.img != nil && acts.SpaceAt != nil {
		l.space = acts.SpaceAt(ctx, l.at)
	}
	return l, err
}

// square is what is read around a pixel.
func square(at image.Point) image.Rectangle {
	corner := at.Sub(image.Pt(squared/2, squared/2))
	return image.Rectangle{Min: corner, Max: corner.Add(image.Pt(squared, squared))}
}

// same reports whether two looks saw the same at the same place.
func (l look) same(other look) bool {
	if l.at != other.at || (l.img == nil) != (other.img == nil) {
		return false
	}
	return l.img == nil || l.space == other.space && l.img.Rect == other.img.Rect && bytes.Equal(l.img.Pix, other.img.Pix)
}

// spot reads the square of side pixels in the middle, as a spot there would.
func (l look) spot(side int) (analysis.Spot, error) {
	p := analysis.Pixels{Pix: l.img.Pix, Stride: l.img.Stride, Width: l.img.Rect.Dx(), Height: l.img.Rect.Dy(), Space: l.space}
	at := l.at.Sub(l.img.Rect.Min)
	return analysis.ReadSpot(p, at.X, at.Y, side)
}

// loupe is the whole square as a picture; what lies off the desktop stays empty.
func (l look) loupe() *image.RGBA {
	img := image.NewRGBA(square(l.at))
	draw.Draw(img, l.img.Rect, l.img, l.img.Rect.Min, draw.Src)
	img.Rect = img.Rect.Sub(img.Rect.Min)
	return img
}
