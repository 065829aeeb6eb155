package edges

import (
	"cmp"
	"image"
	"math"
	"slices"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/pool"
)

// chain is marks that lie near each other, with the same two colours beside them.
type chain struct {
	light  [2]light // added up
	marks  float64
	x, y   float64 // half cells, added up
	length float64 // cells
}

// Marks of one edge lie so near each other in half cells, each way, and their sides so near in
// L*a*b*: what is beyond is another edge (our choice).
const (
	linkReach  = 5
	linkColour = 10.0
)

// link numbers the chains.
func (f *Finder) link() {
	for axis := range f.at {
		f.at[axis] = pool.Resized(f.at[axis], f.w*f.h)
		clear(f.at[axis])
	}
	for i := range f.marks {
		m := &f.marks[i]
		f.at[m.axis][int(m.y/2)*f.w+int(m.x/2)] = int32(i) + 1
	}
	chains := int32(0)
	for i := range f.marks {
		if f.marks[i].chain == 0 {
			chains++
			f.marks[i].chain = chains
			f.follow(int32(i))
		}
	}
	f.chains = pool.Resized(f.chains, int(chains))
	clear(f.chains)
}

// follow takes all that hangs together with a mark into its chain.
func (f *Finder) follow(first int32) {
	f.queue = append(f.queue[:0], first)
	for len(f.queue) > 0 {
		i := f.queue[len(f.queue)-1]
		f.queue = f.queue[:len(f.queue)-1]
		m := &f.marks[i]
		const reach = linkReach/2 + 1
		x, y := int(m.x/2), int(m.y/2)
		for v := max(0, y-reach); v <= min(y+reach, f.h-1); v++ {
			for u := max(0, x-reach); u <= min(x+reach, f.w-1); u++ {
				for axis := range f.at {
					if k := f.at[axis][v*f.w+u] - 1; k >= 0 && m.takes(&f.marks[k]) {
						f.queue = append(f.queue, k)
					}
				}
			}
		}
	}
}

// takes takes another mark into m's chain, if it belongs there and to none yet.
func (m *mark) takes(o *mark) bool {
	if o.chain != 0 || o.kind != m.kind || max(o.x-m.x, m.x-o.x, o.y-m.y, m.y-o.y) > linkReach {
		return false
	}
	same := max(distance(m.lab[0], o.lab[0]), distance(m.lab[1], o.lab[1]))
	turned := max(distance(m.lab[0], o.lab[1]), distance(m.lab[1], o.lab[0]))
	if min(same, turned) > linkColour*linkColour {
		return false
	}
	o.chain, o.turns = m.chain, m.turns != (turned < same)
	return true
}

// distance is the squared distance of two colours in L*a*b*.
func distance(p, q colour.Lab) float64 {
	l, a, b := p.L-q.L, p.A-q.A, p.B-q.B
	return l*l + a*a + b*b
}

// tile is how many half cells a piece of an edge takes at most that counts as straight.
const tile = 16

// measure adds up the chains and makes the edges of them.
func (f *Finder) measure() {
	slices.SortFunc(f.marks, func(p, q mark) int {
		return cmp.Or(cmp.Compare(p.chain, q.chain), cmp.Compare(p.y/tile, q.y/tile), cmp.Compare(p.x/tile, q.x/tile))
	})
	for from := 0; from < len(f.marks); {
		m := &f.marks[from]
		to := from + 1
		for to < len(f.marks) && f.marks[to].chain == m.chain && f.marks[to].x/tile == m.x/tile && f.marks[to].y/tile == m.y/tile {
			to++
		}
		f.chains[m.chain-1].add(f.marks[from:to])
		from = to
	}
	for from := 0; from < len(f.marks); {
		to := from + 1
		for to < len(f.marks) && f.marks[to].chain == f.marks[from].chain {
			to++
		}
		f.edgeOf(from, to)
		from = to
	}
	f.found.marks = f.marks
	slices.SortStableFunc(f.found.Edges, func(p, q Edge) int {
		return cmp.Or(cmp.Compare(p.Kind, q.Kind), cmp.Compare(q.Length, p.Length))
	})
}

// add adds a straight piece. It is as long as the lines that it crosses, on the axis that it
// crosses more steeply, by how much it slants.
func (c *chain) add(piece []mark) {
	var n, x, y, xx, yy, xy float64
	var seen [2]float64 // by axis
	for i := range piece {
		m := &piece[i]
		first := 0
		if m.turns {
			first = 1
		}
		for k := range 3 {
			c.light[0][k] += m.light[first][k]
			c.light[1][k] += m.light[1-first][k]
		}
		seen[m.axis]++
		u, v := float64(m.x), float64(m.y)
		n, x, y, xx, yy, xy = n+1, x+u, y+v, xx+u*u, yy+v*v, xy+u*v
	}
	c.marks, c.x, c.y = c.marks+n, c.x+x, c.y+y
	xx, yy, xy = xx-x*x/n, yy-y*y/n, xy-x*y/n
	lines, along := seen[0], yy
	if xx > yy {
		lines, along = seen[1], xx
	}
	if along > 0 {
		lines *= math.Hypot(1, xy/along)
	}
	c.length += lines
}

// edgeOf makes an edge of a chain's marks, if it is long enough.
func (f *Finder) edgeOf(from, to int) {
	c, o := &f.chains[f.marks[from].chain-1], &f.options
	if c.length < max(LeastCells, o.LeastLength*f.found.across) {
		return
	}
	e := Edge{Kind: f.marks[from].kind, Length: c.length / f.found.across, marks: [2]int{from, to}}
	for i := range c.light {
		for k := range c.light[i] {
			c.light[i][k] /= c.marks
		}
	}
	p, q := c.light[0], c.light[1]
	if a, b := p.lab(), q.lab(); a.L > b.L {
		p, q, e.first = q, p, 1
	}
	dark, light := p.lab(), q.lab()
	by := byColour
	if e.Kind == Lightness {
		by = byLightness
	}
	if _, is := o.kindOf(by, dark, light); !is {
		return
	}
	e.Dark, e.Light = p.code(), q.code()
	e.Tones, e.CIEDE2000 = colour.Value(light.L)-colour.Value(dark.L), colour.CIEDE2000(dark, light)
	f.placeOf(&e, c)
	f.found.Edges = append(f.found.Edges, e)
}

// placeOf says where an edge lies.
func (f *Finder) placeOf(e *Edge, c *chain) {
	x, y, nearest := c.x/c.marks, c.y/c.marks, math.Inf(1)
	e.from, e.to = image.Pt(2*f.w, 2*f.h), image.Point{}
	for i := e.marks[0]; i < e.marks[1]; i++ {
		m := &f.marks[i]
		if d := math.Hypot(float64(m.x)-x, float64(m.y)-y); d < nearest {
			e.middle, nearest = *m, d
		}
		e.from = image.Pt(min(e.from.X, int(m.x)-1), min(e.from.Y, int(m.y)-1))
		e.to = image.Pt(max(e.to.X, int(m.x)+1), max(e.to.Y, int(m.y)+1))
	}
}
