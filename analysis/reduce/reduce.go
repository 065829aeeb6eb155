package reduce

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// Picture is a picture reduced to the pixels of the mirror, in linear light of sRGB, as the views
// paint it. Colours that sRGB can't show are brought to its edge, at their own lightness.
type Picture struct {
	Width, Height int
	Linear        []uint16 // red, green, blue of each pixel; 65535 is the display's white
	Left          []uint8  // 1 where a pixel is left out of the statistics, else 0

	// What views work with, on all cores and without allocating from the second frame on.
	workers *pool.Workers           // the Reducer's
	memory  []any                   // kept for the next frame: pointers, each of a type of its own
	piece   func(worker, piece int) // doPiece, bound once
	job     Job
	rows    int  // the job's
	fresh   span // rows that were made anew last
	only    span // rows that Spans paints: all, but see Only
}

// rowsReduced is how many rows of the result a worker makes at a time.
const rowsReduced = 12

// rowsTogether is the same of the largest of several results: where two workers meet, rows of the picture
// are read twice, for small ones.
const rowsTogether = 36

// Reducer reduces one frame after another without allocating. It owns its buffers and its
// goroutines: not for concurrent use, and to be closed.
type Reducer struct {
	workers *pool.Workers
	pixels  analysis.Pixels
	codes   *fixed.Codes // of the pixels' space
	aims    []aim
	pieces  int
	strips  []strips // one a worker
	result  Picture
	kept    kept
}

// kept is what has to be as it was for the result before to hold where nothing has changed.
type kept struct {
	whole  bool // it is there, made to its end
	size   image.Point
	to     image.Point
	layout analysis.Layout
	space  *colour.Space
	left   analysis.WasLeft
}

// New returns a Reducer that works on all cores.
func New() *Reducer {
	r := &Reducer{aims: make([]aim, 1)}
	r.workers = pool.New(r.reducePiece)
	r.strips = make([]strips, r.workers.Workers())
	r.result.workers, r.result.piece = r.workers, r.result.doPiece
	return r
}

// Close ends the Reducer's goroutines. Its last result stays valid, and can be painted.
func (r *Reducer) Close() { r.workers.Close() }

// Reduce averages the picture over equal boxes, width across and height down, in linear
// light; a source pixel on the border of boxes counts in each by the area it has there. A
// target larger than the picture is cut to the picture's size. The result is valid until
// the next Reduce.
//
// Fully transparent pixels don't enter the average; a box with less than half of its area
// in colour is left out, and middle grey (L* 50) if it has none. A pixel is also left out
// if its centre lies in one of out's areas or what is grown, or its own lightness is left out.
//
// Pixels that fail Check are an empty picture, whose result is empty.
func (r *Reducer) Reduce(p analysis.Pixels, width, height int, out *analysis.Mask) *Picture {
	return r.ReduceChanged(p, width, height, out, p.Bounds())
}

// ReduceChanged is Reduce for a picture that differs from the one reduced before in changed at
// most, in its own pixels; empty for nowhere. Only what that touches is made anew, as far as sizes
// and what is left out are as before, and the result is exactly what Reduce makes.
func (r *Reducer) ReduceChanged(p analysis.Pixels, width, height int, out *analysis.Mask, changed image.Rectangle) *Picture {
	if p.Check() != nil {
		p = analysis.Pixels{}
	}
	width, height = min(width, p.Width), min(height, p.Height)
	if width <= 0 || height <= 0 {
		width, height = 0, 0
	}
	to := image.Pt(width, height)
	holds := r.kept.whole && r.kept.size == p.Bounds().Max && r.kept.to == to && r.kept.layout == p.Layout && r.kept.space == p.Space && r.kept.left.Same(out)
	r.kept.whole = false // until it is made to the end
	r.result.resize(width, height)
	r.result.fresh = span{}
	if width == 0 {
		return &r.result
	}
	a := &r.aims[0]
	a.set(&r.result, out, EqualGrid(p.Bounds().Max, to))
	if holds {
		a.box = touched(changed.Intersect(p.Bounds()), p.Bounds().Max, to)
	}
	r.result.fresh = span{a.box.Min.Y, a.box.Max.Y}
	r.pass(p, (a.box.Dy()+rowsReduced-1)/rowsReduced)
	r.kept.whole, r.kept.size, r.kept.to, r.kept.layout, r.kept.space = true, p.Bounds().Max, to, p.Layout, p.Space
	r.kept.left.Keep(out)
	return &r.result
}

// ReduceTo is Reduce to what To says.
func (r *Reducer) ReduceTo(p analysis.Pixels, to To) *Picture {
	if to.Grid == nil || p.Check() != nil || p.Width == 0 || p.Height == 0 {
		return r.Reduce(p, to.Size.X, to.Size.Y, to.Out)
	}
	r.kept.whole = false
	r.result.resize(to.Grid.X.Count, to.Grid.Y.Count)
	r.result.fresh = span{0, r.result.Height}
	r.aims[0].set(&r.result, to.Out, *to.Grid)
	r.pass(p, (r.result.Height+rowsReduced-1)/rowsReduced)
	return &r.result
}

// pass makes all aims in so many pieces.
func (r *Reducer) pass(p analysis.Pixels, pieces int) {
	r.pixels, r.codes, r.pieces = p, fixed.CodesOf(p.Space), pieces
	for i := range r.strips {
		r.strips[i].resize(r.aims, p.Width)
	}
	r.workers.Do(pieces)
	for i := range r.aims {
		a := &r.aims[i]
		a.result.leaveOut(a.out, &a.grid)
		a.out = nil
	}
	r.pixels = analysis.Pixels{} // the frame isn't ours to keep
}

// touched returns the boxes that a part of a picture of some size, reduced to another, has a
// share in.
func touched(part image.Rectangle, size, to image.Point) image.Rectangle {
	if part.Empty() {
		return image.Rectangle{}
	}
	return image.Rect(part.Min.X*to.X/size.X, part.Min.Y*to.Y/size.Y,
		(part.Max.X*to.X+size.X-1)/size.X, (part.Max.Y*to.Y+size.Y-1)/size.Y)
}

func (d *Picture) resize(width, height int) {
	d.Width, d.Height = width, height
	d.Linear, d.Left = pool.Resized(d.Linear, 3*width*height), pool.Resized(d.Left, width*height)
	d.only = span{0, height}
}

// leaveOut marks the pixels whose centres lie in out's areas, which count in source pixels.
func (d *Picture) leaveOut(out *analysis.Mask, grid *Grid) {
	if out == nil || d.Width == 0 {
		return
	}
	source := image.Rect(0, 0, grid.X.Pixels, grid.Y.Pixels)
	for _, area := range out.Areas {
		boxes := grid.CentresIn(area.Canon().Intersect(source))
		for y := boxes.Min.Y; y < boxes.Max.Y; y++ {
			for x := boxes.Min.X; x < boxes.Max.X; x++ {
				d.Left[y*d.Width+x] = 1
			}
		}
	}
	if out.Grown != nil {
		d.leaveOutGrown(out, source, grid)
	}
}

// leaveOutGrown does the same for what is grown.
func (d *Picture) leaveOutGrown(out *analysis.Mask, source image.Rectangle, grid *Grid) {
	var left analysis.Left
	left.Set(&analysis.Mask{Grown: out.Grown, At: out.At}, source)
	for y := range d.Height {
		row := d.Left[y*d.Width:][:d.Width]
		for x := 0; x < source.Dx(); {
			end, counted := left.NextSpan(grid.Y.Middle(y), x, source.Dx())
			if !counted {
				for i := grid.X.CentreAt(x); i < grid.X.CentreAt(end); i++ {
					row[i] = 1
				}
			}
			x = end
		}
	}
}

// Histogram counts the pixels that are not left out, by bin of lightness.
func (d *Picture) Histogram() (histogram [256]int) {
	for i, left := range d.Left {
		if left == 0 {
			p := d.Linear[3*i:][:3]
			histogram[fixed.Bins.Steps.Of(fixed.LightOf(p[0], p[1], p[2]))]++
		}
	}
	return histogram
}
