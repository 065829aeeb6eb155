package analysis

import (
	"cmp"
	"image"
	"slices"
)

// Roles of a cell in Families.Map, beside four times the family's index.
const (
	lightSide = 1 + iota
	shadowSide
	accentBand
	lineRole
	roles = lineRole
)

// mapRole returns what Families.Map says of a role in family k.
func mapRole(k, role int) uint8 { return uint8(roles*k + role) }

// describe fills found with the families, the largest first.
func (f *FamilyFinder) describe(found *Families, families []gathered, rules FamilyRules) {
	a := &f.areas
	slices.SortStableFunc(families, func(p, q gathered) int { return cmp.Compare(f.cellsOf(q), f.cellsOf(p)) })
	families = families[:min(len(families), mostFamilies)]
	role := make([]uint8, len(a.list))
	for k, g := range families {
		for _, i := range g.light {
			role[i] = mapRole(k, lightSide)
		}
		for _, i := range g.shadow {
			role[i] = mapRole(k, shadowSide)
		}
	}
	for i, l := range a.label {
		if l != noArea {
			found.Map[i] = role[l]
		}
	}
	f.measureDepth(found.Map)
	for k := range families {
		found.List = append(found.List, f.family(found.Map, k, role, rules))
	}
}

func (f *FamilyFinder) cellsOf(g gathered) (n int) {
	for _, i := range g.light {
		n += f.areas.list[i].all
	}
	for _, i := range g.shadow {
		n += f.areas.list[i].all
	}
	return n
}

// family measures family k.
func (f *FamilyFinder) family(marks []uint8, k int, role []uint8, rules FamilyRules) Family {
	light, shadow := f.side(marks, mapRole(k, lightSide)), f.side(marks, mapRole(k, shadowSide))
	share := float64(len(light)+len(shadow)) / float64(f.source.counted)
	family := FamilyOf(f.sideSpots(light, shadow, rules))
	if accent := f.accent(marks, k, &family, rules); accent != nil {
		light, shadow = f.side(marks, mapRole(k, lightSide)), f.side(marks, mapRole(k, shadowSide))
		f.measureDepth(marks)
		family = FamilyOf(f.sideSpots(light, shadow, rules))
		family.Accent = family.accentOf(accent.Spot, rules)
	}
	overlap := Value(f.tenth(shadow, true)) - Value(f.tenth(light, false))
	family.Share, family.Overlap = &share, &overlap
	family.Line = f.line(marks, k, role, &family, rules)
	family.judge(rules)
	return family
}

// side lists the cells of a role.
func (f *FamilyFinder) side(marks []uint8, role uint8) []int32 {
	var cells []int32
	for i, m := range marks {
		if m == role {
			cells = append(cells, int32(i))
		}
	}
	return cells
}

// depthUnit is a cell in measureDepth.
const depthUnit = 3

// measureDepth measures how far each cell lies from the nearest cell that is thin or has
// another mark, in thirds of a cell (chamfer distance 3-4: Borgefors, 1986). What lies
// outside the picture counts as alike.
func (f *FamilyFinder) measureDepth(marks []uint8) {
	s, p := &f.source, &f.planes
	w, h := s.across, s.down
	p.depth = resized(p.depth, w*h)
	const far = 1 << 12
	d := p.depth
	for i := range d {
		d[i] = far
		if p.thin[i] != 0 {
			d[i] = 0
		}
	}
	step := func(i, k, by int32) {
		if marks[i] != marks[k] {
			d[i] = min(d[i], by)
		} else {
			d[i] = min(d[i], d[k]+by)
		}
	}
	const straight, diagonal = depthUnit, 4
	for i := range int32(w * h) {
		x, y := int(i)%w, int(i)/w
		if x > 0 {
			step(i, i-1, straight)
		}
		if y > 0 {
			up := i - int32(w)
			step(i, up, straight)
			if x > 0 {
				step(i, up-1, diagonal)
			}
			if x+1 < w {
				step(i, up+1, diagonal)
			}
		}
	}
	for i := int32(w*h) - 1; i >= 0; i-- {
		x, y := int(i)%w, int(i)/w
		if x+1 < w {
			step(i, i+1, straight)
		}
		if y+1 < h {
			down := i + int32(w)
			step(i, down, straight)
			if x > 0 {
				step(i, down-1, diagonal)
			}
			if x+1 < w {
				step(i, down+1, diagonal)
			}
		}
	}
}

// rimCells is how many cells deep the rim of a side is, in which its colour is mixed with
// what lies beside it.
const rimCells = 2

// body returns the cells of a side without its rim, but at least two thirds of them.
func (f *FamilyFinder) body(cells []int32) []int32 {
	d := f.planes.depth
	depths := make([]int32, len(cells))
	for i, c := range cells {
		depths[i] = d[c]
	}
	slices.Sort(depths)
	limit := min(depths[len(depths)/3], rimCells*depthUnit)
	kept := make([]int32, 0, len(cells))
	for _, c := range cells {
		if d[c] >= limit && d[c] > 0 {
			kept = append(kept, c)
		}
	}
	if len(kept) == 0 {
		return cells
	}
	return kept
}

// sideSpots reads two sides: the means of their bodies in linear light, and their deepest
// places. Cells whose colour lies far beside the way from one side to the other, as those of
// a pattern, don't count. It hands rules on.
func (f *FamilyFinder) sideSpots(light, shadow []int32, rules FamilyRules) (Spot, Spot, FamilyRules) {
	light, shadow = f.body(light), f.body(shadow)
	p, q := f.meanLab(light), f.meanLab(shadow)
	a, b := f.meanSpot(f.beside(light, p, p, q)), f.meanSpot(f.beside(shadow, q, p, q))
	f.pin(&a, f.deepest(light))
	f.pin(&b, f.deepest(shadow))
	return a, b, rules
}

// besideWay is how far beside the way from side to side a cell may lie, in L*a*b*; of an even
// side it is the noise.
const besideWay = 5.0

// beside returns those cells that lie beside the line through mean along the way from p to q
// by no more than besideWay, or all if that is less than half of them.
func (f *FamilyFinder) beside(cells []int32, mean, p, q Lab) []int32 {
	axis := Lab{p.L - q.L, p.A - q.A, p.B - q.B}
	size := axis.L*axis.L + axis.A*axis.A + axis.B*axis.B
	limit := besideWay + 2*f.planes.noise
	kept := make([]int32, 0, len(cells))
	for _, i := range cells {
		c := f.flatLab(i)
		l, a, b := c.L-mean.L, c.A-mean.A, c.B-mean.B
		t := (l*axis.L + a*axis.A + b*axis.B) / max(size, 1e-9)
		l, a, b = l-t*axis.L, a-t*axis.A, b-t*axis.B
		if l*l+a*a+b*b <= limit*limit {
			kept = append(kept, i)
		}
	}
	if 2*len(kept) < len(cells) {
		return cells
	}
	return kept
}

func (f *FamilyFinder) deepest(cells []int32) int32 {
	best := cells[0]
	for _, i := range cells {
		if f.planes.depth[i] > f.planes.depth[best] {
			best = i
		}
	}
	return best
}

func (f *FamilyFinder) flatLab(i int32) Lab {
	r := &f.planes.flat
	return Lab{float64(r[0][i]) / cellUnitLab, float64(r[1][i]) / cellUnitLab, float64(r[2][i]) / cellUnitLab}
}

// pin sets a spot's hue and its place: the middle of a cell, in pixels of the source, and a
// square that fits.
func (f *FamilyFinder) pin(spot *Spot, cell int32) {
	at := f.sourceOf(int(cell))
	scale := float64(f.source.width) / float64(f.source.across)
	room := (2*float64(f.planes.depth[cell])/depthUnit - 1) * scale
	size := 1
	for _, offered := range [...]int{3, 5, 11} {
		if float64(offered) <= room {
			size = offered
		}
	}
	spot.X, spot.Y, spot.Size = &at.X, &at.Y, &size
	spot.pointAtHue()
}

// sourceOf returns the source pixel in the middle of a cell.
func (f *FamilyFinder) sourceOf(cell int) image.Point {
	s := &f.source
	x, y := cell%s.across, cell/s.across
	return image.Pt((2*x+1)*s.width/(2*s.across), (2*y+1)*s.height/(2*s.down))
}

// tenth returns the L* at which a side's lightest, or darkest, tenth begins.
func (f *FamilyFinder) tenth(cells []int32, lightest bool) float64 {
	var counts [1001]int
	n := 0
	for _, i := range cells {
		if f.planes.depth[i] >= 2*depthUnit {
			counts[min(max(int(f.planes.flat[0][i])*10/cellUnitLab, 0), 1000)]++
			n++
		}
	}
	if n == 0 {
		return f.tenthOfAll(cells, lightest)
	}
	seen := 0
	for k := range counts {
		i := k
		if lightest {
			i = 1000 - k
		}
		if seen += counts[i]; 10*seen >= n {
			return float64(i) / 10
		}
	}
	return 0
}

func (f *FamilyFinder) tenthOfAll(cells []int32, lightest bool) float64 {
	values := make([]int32, len(cells))
	for i, c := range cells {
		values[i] = f.planes.flat[0][c]
	}
	slices.Sort(values)
	at := len(values) / 10
	if lightest {
		at = len(values) - 1 - at
	}
	return float64(values[at]) / cellUnitLab
}
