package reduce

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// aim is one of the results of a pass over a picture.
type aim struct {
	result  *Picture
	box     image.Rectangle // of the result, that is made
	out     *analysis.Mask
	byLight bool // out leaves out some lightness
	grid    Grid
	columns []column // of grid.X
}

// set aims at all of a result whose boxes lie in a grid.
func (a *aim) set(result *Picture, out *analysis.Mask, grid Grid) {
	if len(a.columns) != grid.X.Count || a.grid.X != grid.X {
		a.columns = setColumns(a.columns, &grid.X)
	}
	a.grid = grid
	a.result, a.out, a.box = result, out, image.Rect(0, 0, result.Width, result.Height)
	a.byLight = out != nil && out.Lightness != [256]bool{}
}

// column is a column of boxes: the source pixels it covers, of which the first and the one
// after the full ones may lie in it only in part. Parts are in units of 1/Unit pixel.
type column struct {
	first int    // source pixel
	full  int    // how many pixels after the first lie in the box as a whole; -1 where all of it lies in the first
	head  uint64 // part of the first, 1 to Unit
	tail  uint64 // part of the pixel after the full ones, 0 to Unit - 1
	wide  uint64 // all of it
}

func setColumns(columns []column, b *Boxes) []column {
	columns = columns[:0]
	for j := range b.Count {
		begin, end := b.begin(j), b.end(j) // at least Unit apart, but for the first and the last
		first := begin / b.Unit
		columns = append(columns, column{
			first: first,
			full:  end/b.Unit - first - 1,
			head:  uint64((first+1)*b.Unit - begin),
			tail:  uint64(end % b.Unit),
			wide:  uint64(end - begin),
		})
	}
	return columns
}

// strips are a worker's memory: of a row of the picture, and of each aim.
type strips struct {
	sums []uint64 // see sumUp
	of   []strip
}

func (s *strips) resize(aims []aim, source int) {
	s.sums, s.of = pool.Resized(s.sums, source+1), pool.Resized(s.of, len(aims))
	for i := range aims {
		t, width := &s.of[i], aims[i].box.Dx()
		t.row, t.boxes, t.ends = pool.Resized(t.row, width), pool.Resized(t.boxes, width), pool.Resized(t.ends, width)
	}
}

// strip is how far some rows of boxes of one aim have come. Sums are by area, four each: red, green,
// blue and the area itself.
type strip struct {
	next, last int // rows of boxes: the one in work, and where they end
	row        [][4]uint64
	boxes      [][4]uint64 // of the source rows that lie in a row of boxes as a whole
	ends       [][4]uint64 // of those that lie in it in part, in units of 1/Unit of a row
}

// reducePiece makes some rows of each aim, of about the same part of the picture. Source rows are
// summed across once each, and added to the one or two rows of boxes they lie in, by area.
func (r *Reducer) reducePiece(worker, piece int) {
	s := &r.strips[worker]
	from, to := r.pixels.Height, 0
	left, right := r.pixels.Width, 0
	for i := range r.aims {
		a, t := &r.aims[i], &s.of[i]
		t.next, t.last = a.box.Min.Y+piece*a.box.Dy()/r.pieces, a.box.Min.Y+(piece+1)*a.box.Dy()/r.pieces
		if t.next == t.last {
			continue
		}
		clear(t.boxes)
		clear(t.ends)
		b := &a.grid.Y
		from, to = min(from, b.begin(t.next)/b.Unit), max(to, (b.end(t.last-1)+b.Unit-1)/b.Unit)
		first, last := &a.columns[a.box.Min.X], &a.columns[a.box.Max.X-1]
		left, right = min(left, first.first), max(right, last.first+1+last.full+int(min(last.tail, 1)))
	}
	light := newRowLight(r.codes.Light, r.pixels.Layout)
	for y := from; y < to; y++ {
		src := r.pixels.Row(y)
		hasClear := light.sumUp(s.sums[:right-left+1], src[analysis.PixelBytes*left:analysis.PixelBytes*right])
		for i := range r.aims {
			a, t := &r.aims[i], &s.of[i]
			b := &a.grid.Y
			if t.next == t.last || (y+1)*b.Unit <= b.begin(t.next) {
				continue
			}
			to := t.boxes
			if inside := y*b.Unit >= b.begin(t.next) && (y+1)*b.Unit <= b.end(t.next); !inside {
				clear(t.row)
				to = t.row
			}
			columns, whole := a.columns[a.box.Min.X:a.box.Max.X], uint64(a.grid.X.Unit)
			if hasClear {
				sumClearRow(to, columns, whole, src, &light)
			} else {
				sumRow(to, columns, whole, s.sums, left)
			}
			r.add(a, t, y)
		}
	}
}

// add adds the sums of row y to the boxes that it lies in in part, and finishes those that it ends.
func (r *Reducer) add(a *aim, t *strip, y int) {
	b := &a.grid.Y
	high := b.Unit
	for t.next < t.last {
		begin, end := b.begin(t.next), b.end(t.next) // in 1/high of a source row
		part := min((y+1)*high, end) - max(y*high, begin)
		if part <= 0 {
			return
		}
		if part < high {
			addRow(t.ends, t.row, uint64(part))
		}
		if (y+1)*high < end {
			return
		}
		addRow(t.ends, t.boxes, uint64(high))
		r.finish(a, t.ends, t.next)
		clear(t.boxes)
		clear(t.ends)
		t.next++
	}
}

// addRow adds sums so many times.
func addRow(to, sums [][4]uint64, times uint64) {
	to = to[:len(sums)]
	for j := range sums {
		from, to := &sums[j], &to[j]
		to[0] += from[0] * times
		to[1] += from[1] * times
		to[2] += from[2] * times
		to[3] += from[3] * times
	}
}

// finish divides the boxes by their areas and writes them into row y of the result.
func (r *Reducer) finish(a *aim, boxes [][4]uint64, y int) {
	at := y*a.result.Width + a.box.Min.X
	linear, left := a.result.Linear[3*at:][:3*len(boxes)], a.result.Left[at:][:len(boxes)]
	high := uint64(a.grid.Y.end(y) - a.grid.Y.begin(y))
	usual := uint64(a.grid.X.Size) * high
	byArea := fixed.NewDivisor(usual)
	for j := range boxes {
		box, dst := &boxes[j], linear[3*j:][:3]
		area := a.columns[a.box.Min.X+j].wide * high
		left[j] = 0
		switch inColour := box[3]; {
		case inColour == usual:
			for i := range dst {
				dst[i] = uint16(byArea.Of(box[i] + usual/2))
			}
		case inColour == 0:
			dst[0], dst[1], dst[2] = fixed.MiddleGrey, fixed.MiddleGrey, fixed.MiddleGrey
		default:
			for i := range dst {
				dst[i] = uint16((box[i] + inColour/2) / inColour)
			}
		}
		r.codes.InSRGB(dst)
		if 2*box[3] < area || a.byLight && a.out.Lightness[fixed.Bins.Steps.Of(fixed.LightOf(dst[0], dst[1], dst[2]))] {
			left[j] = 1
		}
	}
}
