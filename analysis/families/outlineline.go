package families

import "app.tonedesk/analysis/internal/pool"

// bound is what is told of the line at a place of an outline.
type bound struct {
	measured, lined, ground, dim bool
	light                        [3]int64 // of the line, of which LinearWhite is white
}

// outlined adds up the outlines of a form.
type outlined struct {
	line     lightSum
	length   float64    // cells
	lined    float64    // of them, with a line
	without  [2]float64 // by side
	vanishes []Stretch
}

// followOutline adds an outline that was followed to its form's. A hole is no part of it.
func (f *Finder) followOutline(list []Form, first int32) {
	w, t := &f.forms, &f.forms.trail
	if t.turns < 0 || len(t.cracks) < leastPiece {
		return
	}
	w.bounds = pool.Resized(w.bounds, len(t.cracks))
	lined, measured := 0, 0
	for k, c := range t.cracks {
		w.bounds[k] = f.boundAt(c)
		if b := &w.bounds[k]; b.measured {
			measured++
			if b.lined {
				lined++
			}
		}
	}
	form := int(w.of[first] >> 1)
	if w.found.List[list[form].Family].Line != nil && float64(lined) < linePart*float64(measured) {
		for k, c := range t.cracks {
			if b := &w.bounds[k]; b.measured && !b.lined && b.ground {
				f.rimAt(c, b)
			}
		}
	}
	t.place(t.cracks, f.source.across, true)
	f.addOutline(&w.outlines[form])
}

// addOutline adds what is told at the places of the trail.
func (f *Finder) addOutline(o *outlined) {
	w, t := &f.forms, &f.forms.trail
	is := make([]bool, len(t.at))
	for k := range is {
		is[k] = w.bounds[k].lined || !w.bounds[k].measured // what isn't known is no gap
	}
	closeRuns(is, t.length, true)
	for k := range is {
		b := &w.bounds[k]
		if !b.measured {
			continue
		}
		o.length += t.length[k]
		if b.lined {
			o.line.add(b.light)
		}
		switch {
		case is[k]:
			o.lined += t.length[k]
		case b.dim:
			o.without[intoShadow] += t.length[k]
		default:
			o.without[intoLight] += t.length[k]
		}
	}
	for _, r := range runsOf(is, false, true) {
		o.vanishes = append(o.vanishes, f.stretchOf(r))
	}
}

// outline makes a form's outline of what was added up; nil for nothing.
func (f *Finder) outline(o *outlined, family *Family) *FormOutline {
	if o.length == 0 {
		return nil
	}
	made := &FormOutline{Length: o.length / f.source.grid.X.Parts(), LineShare: min(1, o.lined/o.length), Vanishes: []Stretch{}}
	if made.LineShare < linePart || o.line.count == 0 {
		return made
	}
	spot := spotOfSum(o.line.sum, o.line.count)
	spot.PointAtHue()
	made.Line, made.Vanishes = family.lineOf(spot, f.forms.rules), append(made.Vanishes, o.vanishes...)
	made.VanishesLight, made.VanishesDark = min(1, o.without[intoLight]/o.length), min(1, o.without[intoShadow]/o.length)
	return made
}

// boundAt tells whether a line runs at a place of an outline.
func (f *Finder) boundAt(c crack) (b bound) {
	w, a := &f.forms, &f.areas
	if c.out == noCell || a.label[c.out] == noArea || a.label[c.in] == noArea {
		return b
	}
	b.measured, b.dim = true, w.of[c.in]&1 == intoShadow
	b.ground = a.list[a.label[c.out]].ground
	if cell := f.lineAcross(f.across(c)); cell >= 0 {
		b.lined, b.light = true, f.darkestAt(cell)
	}
	return b
}

// A line lies up to lineNear cells from an outline, and beside it, lineBeside cells further, it is
// over (our choice: what is thin is up to five cells wide).
const (
	lineNear   = 3
	lineBeside = 3
)

// lineAcross returns the darkest cell of a line that runs between cell i and the one a step
// further, behind which lie so many; -1 if there is none. As elsewhere, a line is so much darker
// than both sides as what is thin.
func (f *Finder) lineAcross(i, step, back, ahead int) int {
	l := f.planes.raw[0]
	darkest, at := i, 0
	for k := -min(lineNear-1, back); k <= 1+min(lineNear-1, ahead); k++ {
		if l[i+k*step] < l[darkest] {
			darkest, at = i+k*step, k
		}
	}
	beside := func(way, room int) int32 {
		lightest := l[darkest]
		for d := lineBeside; d <= lineBeside+1 && d <= room; d++ {
			lightest = max(lightest, l[darkest+way*d*step])
		}
		return lightest
	}
	limit := int32(cellLab * (thinLeast + thinNoise*f.planes.noise))
	if min(beside(-1, back+at), beside(1, ahead+1-at))-l[darkest] < limit {
		return -1
	}
	return darkest
}

// across returns the cell inside of a border, the step to the one outside, and how many cells, up
// to farReach, lie behind each of the two.
func (f *Finder) across(c crack) (i, step, back, ahead int) {
	i, step = int(c.in), int(c.out-c.in)
	x, y := i%f.source.across, i/f.source.across
	switch (c.way + ways - 1) % ways {
	case eastward:
		back, ahead = x, f.source.across-2-x
	case westward:
		back, ahead = f.source.across-1-x, x-1
	case southward:
		back, ahead = y, f.source.down-2-y
	case northward:
		back, ahead = f.source.down-1-y, y-1
	}
	return i, step, min(back, farReach), min(ahead, farReach)
}

// rimAt tells whether a rim, a line on a ground that is no lighter, runs at a place of an outline.
func (f *Finder) rimAt(c crack, b *bound) {
	i, step, back, ahead := f.across(c)
	b.light, b.lined = f.rimAcross(i, step, min(back, ahead))
}
