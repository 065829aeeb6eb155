package ink

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/font/sfnt"
)

// Letters are drawn once and then stamped, as long as they are small: of a still with many words
// each letter stands in hundreds of places. What a stamp looks like depends on the letter alone,
// so that parts make the whole.
const (
	mostStamped = 320      // size of letters that are stamped, in pixels; larger ones are few in a picture
	mostStamps  = 16 << 20 // bytes that stamps take before they are forgotten
)

// stampKey is all that a stamp depends on.
type stampKey struct {
	face       Face
	index      sfnt.GlyphIndex
	lent       *lent
	size, grow float64
	step       image.Point // where the foot begins in its pixel, in steps
}

// stamped reports whether the letters of a text are.
func (t *Text) stamped() bool { return t.Size <= mostStamped }

// stamps are letters as they were drawn: masks around the pixel in which their foot begins.
type stamps struct {
	drawn map[stampKey]*image.Alpha
	bytes int
}

// stamp returns how much of each pixel a letter grown by so much covers, and the pixel that the
// mask lies around.
func (d *Drawer) stamp(t *Text, l letter, grow float64) (*image.Alpha, image.Point) {
	pixel := image.Pt(int(math.Floor(l.at.X)), int(math.Floor(l.at.Y)))
	within := l.at.Minus(Pt(float64(pixel.X), float64(pixel.Y)))
	steps := placeSteps(t.Size)
	key := stampKey{t.Face, l.index, l.lent, t.Size, grow, image.Pt(int(within.X*steps), int(within.Y*steps))}
	if mask, ok := d.stamps.drawn[key]; ok {
		return mask, pixel
	}
	l.at = within
	mask := image.NewAlpha(l.around(t.Size, grow).pixels())
	d.outlines.begin(mask.Rect)
	d.letter(t, l, grow)
	d.outlines.end(mask)
	if d.stamps.bytes += len(mask.Pix); d.stamps.bytes > mostStamps || d.stamps.drawn == nil {
		d.stamps = stamps{map[stampKey]*image.Alpha{}, len(mask.Pix)}
	}
	d.stamps.drawn[key] = mask
	return mask, pixel
}

// press adds a letter to a mask: where both cover a pixel the one that covers more of it counts.
func (d *Drawer) press(mask *image.Alpha, t *Text, l letter, grow float64) {
	stamp, at := d.stamp(t, l, grow)
	in := stamp.Rect.Add(at).Intersect(mask.Rect)
	for y := in.Min.Y; y < in.Max.Y; y++ {
		from := stamp.Pix[stamp.PixOffset(in.Min.X-at.X, y-at.Y):][:in.Dx()]
		to := mask.Pix[mask.PixOffset(in.Min.X, y):][:in.Dx()]
		for i, a := range from {
			to[i] = max(to[i], a)
		}
	}
}

// begin takes outlines for the pixels of a tile.
func (o *outlines) begin(tile image.Rectangle) {
	o.raster.Reset(tile.Dx(), tile.Dy())
	o.origin = Pt(float64(tile.Min.X), float64(tile.Min.Y))
}

// box returns the tile's box.
func (o *outlines) box() box {
	size := o.raster.Size()
	return box{o.origin, o.origin.Plus(Pt(float64(size.X), float64(size.Y)))}
}

// shapes are outlines of letters at their sizes, which large letters need again in each tile.
type shapes map[shapeKey][][]Point

type shapeKey struct {
	face  Face
	index sfnt.GlyphIndex
	lent  *lent
	size  float64
}

// mostShapes is how many letters' outlines are kept before they are forgotten: all that the two
// built-in typefaces have at one size are fewer.
const mostShapes = 2000

// of returns the outlines of a letter, from the left end of its foot.
func (s *shapes) of(t *Text, g glyph) [][]Point {
	key := shapeKey{t.Face, g.index, g.lent, t.Size}
	if found, ok := (*s)[key]; ok {
		return found
	}
	if *s == nil || len(*s) >= mostShapes {
		*s = shapes{}
	}
	found := g.outline(t.Face, t.Size)
	(*s)[key] = found
	return found
}

// end fills mask, which is of the tile, with how much of each pixel the outlines cover.
func (o *outlines) end(mask *image.Alpha) {
	tile := mask.Rect
	mask.Rect = image.Rectangle{Max: tile.Size()}
	o.raster.DrawOp = draw.Src // over what the mask held
	o.raster.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	mask.Rect = tile
}
