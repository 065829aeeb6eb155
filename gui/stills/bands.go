package stills

import (
	"image"
	"image/color"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills/notes"
)

// bandPixels is how many pixels of a picture are painted at a time where it is written, and
// bandRows how many rows at the least (our choices: 16 MB, and no less than ink's tiles need).
const (
	bandPixels = 4_000_000
	bandRows   = 64
)

// banded is an image that is painted a band of rows at a time, while it is read from the top:
// there may be no memory for the whole. Not for concurrent use.
type banded struct {
	bounds image.Rectangle
	opaque bool
	paint  func(rows image.Rectangle) image.Image
	band   image.Image
	pixel  color.NRGBA // of an opaque image, the last that was asked for: one for each takes long
}

// bandsOf returns an image that paint paints; a small one at once.
func bandsOf(bounds image.Rectangle, opaque bool, paint func(rows image.Rectangle) image.Image) image.Image {
	if bounds.Dx()*bounds.Dy() <= bandPixels {
		return paint(bounds)
	}
	return &banded{bounds: bounds, opaque: opaque, paint: paint}
}

func (b *banded) ColorModel() color.Model { return color.NRGBAModel }
func (b *banded) Bounds() image.Rectangle { return b.bounds }

// Opaque spares whoever writes the image from looking for himself.
func (b *banded) Opaque() bool { return b.opaque }

// At returns the colour of a pixel. That of an opaque image lasts until the next is asked for.
func (b *banded) At(x, y int) color.Color {
	if b.band == nil || !image.Pt(x, y).In(b.band.Bounds()) {
		rows := b.bounds
		rows.Min.Y = y
		rows.Max.Y = min(rows.Max.Y, y+max(bandRows, bandPixels/rows.Dx()))
		b.band = b.paint(rows)
	}
	switch band := b.band.(type) {
	case *image.RGBA:
		if b.opaque {
			b.pixel = color.NRGBA(band.RGBAAt(x, y))
			return &b.pixel
		}
	case *image.NRGBA:
		if b.opaque {
			b.pixel = band.NRGBAAt(x, y)
			return &b.pixel
		}
	}
	return b.band.At(x, y)
}

// Annotated returns a picture with its notes, their numbers and readings, pixel for pixel, to
// be read from the top. Neither may change until then.
func Annotated(p analysis.Pixels, list []notes.Note) image.Image {
	view := annotation(p.Bounds(), 1)
	return bandsOf(p.Bounds(), isOpaque(p), func(rows image.Rectangle) image.Image {
		img, _ := sized(p.Crop(rows), 0)
		img.Rect = rows
		annotate(img, view, list)
		return img
	})
}

// onlyNotes returns the notes alone, no larger than they reach.
func onlyNotes(in image.Rectangle, list []notes.Note) image.Image {
	view := annotation(in, 1)
	reach := view.Bounds(list...).Intersect(in)
	if reach.Empty() {
		reach = image.Rectangle{Max: image.Pt(1, 1)} // a layer is of some size
	}
	return bandsOf(reach, false, func(rows image.Rectangle) image.Image {
		img := image.NewRGBA(rows)
		annotate(img, view, list)
		return img
	})
}

// isOpaque reports whether all of a picture is.
func isOpaque(p analysis.Pixels) bool {
	return p.Layout != analysis.RGBA || (&image.NRGBA{Pix: p.Pix, Stride: p.Stride, Rect: p.Bounds()}).Opaque()
}
