package movement

import (
	"math"
)

// How a transform is bettered (our choice).
const (
	alignSteps  = 8    // at most
	alignEnough = 0.01 // cells: a change less than this is none
	alignPoints = 6000 // places at most at which pictures are compared
	alignSlope  = 2.0  // steps of lightness from cell to cell: less says nothing about a place
	alignBlunt  = 3.0  // standard deviations beyond which a place counts for nothing
	alignNoise  = 1.0  // steps of lightness that differ anyway
)

// spot is a place of one picture, in cells from the middle, and its lightness.
type spot struct{ x, y, v float32 }

// aligner betters transforms between two pictures.
type aligner struct {
	before, now *cells
	spots       []spot
	found       []int32  // cells on slopes
	left        [256]int // how many places differ by so many half steps
	halfX       float64  // of the pictures, in cells
	halfY       float64
}

// pairing is how two pictures are compared: the one that shows less detail, at a level, gives
// the places, the other is looked at at a level where it shows as much.
type pairing struct {
	at, in  *cellPlane
	slopes  *slopes // of at
	inverse bool    // places are of now, not of before
	halfX   float64
	halfY   float64
}

// pair says how pictures are compared under a transform, at a level of the one with less detail.
func (a *aligner) pair(t Transform, level int) pairing {
	p := pairing{halfX: a.halfX, halfY: a.halfY}
	zoom := t.Zoom()
	p.inverse = zoom <= 1
	at, in := a.before, a.now
	if p.inverse {
		zoom, at, in = 1/zoom, a.now, a.before
	}
	level = min(level, a.now.levels-1)
	finer := level + int(math.Round(2*math.Log2(zoom)))
	p.slopes = &at.slopes[level]
	p.at, p.in = &at.plane[level], &in.plane[min(finer, a.now.levels-1)]
	return p
}

// slopes are the places of a plane on slopes, no more than most. They are gathered once.
type slopes struct {
	most  int // 0: not gathered
	spots []spot
}

// gather takes the places on slopes, no more than enough.
func (a *aligner) gather(p pairing, most int) {
	if p.slopes.most == most {
		a.spots = p.slopes.spots
		return
	}
	c := p.at
	a.found = a.found[:0]
	for y := 1; y < c.down-1; y++ {
		rows := c.around(y)
		for x := 1; x < c.across-1; x++ {
			if sx, sy := rows.slope(x); sx*sx+sy*sy > alignSlope*alignSlope {
				a.found = append(a.found, int32(y*c.across+x))
			}
		}
	}
	every := max(1, (len(a.found)+most-1)/most)
	side, spots := float32(c.side), p.slopes.spots[:0]
	for n := every - 1; n < len(a.found); n += every {
		i := int(a.found[n])
		x, y := i%c.across, i/c.across
		spots = append(spots, spot{(float32(x)+0.5)*side - float32(p.halfX), (float32(y)+0.5)*side - float32(p.halfY), c.v[i]})
	}
	a.spots, p.slopes.most, p.slopes.spots = spots, most, spots
}

// aligned is a transform bettered.
type aligned struct {
	by     Transform
	blur   float64 // cells by which the outermost places that both show may be off: one standard deviation
	spread float64 // steps of lightness: standard deviation of what differs, but for outliers
	ok     bool
}

// align betters a transform at a level by least squares on the slopes (Lucas and Kanade 1981),
// places that differ too much counting for little or nothing. Of a plain one only the shift is
// bettered.
func (a *aligner) align(t Transform, level, steps int, plain bool) (out aligned) {
	p := a.pair(t, level)
	a.gather(p, alignPoints>>level)
	if len(a.spots) < alignLeast {
		return out
	}
	m := t
	if p.inverse {
		m = t.Inverse()
	}
	var last equations
	wide := 3.0 // at first, places count that differ more
	for range steps {
		e, spread := a.equations(p, m, wide, plain)
		d, ok := e.solve()
		if !ok {
			return out
		}
		m.a, m.b, m.x, m.y = m.a+d[0], m.b+d[1], m.x+d[2], m.y+d[3]
		if z := m.Zoom(); !(z < 2*guessZoom && z > 0.5/guessZoom) || !(math.Abs(m.x)+math.Abs(m.y) < 20*p.halfX) {
			return out
		}
		last, out.spread, wide = e, spread, 1
		if math.Abs(d[2])+math.Abs(d[3])+p.halfX*(math.Abs(d[0])+math.Abs(d[1])) < alignEnough*p.at.side {
			break
		}
	}
	out.by, out.ok, out.blur = m, true, last.blur(out.spread, p, m)
	if p.inverse {
		out.by = m.Inverse()
	}
	return out
}

const alignLeast = 30 // fewer places say nothing

// equations are those of the least squares, by a, b, x and y of a transform: a symmetric
// matrix and the right side.
type equations [4][5]float64

// look returns where the place s comes to lie in the plane that is looked at.
func (p *pairing) look(m *lookup, s *spot) (x, y float32) {
	u := s.x * m.flip
	return m.a*u - m.b*s.y + m.x, m.b*u + m.a*s.y + m.y
}

// lookup is a transform from places to cells of a plane.
type lookup struct{ a, b, x, y, flip float32 }

func (p *pairing) lookup(m Transform) lookup {
	side := p.in.side
	l := lookup{float32((1 + m.a) / side), float32(m.b / side), float32((m.x+p.halfX)/side - 0.5), float32((m.y+p.halfY)/side - 0.5), 1}
	if m.mirrored {
		l.flip = -1
	}
	return l
}

func (a *aligner) equations(p pairing, m Transform, wide float64, plain bool) (e equations, spread float64) {
	l := p.lookup(m)
	spread = a.spread(p, l)
	limit := float32(alignBlunt * spread * wide)
	scale, in := float32(1/p.in.side), p.in.sampled()
	var s [14]float64
	for first := 0; first < len(a.spots); first += 256 {
		var t [14]float32
		for i := range a.spots[first:min(first+256, len(a.spots))] {
			k := &a.spots[first+i]
			x, y := p.look(&l, k)
			if !in.has(x, y) {
				continue
			}
			ix, iy := int(x), int(y) // as in.at, which the compiler doesn't inline
			a, b, c, d := in.square(iy*in.across + ix)
			v, gx, gy := between4(a, b, c, d, x-float32(ix), y-float32(iy))
			r := k.v - v
			if r > limit || r < -limit {
				continue
			}
			w := 1 - r/limit*(r/limit)
			w *= w
			gx, gy = gx*scale, gy*scale
			wx, wy := w*gx, w*gy
			t[7], t[8], t[9] = t[7]+wx*gx, t[8]+wx*gy, t[9]+wy*gy
			t[12], t[13] = t[12]+wx*r, t[13]+wy*r
			if plain {
				continue
			}
			u := k.x * l.flip
			ga, gb := gx*u+gy*k.y, gy*u-gx*k.y
			wa, wb := w*ga, w*gb
			t[0], t[1], t[2], t[3] = t[0]+wa*ga, t[1]+wa*gb, t[2]+wa*gx, t[3]+wa*gy
			t[4], t[5], t[6] = t[4]+wb*gb, t[5]+wb*gx, t[6]+wb*gy
			t[10], t[11] = t[10]+wa*r, t[11]+wb*r
		}
		for i, v := range t {
			s[i] += float64(v)
		}
	}
	if plain {
		return equations{{certain}, {0, certain}, {0, 0, s[7], s[8], s[12]}, {0, 0, s[8], s[9], s[13]}}, spread
	}
	return equations{
		{s[0], s[1], s[2], s[3], s[10]}, {s[1], s[4], s[5], s[6], s[11]},
		{s[2], s[5], s[7], s[8], s[12]}, {s[3], s[6], s[8], s[9], s[13]},
	}, spread
}

// spread returns the standard deviation of what differs, from its median, so that a few places
// that differ much change nothing.
func (a *aligner) spread(p pairing, l lookup) float64 {
	a.left = [256]int{}
	count, in := 0, p.in.sampled()
	for i := 0; i < len(a.spots); i += 4 {
		if x, y := p.look(&l, &a.spots[i]); in.has(x, y) {
			v, _, _ := in.at(x, y)
			r := 2 * (v - a.spots[i].v)
			a.left[min(int(max(r, -r)), 255)]++
			count++
		}
	}
	below := 0
	for i, n := range a.left {
		if below += n; 2*below >= count {
			return max(alignNoise, 1.4826*float64(i+1)/2)
		}
	}
	return alignNoise
}

// solve solves the equations by elimination with pivots.
func (e equations) solve() (s [4]float64, ok bool) {
	for c := range e {
		pivot := c
		for r := c + 1; r < len(e); r++ {
			if math.Abs(e[r][c]) > math.Abs(e[pivot][c]) {
				pivot = r
			}
		}
		if !(math.Abs(e[pivot][c]) > 1e-3) {
			return s, false
		}
		e[c], e[pivot] = e[pivot], e[c]
		for r := range e {
			if r == c {
				continue
			}
			by := e[r][c] / e[c][c]
			for k := c; k < len(e[r]); k++ {
				e[r][k] -= by * e[c][k]
			}
		}
	}
	for c := range e {
		s[c] = e[c][4] / e[c][c]
	}
	return s, true
}
