package analysis

import "math"

// jumpCells is how many cells across a picture is reduced to, to see whether it jumped.
const jumpCells = 96

// Limits of Moved (our choice, common practice, no source). Differences are in steps of
// the 8-bit L* plane.
const (
	jumpChange  = 4.0  // of a cell: it has changed
	jumpFew     = 0.02 // share of changed cells up to which nothing jumped
	jumpMany    = 0.30 // share of changed cells from which a change without a pattern is a jump
	jumpSpread  = 0.50 // of width and height, that changed cells have to span
	jumpFits    = 0.45 // part of the change that a motion may leave unexplained
	jumpCurve   = 0.35 // part of the new picture's variance that a curve may leave unexplained
	jumpReach   = 12   // cells: the largest shift that is searched
	jumpOldBins = 32   // lightness steps by which a curve is looked for
)

// Jump tells when the whole picture has jumped, because the painter panned, zoomed or
// turned it, from one reading to the next. Painting is local, or changes each lightness in
// one way (a curve, a layer over all); a jump is neither, or is explained by a motion. It
// owns its buffers: not for concurrent use. Its zero value is ready.
type Jump struct {
	width, height int // of the picture
	across, down  int // cells
	before, now   []float64
}

// Moved reports whether the picture of r has jumped since the reading before. The first
// reading, and one of another size, have nothing to jump from.
func (j *Jump) Moved(r *Reading) bool {
	if r == nil || r.Width < 8 || r.Height < 8 {
		return false
	}
	fresh := j.resize(r.Width, r.Height)
	j.before, j.now = j.now, j.before
	j.reduce(r)
	if fresh {
		return false
	}
	changed, spread := j.changes()
	if changed <= jumpFew || !spread {
		return false
	}
	return j.shifted() || j.nudged() || changed >= jumpMany && !j.curved()
}

func (j *Jump) resize(width, height int) (fresh bool) {
	if width == j.width && height == j.height {
		return false
	}
	j.width, j.height = width, height
	j.across = min(jumpCells, width)
	j.down = min(max(height*j.across/width, 4), height)
	j.before, j.now = make([]float64, j.across*j.down), make([]float64, j.across*j.down)
	return true
}

// reduce averages at most 16 pixels of each cell, evenly chosen.
func (j *Jump) reduce(r *Reading) {
	for cy := range j.down {
		y0, y1 := cy*r.Height/j.down, (cy+1)*r.Height/j.down
		for cx := range j.across {
			x0, x1 := cx*r.Width/j.across, (cx+1)*r.Width/j.across
			sum, count := 0, 0
			for y := y0; y < y1; y += max((y1-y0)/4, 1) {
				for x := x0; x < x1; x += max((x1-x0)/4, 1) {
					sum += int(r.Grey[y*r.Width+x])
					count++
				}
			}
			j.now[cy*j.across+cx] = float64(sum) / float64(count)
		}
	}
}

// changes returns the share of changed cells, and whether they span the picture.
func (j *Jump) changes() (share float64, spread bool) {
	count, left, right, top, bottom := 0, j.across, 0, j.down, 0
	for i := range j.now {
		if math.Abs(j.now[i]-j.before[i]) <= jumpChange {
			continue
		}
		x, y := i%j.across, i/j.across
		count++
		left, right, top, bottom = min(left, x), max(right, x), min(top, y), max(bottom, y)
	}
	share = float64(count) / float64(len(j.now))
	spread = float64(right-left) >= jumpSpread*float64(j.across) && float64(bottom-top) >= jumpSpread*float64(j.down)
	return share, spread
}

// apart is the mean squared difference between the picture of now and the one before,
// shifted by whole cells, over the part that both show.
func (j *Jump) apart(dx, dy int) float64 {
	sum, count := 0.0, 0
	for y := max(dy, 0); y < j.down+min(dy, 0); y++ {
		now, before := j.now[y*j.across:], j.before[(y-dy)*j.across:]
		for x := max(dx, 0); x < j.across+min(dx, 0); x++ {
			d := now[x] - before[x-dx]
			sum += d * d
			count++
		}
	}
	return sum / float64(max(count, 1))
}

// shifted reports whether a shift by whole cells explains the change.
func (j *Jump) shifted() bool {
	limit := jumpFits * j.apart(0, 0)
	reach := min(jumpReach, j.down/3, j.across/3)
	for dy := -reach; dy <= reach; dy++ {
		for dx := -reach; dx <= reach; dx++ {
			if (dx != 0 || dy != 0) && j.apart(dx, dy) < limit {
				return true
			}
		}
	}
	return false
}

// nudged reports whether a motion by less than a cell or two explains the change: a shift,
// a zoom and a turn together, by the gradient of the mean of both pictures (Lucas and
// Kanade 1981, from memory).
func (j *Jump) nudged() bool {
	var m [4][5]float64
	total := 0.0
	for y := 1; y < j.down-1; y++ {
		for x := 1; x < j.across-1; x++ {
			row, d := j.motion(x, y)
			for a := range 4 {
				for b := range 4 {
					m[a][b] += row[a] * row[b]
				}
				m[a][4] += row[a] * d
			}
			total += d * d
		}
	}
	s, ok := solve4(m)
	if !ok {
		return false
	}
	left := 0.0
	for y := 1; y < j.down-1; y++ {
		for x := 1; x < j.across-1; x++ {
			row, d := j.motion(x, y)
			for a := range 4 {
				d -= row[a] * s[a]
			}
			left += d * d
		}
	}
	return left < jumpFits*total
}

// motion returns what a unit of shift across, shift down, zoom and turn would change in a
// cell, and what did change.
func (j *Jump) motion(x, y int) (row [4]float64, change float64) {
	i := y*j.across + x
	gx := (j.now[i+1] - j.now[i-1] + j.before[i+1] - j.before[i-1]) / 4
	gy := (j.now[i+j.across] - j.now[i-j.across] + j.before[i+j.across] - j.before[i-j.across]) / 4
	u, v := float64(x)-float64(j.across)/2, float64(y)-float64(j.down)/2
	return [4]float64{gx, gy, (gx*u + gy*v) / 32, (gy*u - gx*v) / 32}, j.now[i] - j.before[i]
}

// solve4 solves four linear equations by elimination with pivots.
func solve4(m [4][5]float64) (s [4]float64, ok bool) {
	for c := range 4 {
		pivot := c
		for r := c + 1; r < 4; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[pivot][c]) {
				pivot = r
			}
		}
		if math.Abs(m[pivot][c]) < 1e-9 {
			return s, false
		}
		m[c], m[pivot] = m[pivot], m[c]
		for r := range 4 {
			if r == c {
				continue
			}
			by := m[r][c] / m[c][c]
			for k := c; k < 5; k++ {
				m[r][k] -= by * m[c][k]
			}
		}
	}
	for c := range 4 {
		s[c] = m[c][4] / m[c][c]
	}
	return s, true
}

// curved reports whether the new lightness follows from the old one, as after a change of
// levels or a layer over the whole: how much of its variance lies between the classes of
// the old lightness (the correlation ratio).
func (j *Jump) curved() bool {
	var sum, square, count [jumpOldBins]float64
	var all, allSquare float64
	for i, v := range j.now {
		bin := min(int(j.before[i])*jumpOldBins/256, jumpOldBins-1)
		sum[bin] += v
		square[bin] += v * v
		count[bin]++
		all += v
		allSquare += v * v
	}
	n := float64(len(j.now))
	within := 0.0
	for b := range sum {
		if count[b] > 0 {
			within += square[b] - sum[b]*sum[b]/count[b]
		}
	}
	total := allSquare - all*all/n
	return within <= jumpCurve*total+n // a step squared a cell is noise
}
