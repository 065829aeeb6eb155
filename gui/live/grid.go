package live

import (
	"image"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/setup"
)

// gridAcross is about how many points of a map of families are looked at in a row: enough for
// the smallest side that is found to have a few (our choice).
const gridAcross = 128

// grid is a map of families, thinned out, with the points of each side.
type grid struct {
	found        Found
	step         int // cells from point to point
	across, down int // points
	part         []uint8
	sides        [][2][]image.Point // of each family, light and shadow
}

// gridOf thins out the map of what was found.
func gridOf(f Found) *grid {
	g := &grid{found: f, step: max(1, f.Width/gridAcross), sides: make([][2][]image.Point, len(f.List))}
	g.across, g.down = (f.Width+g.step-1)/g.step, (f.Height+g.step-1)/g.step
	g.part = make([]uint8, g.across*g.down)
	for y := range g.down {
		for x := range g.across {
			part := f.Map[y*g.step*f.Width+x*g.step]
			g.part[y*g.across+x] = part
			if k, side, ok := sideOf(part); ok && k < len(f.List) {
				g.sides[k][side] = append(g.sides[k][side], image.Pt(x, y))
			}
		}
	}
	return g
}

// sideOf says which family a part of a map belongs to and to which side, 0 the light one; ok
// is false where it belongs to none.
func sideOf(part uint8) (family, side int, ok bool) {
	family, side = (int(part)-1)/4, (int(part)-1)%4
	return family, side, part > 0 && side < 2
}

// at is the part at a point, 0 beyond the picture.
func (g *grid) at(p image.Point) uint8 {
	if p.X < 0 || p.Y < 0 || p.X >= g.across || p.Y >= g.down {
		return 0
	}
	return g.part[p.Y*g.across+p.X]
}

// pixels returns a way on the grid in pixels of the picture.
func (g *grid) pixels(p image.Point) image.Point {
	return image.Pt(p.X*g.step*g.found.Size.X/max(g.found.Width, 1), p.Y*g.step*g.found.Size.Y/max(g.found.Height, 1))
}

// point returns the point of the grid that lies nearest to a pixel of the source.
func (g *grid) point(p image.Point) image.Point {
	p = p.Sub(g.found.Origin)
	return image.Pt(p.X*g.found.Width/max(g.found.Size.X, 1)/g.step, p.Y*g.found.Height/max(g.found.Size.Y, 1)/g.step)
}

// places returns for each family which share of the place of a track it has, light on light
// and shadow on shadow: of what can still be seen of it, or of the family where that is less.
func (g *grid) places(r *Track, families int) []float64 {
	has, seen := make([]float64, families), 0
	for side, points := range r.pointsIn(g) {
		for _, p := range points {
			p = p.Add(r.moved)
			if p.X < 0 || p.Y < 0 || p.X >= g.across || p.Y >= g.down {
				continue
			}
			seen++
			if k, s, ok := sideOf(g.at(p)); ok && s == side && k < families {
				has[k]++
			}
		}
	}
	for k := range has {
		if least := min(seen, len(g.sides[k][0])+len(g.sides[k][1])); least > 0 {
			has[k] = min(has[k]/float64(least), 1)
		}
	}
	return has
}

// pointsIn are the points of a track's sides; of one that was never found those of its places.
func (r *Track) pointsIn(g *grid) [2][]image.Point {
	if len(r.sides[0])+len(r.sides[1]) > 0 {
		return r.sides
	}
	return [2][]image.Point{{g.point(r.Light).Sub(r.moved)}, {g.point(r.Shadow).Sub(r.moved)}}
}

// inPlaceOf reports whether a family lies for the most part where a track's sides were.
func (g *grid) inPlaceOf(r *Track, family int) bool {
	there := map[image.Point]bool{}
	for _, points := range r.sides {
		for _, p := range points {
			there[p.Add(r.moved)] = true
		}
	}
	all, in := 0, 0
	for _, points := range g.sides[family] {
		all += len(points)
		for _, p := range points {
			if there[p] {
				in++
			}
		}
	}
	return 2*in > all
}

// panBetter is the share of all points by which a shift has to fit better than none (our
// choice).
const panBetter = 0.02

// panned returns by how much the picture has panned, in steps of the grid: the shift with
// which most of what was followed, and least beside it, lies on families of nearly its colours. Shifts are tried
// that bring an edge of one onto its edge of now, so that what is cut off at the frame does
// not mislead.
func (g *grid) panned(tracks []Track, list []families.Family) (best image.Point) {
	type twin struct{ track, family int }
	var twins []twin
	for i := range tracks {
		r := &tracks[i]
		least, at := setup.SameColour, -1
		for k := range list {
			if d := setup.Apart(r.Family.Light.Lab, r.Family.Shadow.Lab, list[k].Light.Lab, list[k].Shadow.Lab); r.Index >= 0 && d <= least {
				least, at = d, k
			}
		}
		if at >= 0 {
			twins = append(twins, twin{i, at})
		}
	}
	inside := image.Rect(0, 0, g.across, g.down)
	fits := func(by image.Point) (n int) {
		for _, w := range twins {
			for side, points := range tracks[w.track].sides {
				want := uint8(4*w.family + 1 + side)
				for _, p := range points {
					switch p = p.Add(by); {
					case g.at(p) == want:
						n += 2
					case p.In(inside):
						n--
					}
				}
				for _, p := range g.sides[w.family][side] {
					if p.Sub(by).In(inside) { // and so had to be there
						n--
					}
				}
			}
		}
		return n
	}
	all := 0
	for _, w := range twins {
		all += len(tracks[w.track].sides[0]) + len(tracks[w.track].sides[1])
	}
	most := fits(image.Point{}) + int(panBetter*float64(all))
	tried := map[image.Point]bool{{}: true}
	try := func(by image.Point) {
		if tried[by] {
			return
		}
		tried[by] = true
		if n := fits(by); n > most {
			best, most = by, n
		}
	}
	for _, w := range twins {
		for side, points := range tracks[w.track].sides {
			from, to := boundsOf(points), boundsOf(g.sides[w.family][side])
			if from.Empty() || to.Empty() {
				continue
			}
			for _, dx := range [2]int{to.Min.X - from.Min.X, to.Max.X - from.Max.X} {
				for _, dy := range [2]int{to.Min.Y - from.Min.Y, to.Max.Y - from.Max.Y} {
					try(image.Pt(dx, dy))
				}
			}
		}
	}
	for dy := -1; dy <= 1 && best != (image.Point{}); dy++ { // closer
		for dx := -1; dx <= 1; dx++ {
			try(best.Add(image.Pt(dx, dy)))
		}
	}
	return best
}

// boundsOf is the rectangle around points.
func boundsOf(points []image.Point) (r image.Rectangle) {
	for _, p := range points {
		r = r.Union(image.Rectangle{p, p.Add(image.Pt(1, 1))})
	}
	return r
}
