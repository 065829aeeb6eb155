package stills

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"io"

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

// at returns the band that a row lies in.
func (b *banded) at(y int) image.Image {
	if b.band == nil || y < b.band.Bounds().Min.Y || y >= b.band.Bounds().Max.Y {
		rows := b.bounds
		rows.Min.Y = y
		rows.Max.Y = min(rows.Max.Y, y+max(bandRows, bandPixels/rows.Dx()))
		b.band = b.paint(rows)
	}
	return b.band
}

// At returns the colour of a pixel: whatever writes the image takes rows.
func (b *banded) At(x, y int) color.Color { return b.at(y).At(x, y) }

// row returns a row's pixels, counted from the top, and whether they are multiplied by alpha.
func (b *banded) row(y int) (pixels []byte, multiplied bool) {
	y += b.bounds.Min.Y
	switch band := b.at(y).(type) {
	case *image.RGBA:
		return band.Pix[(y-band.Rect.Min.Y)*band.Stride:][:4*b.bounds.Dx()], true
	case *image.NRGBA:
		return band.Pix[(y-band.Rect.Min.Y)*band.Stride:][:4*b.bounds.Dx()], false
	}
	panic("stills: a band is painted as something else")
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

// reachOf returns where notes lie on a picture, and at least a pixel: a layer is of some size.
func reachOf(in image.Rectangle, list []notes.Note) image.Rectangle {
	reach := annotation(in, 1).Bounds(list...).Intersect(in)
	if reach.Empty() {
		return image.Rectangle{Max: image.Pt(1, 1)}
	}
	return reach
}

// apart are notes and the picture under them as two PNG files of which each shows what the other
// does: drawn once, for many notes take longer than all else. Reading the picture writes the notes.
type apart struct {
	picture analysis.Pixels
	list    []notes.Note
	reach   image.Rectangle // of the notes
	file    *rowFile        // theirs
	png     bytes.Buffer    // what is written of it
	err     error
}

func newApart(p analysis.Pixels, list []notes.Note) (*apart, error) {
	a := &apart{picture: p, list: list, reach: reachOf(p.Bounds(), list)}
	file, err := newRowFile(&chunkWriter{&a.png, headSize, spaceChunk(nil)}, a.reach.Size(), false)
	a.file = file
	return a, err
}

// merged returns the picture with its notes, to be written from the top.
func (a *apart) merged() image.Image {
	return bandsOf(a.picture.Bounds(), isOpaque(a.picture), func(rows image.Rectangle) image.Image {
		img, _ := sized(a.picture.Crop(rows), 0)
		img.Rect = rows
		in := a.reach.Intersect(rows)
		if in.Empty() {
			return img
		}
		drawn := image.NewRGBA(in)
		annotate(drawn, annotation(a.picture.Bounds(), 1), a.list)
		for y := in.Min.Y; y < in.Max.Y && a.err == nil; y++ {
			a.err = a.file.add(drawn.Pix[drawn.PixOffset(in.Min.X, y):][:4*in.Dx()], true)
		}
		draw.Draw(img, in, drawn, in.Min, draw.Over)
		return img
	})
}

// Bounds is where the notes lie; their file is there when the picture was written.
func (a *apart) Bounds() image.Rectangle { return a.reach }
func (a *apart) ColorModel() color.Model { return color.NRGBAModel }
func (a *apart) At(int, int) color.Color { return color.NRGBA{} }

// write writes the notes.
func (a *apart) write(w io.Writer) error {
	if a.err == nil {
		a.err = a.file.close()
	}
	if a.err != nil {
		return a.err
	}
	_, err := w.Write(a.png.Bytes())
	return err
}

// isOpaque reports whether all of a picture is.
func isOpaque(p analysis.Pixels) bool {
	return p.Layout != analysis.RGBA || (&image.NRGBA{Pix: p.Pix, Stride: p.Stride, Rect: p.Bounds()}).Opaque()
}
