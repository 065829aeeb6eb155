package movement

import (
	"math"
	"math/bits"
)

// How transforms are guessed from matches (our choice).
const (
	guessMost   = 96   // guesses at most
	guessFew    = 8    // at first
	guessKnown  = 5    // of these, none is guessed again
	guessBase   = 6.0  // cells between the two matches of a guess, at least
	guessZoom   = 2.3  // the largest zoom, in or out
	guessAlike  = 0.87 // cosine between a guess's turn and a corner's: 30 degrees
	guessTwo    = 0.5  // the same between two corners' turns, of which no guess is within that of both: more than twice as much
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

// guesser is the memory for guessing: the matches of either hand, in order.
type guesser struct {
	hands [2][]pointed // not mirrored, mirrored
	known [guessKnown]agreed
}

// pointed is what guessing asks of a match, again and again.
type pointed struct {
	fromX, fromY float64 // where it was, mirrored if it is
	x, y         float64 // where it is
	cos, sin     float64 // of the angle by which it has turned
	low, high    float64 // squares of the zooms that its levels allow
	was, is      float64 // sides of its levels' cells
}

// agreed are the matches of its hand that a guess explains, a bit each.
type agreed [(matchMost + 63) / 64]uint64

func (a *agreed) has(i int) bool { return a[i/64]>>(i%64)&1 != 0 }

// from guesses from pairs of matches, each pair giving a similarity, and from single ones where
// a painter moved the canvas without turning or zooming it freely; every guess is measured by
// how many of all matches agree (random sample consensus: Fischler and Bolles 1981; but all
// pairs are tried, so that the outcome is the same every time).
func (w *guesser) from(g guesses, matches []match, halfX, halfY float64) {
	clear(g)
	for hand := range w.hands {
		w.hands[hand] = w.hands[hand][:0]
		for i := range matches {
			if m := &matches[i]; m.mirrored == (hand == 1) {
				w.hands[hand] = append(w.hands[hand], m.pointed())
			}
		}
	}
	var at [2]int // in either hand
	for j := range matches {
		hand, mirrored := 0, matches[j].mirrored
		if mirrored {
			hand = 1
		}
		all := w.hands[hand]
		n := &all[at[hand]]
		if t, ok := matches[j].plain(); ok {
			w.offer(g, t, halfX, halfY)
		}
		known := w.with(g, at[hand], mirrored)
		for i := range all[:at[hand]] {
			if known.has(i) {
				continue
			}
			if t, ok := between(&all[i], n); ok {
				t.mirrored = mirrored
				if w.offer(g, t, halfX, halfY) {
					known = w.with(g, at[hand], mirrored)
				}
			}
		}
		at[hand]++
	}
}

// with returns the matches that one of the best guesses explains together with match i of a hand.
func (w *guesser) with(g guesses, i int, mirrored bool) (a agreed) {
	for k := range w.known {
		if g[k].support == 0 {
			break
		}
		if g[k].by.mirrored == mirrored && w.known[k].has(i) {
			for at, word := range w.known[k] {
				a[at] |= word
			}
		}
	}
	return a
}

// offer takes a guess among the best, and says whether it is one.
func (w *guesser) offer(g guesses, t Transform, halfX, halfY float64) bool {
	agree, support := w.agreeing(&t, g[len(g)-1].support)
	if support <= g[len(g)-1].support {
		return false
	}
	at := len(g) - 1
	for i := range g {
		if g[i].support == 0 {
			break
		}
		if g[i].by.mirrored == t.mirrored && g[i].by.apart(t, halfX, halfY) < guessSame {
			if support <= g[i].support {
				return false
			}
			at = i
			break
		}
	}
	for ; at > 0 && g[at-1].support < support; at-- {
		g[at] = g[at-1]
		if at < guessKnown {
			w.known[at] = w.known[at-1]
		}
	}
	g[at] = guess{t, support}
	if at < guessKnown {
		w.known[at] = agree
	}
	return true
}

// agreeing returns which matches of its hand a transform explains, and how many; it stops where they
// can't be more than least any more.
func (w *guesser) agreeing(t *Transform, least int) (agree agreed, support int) {
	all := w.hands[0]
	if t.mirrored {
		all = w.hands[1]
	}
	grown := 1 + t.a + max(t.b, -t.b)
	for first := 0; first < len(all); first += 64 {
		if support+len(all)-first <= least {
			break
		}
		word := uint64(0)
		for i := range all[first:min(first+64, len(all))] {
			if m := &all[first+i]; agrees(t, m.fromX, m.fromY, m.x, m.y, guessNear*max(m.was*grown, m.is, 1)) {
				word |= 1 << i
			}
		}
		agree[first/64] = word
		support += bits.OnesCount64(word)
	}
	return agree, support
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

// pointed returns what guessing asks of a match.
func (m *match) pointed() pointed {
	p := pointed{x: float64(m.now.x), y: float64(m.now.y), was: levelSide[m.before.level], is: levelSide[m.now.level]}
	p.fromX, p.fromY = m.from()
	p.cos, p.sin = m.turned()
	levels := p.is / p.was
	p.low, p.high = max(levels/guessLevels, 1/guessZoom), min(levels*guessLevels, guessZoom)
	p.low, p.high = p.low*p.low, p.high*p.high
	return p
}

// between returns the similarity that brings two matches of one hand where they are; ok is false where
// it doesn't turn and zoom as they do.
func between(m, n *pointed) (t Transform, ok bool) {
	if m.cos*n.cos+m.sin*n.sin < guessTwo { // most pairs
		return t, false
	}
	bx, by := n.fromX-m.fromX, n.fromY-m.fromY
	square := bx*bx + by*by
	ax, ay := n.x-m.x, n.y-m.y
	moved := ax*ax + ay*ay // the square of the zoom times square
	if square < guessBase*guessBase || !(moved > max(m.low, n.low)*square && moved < min(m.high, n.high)*square) {
		return t, false
	}
	a, b := (ax*bx+ay*by)/square, (ay*bx-ax*by)/square
	turned := guessAlike * math.Sqrt(a*a+b*b)
	if m.cos*a+m.sin*b < turned || n.cos*a+n.sin*b < turned {
		return t, false
	}
	t.a, t.b = a-1, b
	t.x, t.y = m.x-(a*m.fromX-b*m.fromY), m.y-(b*m.fromX+a*m.fromY)
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
	near := guessNear * max(levelSide[m.before.level]*(1+t.a+max(t.b, -t.b)), levelSide[m.now.level], 1)
	return agrees(t, bx, by, float64(m.now.x), float64(m.now.y), near)
}

// agrees reports whether a transform brings a place, mirrored if it mirrors, near another.
func agrees(t *Transform, fromX, fromY, x, y, near float64) bool {
	dx := fromX + t.a*fromX - t.b*fromY + t.x - x
	dy := fromY + t.b*fromX + t.a*fromY + t.y - y
	return dx < near && dx > -near && dy < near && dy > -near
}
