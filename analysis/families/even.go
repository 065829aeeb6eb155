package families

import (
	"math"

	"app.tonedesk/analysis/internal/pool"
)

// evenOut compares the evenness of squares of so many cells to both sides of their middle,
// and is done so many times (found on drawn scenes; no source).
const (
	evenReach  = 2
	evenRounds = 2
)

// evenSquares are the sums of squares around each cell: evenOut's memory.
type evenSquares struct {
	row      []int32
	sums     [4][]int32 // of L*, a*, b* and the cells that count, along a row
	products []int64    // of the squared colours, along a row
	means    [3][]int32
	variance []float32
}

// evenOut sets each cell to the mean of the most even of nine squares that hold it: that
// takes away grain and sharpens edges (EVEN). Cells that are thin or left out count in no
// square.
func (f *Finder) evenOut() {
	e, w, h := &f.planes.even, f.source.across, f.source.down
	e.resize(w * h)
	f.rows(h, f.sumAlong)
	f.rows(h, f.sumDown)
	f.rows(h, f.takeEvenest)
}

func (e *evenSquares) resize(n int) {
	for c := range e.sums {
		e.sums[c] = pool.Resized(e.sums[c], n)
	}
	for c := range e.means {
		e.means[c] = pool.Resized(e.means[c], n)
	}
	e.products, e.variance = pool.Resized(e.products, n), pool.Resized(e.variance, n)
}

// sumAlong adds up each cell of row y and its neighbours along the row.
func (f *Finder) sumAlong(y int) {
	p, w := &f.planes, f.source.across
	for x := range w {
		var l, a, b, count int32
		var product int64
		for k := max(0, x-evenReach); k <= min(w-1, x+evenReach); k++ {
			i := y*w + k
			if p.thin[i]|f.source.left[i] != 0 {
				continue
			}
			u, v, t := p.flat[0][i], p.flat[1][i], p.flat[2][i]
			l, a, b, count = l+u, a+v, b+t, count+1
			product += int64(u)*int64(u) + int64(v)*int64(v) + int64(t)*int64(t)
		}
		e, i := &p.even, y*w+x
		e.sums[0][i], e.sums[1][i], e.sums[2][i], e.sums[3][i], e.products[i] = l, a, b, count, product
	}
}

// sumDown makes the squares around the cells of row y out of the sums along the rows.
func (f *Finder) sumDown(y int) {
	e, w, h := &f.planes.even, f.source.across, f.source.down
	for x := range w {
		var l, a, b, count int32
		var product int64
		for k := max(0, y-evenReach); k <= min(h-1, y+evenReach); k++ {
			i := k*w + x
			l, a, b, count = l+e.sums[0][i], a+e.sums[1][i], b+e.sums[2][i], count+e.sums[3][i]
			product += e.products[i]
		}
		i := y*w + x
		e.variance[i] = math.MaxFloat32
		if count > 2*evenReach+1 { // more than a row of it
			n := int64(count)
			spread := n*product - int64(l)*int64(l) - int64(a)*int64(a) - int64(b)*int64(b)
			e.variance[i] = float32(float64(spread) / float64(n*n))
			e.means[0][i], e.means[1][i], e.means[2][i] = rounded(l, count), rounded(a, count), rounded(b, count)
		}
	}
}

// takeEvenest sets the cells of row y to the means of their most even squares; of squares
// that are equally even, the one in whose middle a cell lies comes first.
func (f *Finder) takeEvenest(y int) {
	p, e, w, h := &f.planes, &f.planes.even, f.source.across, f.source.down
	for x := range w {
		at := y*w + x
		best := e.variance[at]
		for v := y - evenReach; v <= y+evenReach; v += evenReach {
			for u := x - evenReach; u <= x+evenReach; u += evenReach {
				if v >= 0 && v < h && u >= 0 && u < w && e.variance[v*w+u] < best {
					best, at = e.variance[v*w+u], v*w+u
				}
			}
		}
		if best < math.MaxFloat32 {
			for c := range p.flat {
				p.flat[c][y*w+x] = e.means[c][at]
			}
		}
	}
}

// rounded returns sum / count, rounded to nearest and away from 0.
func rounded(sum, count int32) int32 {
	if sum < 0 {
		return -((-sum + count/2) / count)
	}
	return (sum + count/2) / count
}
