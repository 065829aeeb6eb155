package families

import (
	"math"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// linePart is the part of a side's outline from which on a line counts as there: it may
// vanish in the light, sink into a dark ground, or lie behind another form.
const linePart = 0.35

// line reads the line around family k, nil if there is none, and marks its cells.
func (m *familyMeter) line(k int, family *Family) *Line {
	seen := m.outlineOf(k)
	if seen == nil {
		return nil
	}
	spot := spotOfSum(seen.line, seen.lined)
	spot.PointAtHue()
	dark := int32(cellLab*min(family.Light.Lightness, family.Shadow.Lightness)) - lineDarker
	for _, side := range [2]uint8{mapRole(k, lightSide), mapRole(k, shadowSide)} {
		for _, i := range m.cells[side] {
			if m.marks[i] == side && m.planes.thin[i]&thinCell != 0 && m.planes.raw[0][i] < dark {
				m.marks[i] = mapRole(k, lineRole)
			}
		}
	}
	return family.lineOf(spot, m.rules)
}

// outlineOf adds up the edges of family k that have a line: those of both sides or of one,
// on whichever the line is clearest, and those with the ground alone where there are enough,
// since where forms touch a line may be the other's. On a
// dark ground, which hides how dark a line is, its colour tells it. It returns nil if there
// is no line.
func (m *familyMeter) outlineOf(k int) *familyEdge {
	var all, ground [2]familyEdge // by side; only lengths and lines are added up
	for i := range m.areas.edges {
		e := &m.areas.edges[i]
		in, out := e.a, e.b
		if !ofFamily(m.role[in], k) {
			in, out = out, in
		}
		if !ofFamily(m.role[in], k) || ofFamily(m.role[out], k) {
			continue
		}
		side := (m.role[in] - mapRole(k, lightSide)) & 1
		all[side].addLine(e)
		if m.areas.list[out].ground {
			ground[side].addLine(e)
		}
	}
	for _, parts := range [2][2]familyEdge{ground, all} {
		both := parts[0]
		both.addLine(&parts[1])
		for _, e := range [2]*familyEdge{&both, &parts[0]} {
			if e.lined > 0 && float64(e.lined) >= linePart*float64(e.length) && 3*both.lined >= all[0].lined+all[1].lined {
				return e
			}
		}
	}
	return m.rimOf(k)
}

// A rim is a line on a ground that is no lighter. It is of a colour that no mixture of the
// two sides of an edge has, and, so that a blurred edge is none, its lightness keeps clear of
// theirs (found on drawn scenes; no source).
const (
	rimPart   = 0.5 // of the outline on the ground, from which on a rim counts as there
	rimBeside = 9.0 // L*a*b* from the nearest mixture; grain adds to it
	rimClear  = 0.2 // of the way between the sides' lightness
)

// rimOf adds up the rim between family k and the ground, nil if there is none.
func (m *familyMeter) rimOf(k int) *familyEdge {
	var sum familyEdge
	w, h := m.source.across, m.source.down
	look := func(i int32, step, room int, inside bool) {
		out := i + int32(step)
		l := int32(noArea)
		if inside {
			l = m.areas.label[out]
		}
		if l == noArea || !m.areas.list[l].ground {
			return
		}
		sum.length++
		if light, ok := m.rimAcross(int(i), step, room); ok {
			sum.addInk(light)
		}
	}
	for _, side := range [2]uint8{mapRole(k, lightSide), mapRole(k, shadowSide)} {
		for _, i := range m.cells[side] {
			x, y := int(i)%w, int(i)/w
			look(i, 1, min(x, w-2-x), x+1 < w)
			look(i, -1, min(x-1, w-1-x), x > 0)
			look(i, w, min(y, h-2-y), y+1 < h)
			look(i, -w, min(y-1, h-1-y), y > 0)
		}
	}
	if sum.lined == 0 || float64(sum.lined) < rimPart*float64(sum.length) {
		return nil
	}
	return &sum
}

// rimAcross returns the light of the rim between cell i and the one step further, if there
// is one; room is how many cells lie behind each, at least. Of a rim that is narrower than a
// cell, the cell's darkest pixel may show more.
func (f *Finder) rimAcross(i, step, room int) (light [3]int64, ok bool) {
	room = min(room, farReach)
	_, far1, _ := f.reachInto(i, -step, room)
	_, far2, _ := f.reachInto(i+step, step, room)
	mix := f.mixtureOf(far1, far2)
	best, cell := rimBeside+3*f.planes.noise, -1
	for k := 1 - nearReach; k <= nearReach; k++ {
		if at := i + k*step; k == 0 || k == 1 || room >= nearReach {
			if d := mix.beside(f.lightAt(at), best); d > best {
				best, cell = d, at
			}
		}
	}
	if cell < 0 {
		return light, false
	}
	if light = f.darkestAt(cell); mix.beside(light, 0) < best {
		light = f.lightAt(cell)
	}
	return light, true
}

// lightAt returns a cell's light, LinearWhite being white.
func (f *Finder) lightAt(i int) [3]int64 {
	c := f.source.linear[3*i:][:3]
	return [3]int64{int64(c[0]), int64(c[1]), int64(c[2])}
}

// mixture is all light between two colours, the lighter first.
type mixture struct{ light, dark [3]float64 }

func (f *Finder) mixtureOf(p, q int) mixture {
	a, b := ofWhite(f.lightAt(p)), ofWhite(f.lightAt(q))
	if luminance(a) < luminance(b) {
		a, b = b, a
	}
	return mixture{a, b}
}

// ofWhite turns light in 1/LinearWhite into light of which 1 is white.
func ofWhite(light [3]int64) (c [3]float64) {
	for k := range c {
		c[k] = float64(light[k]) / fixed.LinearWhite
	}
	return c
}

// beside returns how far a colour, in 1/LinearWhite of light, lies from the mixtures of the
// two in L*a*b*, be they mixed in light or in 8-bit codes; 0 if it is hardly darker than the
// lighter or may be a blurred edge. What is no further than least isn't told from it.
func (m *mixture) beside(light [3]int64, least float64) float64 {
	c := ofWhite(light)
	p, q, own := labOfLight(m.light), labOfLight(m.dark), labOfLight(c)
	apart := p.L - q.L
	if own.L > p.L-lineDarker/cellLab || own.L > p.L-rimClear*apart || own.L > q.L && own.L < q.L+rimClear*apart {
		return 0
	}
	inLight := math.Sqrt(squareApart(labOfLight(m.at(m.asDark(c))), own))
	if inLight <= least { // often, and it is quick
		return inLight
	}
	return min(inLight, m.coded().from(own, p.L, q.L))
}

// asDark returns which part of the dark, 0 to 1, a mixture in light has that is as dark as a colour: its
// luminance goes evenly from the one to the other.
func (m *mixture) asDark(c [3]float64) float64 {
	p, q := luminance(m.light), luminance(m.dark)
	return min(max((p-luminance(c))/max(p-q, 1e-12), 0), 1)
}

func luminance(c [3]float64) float64 { return colour.Luminance(c[0], c[1], c[2]) }

// at returns the mixture with a part of the dark, in light.
func (m *mixture) at(t float64) (c [3]float64) {
	for k := range c {
		c[k] = m.light[k] + t*(m.dark[k]-m.light[k])
	}
	return c
}

// mixing is the way between two colours in 8-bit codes.
type mixing struct{ light, dark [3]float64 }

// coded returns the way in 8-bit codes.
func (m *mixture) coded() (way mixing) {
	for k := range m.light {
		way.light[k], way.dark[k] = colour.EncodedOf(m.light[k]), colour.EncodedOf(m.dark[k])
	}
	return way
}

// at returns the colour a part of the way to the dark.
func (m *mixing) at(t float64) colour.Lab {
	var c [3]float64
	for k := range c {
		c[k] = colour.LinearOf(m.light[k] + t*(m.dark[k]-m.light[k]))
	}
	return labOfLight(c)
}

// lightnessTries is how often a mixture of a lightness is sought: with codes, lightness goes nearly evenly
// from the one colour to the other.
const lightnessTries = 5

// from returns how far a colour lies from the mixture that has its lightness; light and dark are the L* of
// the two that are mixed.
func (m mixing) from(own colour.Lab, light, dark float64) float64 {
	low, high, c := 0.0, 1.0, own
	over, under, was := max(light-own.L, 0), max(own.L-dark, 0), 0
	for range lightnessTries { // L* falls with t
		t := low + (high-low)*over/max(over+under, 1e-9)
		way := -1
		if c = m.at(t); c.L > own.L {
			low, over, way = t, c.L-own.L, 1
		} else {
			high, under = t, own.L-c.L
		}
		switch { // an end that stays twice is believed half (the Illinois rule)
		case way == was && way > 0:
			under /= 2
		case way == was:
			over /= 2
		}
		was = way
	}
	return math.Sqrt(squareApart(c, own))
}

func labOfLight(c [3]float64) colour.Lab { return colour.LabOf(c[0], c[1], c[2]) }
