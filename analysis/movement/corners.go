package movement

import (
	"math"
	"math/bits"

	"app.tonedesk/analysis/internal/pool"
)

// How corners are found and described (our choice).
const (
	cornerLevels = 4   // of the finest levels: a picture zoomed to the double has what it had there two levels coarser
	cornerLeast  = 2.0 // squared steps of lightness to a cell: the smaller eigenvalue, at least
	cornerBucket = 14  // cells: the side of a square that has a few corners at most
	cornerShare  = 2   // so many of each square
	cornerFrame  = 3   // cells from a plane's rim in which none is looked for
	patchSide    = 8   // samples along each side of a patch
	patchStep    = 2.0 // cells from sample to sample
	patchTone    = 0.7 // standard deviations from the mean at which a patch's tones are parted
)

// corner is a place that can be known again: what lies around it, turned as the picture
// slopes there, in four tones.
type corner struct {
	x, y     float32 // cells of the finest level from the picture's middle
	dx, dy   float32 // which way lightness rises, of length 1
	level    int
	tones    [3]uint64 // which samples are above each of three tones, a byte a row
	mirrored [3]uint64 // the same of the picture mirrored
}

// cornerFinder is the memory for finding them.
type cornerFinder struct {
	xx, xy, yy []float32 // of three rows: products of slopes, smoothed across
	strength   []float32 // of three rows
	best       []strong  // of each bucket
}

// strong is how strong a corner is, and at which cell.
type strong struct {
	value float32
	x, y  int
}

// find looks for the corners of a picture: where its slopes go more than one way (the smaller
// eigenvalue of their structure, Shi and Tomasi 1994), spread over the picture, at several
// sizes.
func (f *cornerFinder) find(p *cells) {
	if p.found {
		return
	}
	p.found, p.corners = true, p.corners[:0]
	for level := range min(cornerLevels, p.levels) {
		c := &p.plane[level]
		f.strongest(c)
		for _, s := range f.best {
			if s.value > cornerLeast {
				p.describe(level, s)
			}
		}
	}
}

// strongest sets best to the strongest corners of each bucket of a plane.
func (f *cornerFinder) strongest(c *cellPlane) {
	across, down := (c.across+cornerBucket-1)/cornerBucket, (c.down+cornerBucket-1)/cornerBucket
	f.best = pool.Resized(f.best, cornerShare*across*down)
	clear(f.best)
	n := c.across
	f.xx, f.xy, f.yy = pool.Resized(f.xx, 3*n), pool.Resized(f.xy, 3*n), pool.Resized(f.yy, 3*n)
	f.strength = pool.Resized(f.strength, 3*n)
	clear(f.strength)
	for y := 1; y < c.down-1; y++ {
		f.products(c, y)
		if y < 3 {
			continue
		}
		f.eigenvalues(n, y-1) // of the row above, whose neighbours are known now
		if y-2 > cornerFrame && y-2 < c.down-1-cornerFrame {
			f.keep(n, y-2, across)
		}
	}
}

// products sets a row of the products of slopes, smoothed across.
func (f *cornerFinder) products(c *cellPlane, y int) {
	n, at := c.across, y%3*c.across
	xx, xy, yy := f.xx[at:][:n], f.xy[at:][:n], f.yy[at:][:n]
	above, here, below := c.row(y - 1)[:n], c.row(y)[:n], c.row(y + 1)[:n]
	var axx, axy, ayy, bxx, bxy, byy float32 // of the two cells before
	for x := 1; x < n-1; x++ {
		gx, gy := here[x+1]-here[x-1], below[x]-above[x]
		nxx, nxy, nyy := gx*gx, gx*gy, gy*gy
		xx[x-1], xy[x-1], yy[x-1] = axx+2*bxx+nxx, axy+2*bxy+nxy, ayy+2*byy+nyy
		axx, axy, ayy, bxx, bxy, byy = bxx, bxy, byy, nxx, nxy, nyy
	}
}

// eigenvalues sets a row of the smaller eigenvalues.
func (f *cornerFinder) eigenvalues(n, y int) {
	dst := f.strength[y%3*n:][:n]
	i, j, k := (y+2)%3*n, y%3*n, (y+1)%3*n
	xa, xb, xc := f.xx[i:][:n], f.xx[j:][:n], f.xx[k:][:n]
	ma, mb, mc := f.xy[i:][:n], f.xy[j:][:n], f.xy[k:][:n]
	ya, yb, yc := f.yy[i:][:n], f.yy[j:][:n], f.yy[k:][:n]
	const scale = 1.0 / 64 // 16 of the smoothing, 4 of the slopes
	for x := 2; x < n-2; x++ {
		xx, yy := (xa[x]+2*xb[x]+xc[x])*scale, (ya[x]+2*yb[x]+yc[x])*scale
		if min(xx, yy) <= cornerLeast {
			dst[x] = 0
			continue
		}
		xy := (ma[x] + 2*mb[x] + mc[x]) * scale
		d := xx - yy
		dst[x] = (xx + yy - float32(math.Sqrt(float64(d*d+4*xy*xy)))) / 2
	}
}

// keep puts the corners of a row, stronger than all around, among the best of their buckets.
func (f *cornerFinder) keep(n, y, across int) {
	above, here, below := f.strength[(y+2)%3*n:][:n], f.strength[y%3*n:][:n], f.strength[(y+1)%3*n:][:n]
	for x := cornerFrame + 1; x < n-1-cornerFrame; x++ {
		v := here[x]
		if v <= cornerLeast || v < here[x-1] || v <= here[x+1] || v < above[x] || v <= below[x] ||
			v < above[x-1] || v < above[x+1] || v <= below[x-1] || v <= below[x+1] {
			continue
		}
		best := f.best[cornerShare*(y/cornerBucket*across+x/cornerBucket):][:cornerShare]
		s := strong{v, x, y}
		for i := range best {
			if s.value > best[i].value {
				s, best[i] = best[i], s
			}
		}
	}
}

// describe adds a corner with the patch around it, normalised and turned as the picture slopes
// there (multi-scale oriented patches: Brown, Szeliski and Winder 2005).
func (p *cells) describe(level int, s strong) {
	c, coarse := &p.plane[level], &p.plane[min(level+2, p.levels-1)]
	ratio := float32(c.side / coarse.side)
	x, y := float32(s.x), float32(s.y)
	gx, gy := broadSlope(coarse, (x+0.5)*ratio-0.5, (y+0.5)*ratio-0.5)
	length := float32(math.Hypot(float64(gx), float64(gy)))
	if !(length > 0) {
		return
	}
	side := float32(c.side)
	k := corner{
		x: (x+0.5)*side - float32(p.read.across)/2, y: (y+0.5)*side - float32(p.read.down)/2,
		dx: gx / length, dy: gy / length, level: level,
	}
	var patch [patchSide * patchSide]float32
	fine := coarse
	stepX, stepY := k.dx*patchStep*ratio, k.dy*patchStep*ratio
	sum, square := float32(0), float32(0)
	x, y = (x+0.5)*ratio-0.5, (y+0.5)*ratio-0.5
	for v := range patchSide {
		fv := float32(v) - (patchSide-1)/2.0
		for u := range patchSide {
			fu := float32(u) - (patchSide-1)/2.0
			value := fine.near(x+fu*stepX-fv*stepY, y+fu*stepY+fv*stepX)
			patch[v*patchSide+u] = value
			sum, square = sum+value, square+value*value
		}
	}
	const n = patchSide * patchSide
	mean := sum / n
	deviation := float32(math.Sqrt(float64(max(square/n-mean*mean, 0)))) * patchTone
	for i, value := range patch {
		bit := uint64(1) << i
		if value > mean-deviation {
			k.tones[0] |= bit
		}
		if value > mean {
			k.tones[1] |= bit
		}
		if value > mean+deviation {
			k.tones[2] |= bit
		}
	}
	for i, t := range k.tones {
		k.mirrored[i] = bits.ReverseBytes64(t)
	}
	p.corners = append(p.corners, k)
}

// near returns lightness between cells, outside that of the nearest one.
func (c *cellPlane) near(x, y float32) float32 {
	x, y = max(0, min(x, float32(c.across)-1.001)), max(0, min(y, float32(c.down)-1.001))
	ix, iy := int(x), int(y)
	fx, fy := x-float32(ix), y-float32(iy)
	i := iy*c.across + ix
	upper, lower := c.v[i:i+2:i+2], c.v[i+c.across:i+c.across+2:i+c.across+2]
	top, foot := upper[0]+fx*(upper[1]-upper[0]), lower[0]+fx*(lower[1]-lower[0])
	return top + fy*(foot-top)
}

// broadSlope returns which way lightness rises around a place.
func broadSlope(c *cellPlane, x, y float32) (dx, dy float32) {
	for v := float32(-2); v <= 2; v++ {
		for u := float32(-2); u <= 2; u++ {
			if u*u+v*v > 5 || u == 0 && v == 0 {
				continue
			}
			value := c.near(x+u, y+v)
			dx, dy = dx+u*value, dy+v*value
		}
	}
	return dx, dy
}
