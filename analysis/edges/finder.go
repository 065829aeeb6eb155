package edges

import (
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
	"app.tonedesk/analysis/reduce"
)

// Finder looks for edges in one picture after another without allocating. The zero value is ready
// for use, on one goroutine at a time.
type Finder struct {
	gate    gate
	options Options
	src     *reduce.Picture
	pass    func(f *Finder, from, to int) // what Rows does
	by      int                           // pixels of src a cell, each way
	w, h    int                           // cells

	cells   []cell
	squares []squares // of the cells
	linear  []uint16  // of the cells; src's own where by is 1
	// Whether there may be an edge between a cell and the next, to the right in across, row by row,
	// and below in below, column by column.
	across, below []candidate

	marks  []mark
	at     [2][]int32 // by axis and cell: number of a mark plus 1
	queue  []int32
	chains []chain
	found  Found
}

// Find looks for edges in a reduced picture. What it returns is valid until the next Find. A
// picture of more than Longest pixels is worked on by squares of them.
func (f *Finder) Find(src *reduce.Picture, o Options) *Found {
	f.options, f.src = o, src
	f.gate = gateOf(&f.options)
	f.by = max(1, (max(src.Width, src.Height)+Longest-1)/Longest)
	f.w, f.h = (src.Width+f.by-1)/f.by, (src.Height+f.by-1)/f.by
	size := f.w * f.h
	f.cells, f.squares = pool.Resized(f.cells, size), pool.Resized(f.squares, size)
	f.across, f.below = pool.Resized(f.across, size), pool.Resized(f.below, size)
	f.found = Found{Edges: f.found.Edges[:0], across: float64(src.Width) / float64(f.by), down: float64(src.Height) / float64(f.by)}
	if size == 0 {
		f.src = nil
		return &f.found
	}
	if f.by == 1 {
		f.linear = src.Linear
	} else {
		f.linear = pool.Resized(f.linear, 3*size)
	}
	f.do((*Finder).fillRows)
	clear(f.across)
	clear(f.below)
	f.do((*Finder).lookAcross)
	f.gather()
	f.link()
	f.measure()
	f.src = nil // the picture isn't ours to keep
	if f.by == 1 {
		f.linear = nil
	}
	return &f.found
}

// Last returns what the last Find found, nothing before the first. It is valid until the next.
func (f *Finder) Last() *Found { return &f.found }

func (f *Finder) do(pass func(f *Finder, from, to int)) {
	f.pass = pass
	f.src.Do(f, f.h)
}

// Rows is for reduce.Picture.
func (f *Finder) Rows(_, from, to int) { f.pass(f, from, to) }

// fillRows makes the cells of some rows.
func (f *Finder) fillRows(from, to int) {
	for y := from; y < to; y++ {
		var last [3]uint16 // light of the cell before: painted pictures are full of flat patches
		same := cellOf(last[:])
		for x := range f.w {
			i, left := y*f.w+x, false
			if f.by == 1 {
				left = f.src.Left[i] != 0
			} else {
				left = f.average(x, y, f.linear[3*i:][:3])
			}
			if light := [3]uint16(f.linear[3*i:]); light != last {
				last, same = light, cellOf(light[:])
			}
			f.cells[i], f.squares[i] = same, same.squares()
			if left {
				f.cells[i] |= leftOut
			}
		}
	}
}

// average writes the mean light of a cell's pixels, and returns whether any of them is left out.
func (f *Finder) average(x, y int, mean []uint16) (left bool) {
	var sum [3]int
	count := 0
	for v := y * f.by; v < min(y*f.by+f.by, f.src.Height); v++ {
		for u := x * f.by; u < min(x*f.by+f.by, f.src.Width); u++ {
			i := v*f.src.Width + u
			for c, light := range f.src.Linear[3*i:][:3] {
				sum[c] += int(light)
			}
			left = left || f.src.Left[i] != 0
			count++
		}
	}
	for c := range mean {
		mean[c] = uint16((sum[c] + count/2) / count)
	}
	return left
}

// light is linear light, 1 being the display's white.
type light [3]float64

func (l light) lab() colour.Lab { return colour.LabOf(l[0], l[1], l[2]) }

// add adds the light of a cell, weighted.
func (f *Finder) add(l *light, i int, weight float64) {
	for c, v := range f.linear[3*i:][:3] {
		l[c] += weight / fixed.LinearWhite * float64(v)
	}
}
