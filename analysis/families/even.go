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

// evenSum adds up the cells of a row, or of a square, that count.
type evenSum struct {
	sum     [3]int32 // L*, a* and b*
	count   int32
	product int64 // of the squared colours
}

// evenSquares are the squares around each cell: evenOut's memory.
type evenSquares struct {
	along    []evenSum // along a row
	means    [][3]int32
	variance []float32
}

// evenOut sets each cell to the mean of the most even of nine squares that hold it: that
// takes away grain and sharpens edges (EVEN). Cells that are thin or left out count in no
// square.
func (f *Finder) evenOut() {
	e, w, h := &f.planes.even, f.source.across, f.source.down
	e.along, e.means, e.variance = pool.Resized(e.along, w*h), pool.Resized(e.means, w*h), pool.Resized(e.variance, w*h)
	f.rows(h, f.sumAlong)
	f.rows(h, f.sumDown)
	f.rows(h, f.takeEvenest)
}

// sumAlong adds up each cell of row y and its neighbours along the row.
func (f *Finder) sumAlong(y int) {
	p, w := &f.planes, f.source.across
	for x := range w {
		var s evenSum
		for k := max(0, x-evenReach); k <= min(w-1, x+evenReach); k++ {
			i := y*w + k
			if p.thin[i]|f.source.left[i] != 0 {
				continue
			}
			l, a, b := p.flat[0][i], p.flat[1][i], p.flat[2][i]
			s.sum[0], s.sum[1], s.sum[2] = s.sum[0]+l, s.sum[1]+a, s.sum[2]+b
			s.product += int64(l)*int64(l) + int64(a)*int64(a) + int64(b)*int64(b)
			s.count++
		}
		p.even.along[y*w+x] = s
	}
}

// sumDown makes the squares around the cells of row y out of the sums along the rows.
func (f *Finder) sumDown(y int) {
	e, w, h := &f.planes.even, f.source.across, f.source.down
	for x := range w {
		var s evenSum
		for k := max(0, y-evenReach); k <= min(h-1, y+evenReach); k++ {
			o := &e.along[k*w+x]
			s.sum[0], s.sum[1], s.sum[2] = s.sum[0]+o.sum[0], s.sum[1]+o.sum[1], s.sum[2]+o.sum[2]
			s.product += o.product
			s.count += o.count
		}
		i := y*w + x
		e.variance[i] = math.MaxFloat32
		if s.count > 2*evenReach+1 { // more than a row of it
			n := int64(s.count)
			spread := n * s.product
			for c, sum := range s.sum {
				spread -= int64(sum) * int64(sum)
				e.means[i][c] = rounded(sum, s.count)
			}
			e.variance[i] = float32(float64(spread) / float64(n*n))
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
			for c, v := range e.means[at] {
				p.flat[c][y*w+x] = v
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
