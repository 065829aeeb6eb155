package movement

import "math"

// How transforms are guessed from matches (our choice).
const (
	guessMost   = 96   // guesses at most
	guessFew    = 8    // at first
	guessKnown  = 5    // of these, none is guessed again
	guessBase   = 6.0  // cells between the two matches of a guess, at least
	guessZoom   = 2.3  // the largest zoom, in or out
	guessAlike  = 0.87 // cosine between a guess's turn and a corner's: 30 degrees
	guessLevels = 1.7  // a guess's zoom and that of a corner's levels differ by this factor at most
	guessNear   = 2.0  // cells from where a guess puts a corner, and this share of the corner's own cells more
	guessSame   = 5.0  // cells: guesses that differ less are one
)

// guess is a transform, in cells from the middles, and how many matches agree with it.
type guess struct {
	by      Transform
	support int
}

// guesses are the best few, that with most support first.
type guesses []guess

// from guesses from pairs of matches, each pair giving a similarity, and from single ones where
// a painter moved the canvas without turning or zooming it freely; every guess is measured by
// how many of all matches agree (random sample consensus: Fischler and Bolles 1981; but all
// pairs are tried, so that the outcome is the same every time).
func (g guesses) from(matches []match, halfX, halfY float64) {
	clear(g)
	for j := range matches {
		n := &matches[j]
		if t, ok := n.plain(); ok {
			g.offer(t, matches, halfX, halfY)
		}
		for i := range j {
			if m := &matches[i]; m.mirrored == n.mirrored && !g.know(m, n) {
				if t, ok := between(m, n); ok {
					g.offer(t, matches, halfX, halfY)
				}
			}
		}
	}
}

// know reports whether a guess there is already explains both matches.
func (g guesses) know(m, n *match) bool {
	for i := range guessKnown {
		if g[i].support == 0 {
			break
		}
		if m.agrees(&g[i].by) && n.agrees(&g[i].by) {
			return true
		}
	}
	return false
}

// offer takes a guess among the best.
func (g guesses) offer(t Transform, matches []match, halfX, halfY float64) {
	support := 0
	for i := range matches {
		if matches[i].agrees(&t) {
			support++
		}
	}
	if support <= g[len(g)-1].support {
		return
	}
	at := len(g) - 1
	for i := range g {
		if g[i].support > 0 && g[i].by.mirrored == t.mirrored && g[i].by.apart(t, halfX, halfY) < guessSame {
			if support <= g[i].support {
				return
			}
			at = i
			break
		}
	}
	for ; at > 0 && g[at-1].support < support; at-- {
		g[at] = g[at-1]
	}
	g[at] = guess{t, support}
}

// from and to are where a match was, mirrored if it is, and where it is.
func (m *match) from() (x, y float64) {
	if m.mirrored {
		return -float64(m.before.x), float64(m.before.y)
	}
	return float64(m.before.x), float64(m.before.y)
}

// turned returns cosine and sine of the angle by which a match has turned.
func (m *match) turned() (cos, sin float64) {
	bx, by, nx, ny := float64(m.before.dx), float64(m.before.dy), float64(m.now.dx), float64(m.now.dy)
	if m.mirrored {
		bx = -bx
	}
	return bx*nx + by*ny, bx*ny - by*nx
}

// zoomed reports whether a zoom is about that of a match's levels.
func (m *match) zoomed(zoom float64) bool {
	by := zoom / levelSide[m.now.level] * levelSide[m.before.level]
	return by < guessLevels && by > 1/guessLevels
}

// levelSide is the side of a level's cells, by the finest ones.
var levelSide = [cellLevels]float64{1, math.Sqrt2, 2, 2 * math.Sqrt2, 4, 4 * math.Sqrt2}

// between returns the similarity that brings two matches where they are; ok is false where it
// doesn't turn and zoom as they do.
func between(m, n *match) (t Transform, ok bool) {
	mx, my := m.from()
	nx, ny := n.from()
	bx, by := nx-mx, ny-my
	square := bx*bx + by*by
	if square < guessBase*guessBase {
		return t, false
	}
	ax, ay := float64(n.now.x-m.now.x), float64(n.now.y-m.now.y)
	a, b := (ax*bx+ay*by)/square, (ay*bx-ax*by)/square
	zoom := math.Sqrt(a*a + b*b)
	if !(zoom < guessZoom && zoom > 1/guessZoom) || !m.zoomed(zoom) || !n.zoomed(zoom) {
		return t, false
	}
	for _, k := range [2]*match{m, n} {
		cos, sin := k.turned()
		if cos*a+sin*b < guessAlike*zoom {
			return t, false
		}
	}
	t = Transform{a: a - 1, b: b, mirrored: m.mirrored}
	t.x, t.y = float64(m.now.x)-(a*mx-b*my), float64(m.now.y)-(b*mx+a*my)
	return t, true
}

// plain returns the transform of a single match that keeps the size and turns by quarters.
func (m *match) plain() (t Transform, ok bool) {
	if !m.zoomed(1) {
		return t, false
	}
	cos, sin := m.turned()
	a, b := math.Round(cos), math.Round(sin)
	if a*a+b*b != 1 || a*cos+b*sin < guessAlike {
		return t, false
	}
	t = Transform{a: a - 1, b: b, mirrored: m.mirrored}
	x, y := m.from()
	t.x, t.y = float64(m.now.x)-(a*x-b*y), float64(m.now.y)-(b*x+a*y)
	return t, true
}

// agrees reports whether a transform brings a match about where it is.
func (m *match) agrees(t *Transform) bool {
	if m.mirrored != t.mirrored {
		return false
	}
	bx, by := m.from()
	x := bx + t.a*bx - t.b*by + t.x - float64(m.now.x)
	y := by + t.b*bx + t.a*by + t.y - float64(m.now.y)
	near := guessNear * max(levelSide[m.before.level]*(1+t.a+max(t.b, -t.b)), levelSide[m.now.level], 1)
	return x < near && x > -near && y < near && y > -near
}
