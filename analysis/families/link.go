package families

import (
	"math"
	"slices"
)

// link is two colours that touch and may be one local colour in more light and in less.
type link struct {
	light, shadow int32 // pooled colours
	figures       [linkFigures]float64
	logit         float64 // of being one local colour
	length, lined int     // pairs of cells
	sharp         float64 // part of the step that lies in the edge, 0 to 1
}

const (
	leastStep   = 2.5  // L* from a light to its shadow, at least (our choice: a quarter of a tone)
	usualStep   = 12.0 // L* that a step is measured in (our choice; the weights are fitted to it)
	usualTurn   = 45.0 // degrees that a turn of hue is measured in (our choice, likewise)
	surelyHued  = 15.0 // C*ab of both from which a hue counts in full (our choice)
	chromaDoubt = 6.0  // C*ab added before a ratio is taken: little chroma says little
	stepDoubt   = 6.0  // L* added to a step before a* and b* are divided by it: small steps say little
)

// enclosedFrom is the part of an outline along another colour from which on a colour counts as
// enclosed by it: a mark with sharp edges on a thing, rather than a side of it (our choice; the
// weight is fitted to it).
const enclosedFrom = 0.7

// inLess returns by how much a* and b* of a colour shrink where less light falls on it: about
// as L*.
func inLess(light, shadow float64) float64 { return (shadow + 4) / (light + 4) }

// links lists the colours that touch, with their figures.
func (f *Finder) links(pools []pooled, borders []border, figure int) (list []link) {
	for i := range borders {
		b := &borders[i]
		light, shadow := b.a, b.b
		if pools[light].mean().L < pools[shadow].mean().L {
			light, shadow = shadow, light
		}
		p, q := &pools[light], &pools[shadow]
		if p.mean().L-q.mean().L < leastStep || p.ground && q.ground || p.stair && q.stair {
			continue
		}
		list = append(list, link{light: light, shadow: shadow, length: b.length, lined: b.lined, sharp: b.sharp / float64(b.length), figures: f.measureLink(p, q, b, light, shadow, figure)})
	}
	return list
}

// touchingCells returns how many cells the areas of two colours have that touch without a
// line in between.
func (f *Finder) touchingCells(p *pooled, b *border) (cells [2]int) {
	a := &f.areas
	seen := map[int32]bool{}
	for _, k := range b.edges {
		e := &a.edges[k]
		if e.isLined() {
			continue
		}
		for _, i := range [2]int32{e.a, e.b} {
			if seen[i] {
				continue
			}
			seen[i] = true
			if slices.Contains(p.areas, i) {
				cells[0] += a.list[i].all
			} else {
				cells[1] += a.list[i].all
			}
		}
	}
	return cells
}

// commonNeighbours returns which part of a colour's outline, without that to other, lies on
// colours that other touches too: light and shadow of a form have the same around them.
func commonNeighbours(of, other *pooled, k int32) float64 {
	const doubt = 1 // pairs of cells: little outline says little
	shared, all := doubt, 2*doubt
	for to, n := range of.beside {
		if to == k {
			continue
		}
		all += n
		shared += min(n, 4*other.beside[to])
	}
	return float64(shared) / float64(all)
}

// measureLink measures two colours, the lighter first, that touch along a border.
func (f *Finder) measureLink(p, q *pooled, b *border, light, shadow int32, figure int) [linkFigures]float64 {
	P, Q := p.mean(), q.mean()
	step := P.L - Q.L
	depth := math.Log(step / usualStep)
	turn := math.Abs(TurnBetween(P.Oklab().Hue(), Q.Oklab().Hue())) / usualTurn
	hued := min(1, min(P.Chroma(), Q.Chroma())/surelyHued)
	less := inLess(P.L, Q.L)
	off := math.Hypot(Q.A-less*P.A, Q.B-less*P.B) / (step + stepDoubt)
	gain := math.Log((Q.Chroma() + chromaDoubt) / (less*P.Chroma() + chromaDoubt))
	cells := f.touchingCells(p, b)
	lined := part(b.lined, b.length)
	outer := part(p.lined+q.lined-2*b.lined, p.outline+q.outline-2*b.length)
	smaller := min(cells[0], cells[1])
	if smaller == 0 { // a line all along
		smaller = min(p.all, q.all)
	}
	return [linkFigures]float64{
		1,
		depth * depth, hinge(step, 40) / 10,
		hued * turn, hued * hinge(turn, 0.8), off, math.Abs(gain),
		part(b.length, q.outline),
		lined, outer * (1 - lined),
		b.sharp / float64(b.length),
		math.Log(part(smaller, figure)),
		part(cells[0], p.all), part(cells[1], q.all),
		commonNeighbours(p, q, shadow), commonNeighbours(q, p, light),
		p.around, q.around,
		hinge(14, Q.L) / 14,
		hinge(max(part(b.length, p.outline), part(b.length, q.outline)), enclosedFrom) / (1 - enclosedFrom) * b.sharp / float64(b.length),
	}
}

// jaggedness is the square of an outline over the area, 1 for a square and for a disc.
func jaggedness(outline, area int) float64 {
	return float64(outline*outline+1) / 16 / float64(max(area, 1))
}
