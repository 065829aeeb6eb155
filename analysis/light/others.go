package light

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// Other is a form of no local colour that was found: two areas beside each other of which one is
// what the picture's light makes of the other. So it is known only where one light falls on the
// picture. What may be ground with a cast shadow is none.
type Other struct {
	Light  analysis.Spot `json:"light"` // its sides
	Shadow analysis.Spot `json:"shadow"`
	Lighting
}

// What two areas have to be for one to be the shadow of the other (the first two our choice, the
// others found on painted scenes of open seeds).
const (
	mostFromShadow = 4.0 // CIEDE2000 from what the picture's light makes of the other
	mostFromGround = 5.0 // CIEDE2000 up to which an area is of the ground's colour, or its cast shadow's
	widestSoftness = 0.1 // of the picture's longer side, for what lies between them
	leastMeeting   = 0.5 // of the rows and columns in which they meet, over the root of the smaller area
)

// others returns the forms in the cells that no local colour has which counts or is sure and agrees.
func (l *Light) others(k *look) (all []Other) {
	if k.Cells == nil || l.OneLight == nil || !*l.OneLight {
		return nil
	}
	odd := map[int]bool{}
	for _, c := range l.LocalColours {
		odd[c.Family] = !c.Agrees()
	}
	taken := k.taken(func(family int) bool { return !odd[family] && (k.found.List[family].Sure() || k.counts(family)) })
	free := slices.Clone(taken)
	for _, steep := range steepest {
		p := k.plains(k.lab, taken, steep)
		all = append(all, p.forms(p.pairs(*l.Ratio))...)
	}
	l.unsay(k, odd, func(i int) bool { return taken[i] && !free[i] })
	return all
}

// unsay makes unsure the forms of odd local colours of which more than half are sides of others: what
// disagrees may be the light of one form and the shadow of the next.
func (l *Light) unsay(k *look, odd map[int]bool, others func(cell int) bool) {
	all, gone := map[int]int{}, map[int]int{}
	k.each(func(family int) bool { return odd[family] }, func(i int, part families.Part) {
		if part.Place == families.InLine {
			return
		}
		all[int(part.Family)]++
		if others(i) {
			gone[int(part.Family)]++
		}
	})
	for i := range l.Forms {
		if f := &l.Forms[i]; 2*gone[f.Family] > all[f.Family] {
			f.Verdict = Unsure
		}
	}
}

// lit is a plain in the light, and one beside it in its shadow.
type lit struct{ light, shadow int32 }

// pairs returns the plains beside each other of which one is the other's shadow in the light of a
// ratio.
func (p *plains) pairs(r Ratio) (pairs []lit) {
	var grounds []plain
	for _, g := range p.list {
		if g.isGround() {
			grounds = append(grounds, g)
		}
	}
	for at, met := range p.meetings() {
		pair := lit{at.a, at.b}
		if luminance(p.list[pair.light].mean()) < luminance(p.list[pair.shadow].mean()) {
			pair = lit{at.b, at.a}
		}
		smaller := min(p.list[at.a].cells, p.list[at.b].cells)
		if math.Hypot(float64(met.rows), float64(met.columns)) >= leastMeeting*math.Sqrt(float64(smaller)) && p.areLit(pair, r, grounds) {
			pairs = append(pairs, pair)
		}
	}
	return pairs
}

func luminance(light [3]float64) float64 { return colour.Luminance(light[0], light[1], light[2]) }

// areLit reports whether a pair is light and shadow in the light of a ratio, and none of it ground.
func (p *plains) areLit(pair lit, r Ratio, grounds []plain) bool {
	light, shadow := p.list[pair.light].mean(), labOf(p.list[pair.shadow].mean())
	if colour.CIEDE2000(labOf(r.under(light)), shadow) > mostFromShadow {
		return false
	}
	for i := range grounds {
		g := grounds[i].mean()
		if colour.CIEDE2000(labOf(g), labOf(light)) < mostFromGround || colour.CIEDE2000(labOf(r.under(g)), shadow) < mostFromGround {
			return false
		}
	}
	return !p.list[pair.light].isGround() && !p.list[pair.shadow].isGround()
}

// two are two plains, a the one of the lower index.
type two struct{ a, b int32 }

// meeting is in how many rows and columns of cells two plains meet.
type meeting struct{ rows, columns int }

// meetings returns where plains meet, with nothing between them that is taken and nothing wider than
// a soft edge is.
func (p *plains) meetings() map[two]meeting {
	all := map[two]meeting{}
	reach := int(math.Ceil(widestSoftness * float64(max(p.w, p.h))))
	along := func(first, step, count int, one meeting) {
		last, at := int32(noPlain), 0
		for k := range count {
			i := first + k*step
			switch of := p.of[i]; {
			case p.taken[i]:
				last = noPlain
			case of == noPlain:
			default:
				if last != noPlain && last != of && k-at <= reach {
					met := all[two{min(last, of), max(last, of)}]
					all[two{min(last, of), max(last, of)}] = meeting{met.rows + one.rows, met.columns + one.columns}
				}
				last, at = of, k
			}
		}
	}
	for y := range p.h {
		along(y*p.w, 1, p.w, meeting{rows: 1})
	}
	for x := range p.w {
		along(x, p.w, p.h, meeting{columns: 1})
	}
	return all
}

// other is a form that is being made up of plains.
type other struct {
	moments
	side [2]plain
}

// forms returns the forms that pairs make up: plains that hang together by them. One that is both
// light and shadow says nothing, nor does what hangs together with it. The forms' cells are taken then.
func (p *plains) forms(pairs []lit) (forms []Other) {
	root, is := p.joined(pairs)
	made, unclear := make([]other, len(p.list)), make([]bool, len(p.list))
	for i := range p.list {
		r := root[i]
		unclear[r] = unclear[r] || is[lightSide][i] && is[shadowSide][i]
		for side := range is {
			if is[side][i] {
				made[r].side[side].add(&p.list[i])
			}
		}
	}
	for i, of := range p.of {
		for side := range is {
			if of != noPlain && is[side][of] && !unclear[root[of]] {
				made[root[of]].moments.add(side, i%p.w, i/p.w, p.w, p.h)
				p.taken[i] = true
			}
		}
	}
	for i := range made {
		if lit, ok := made[i].form(p.w, p.h); ok {
			side := &made[i].side
			forms = append(forms, Other{reading(side[lightSide].mean()), reading(side[shadowSide].mean()), lit})
		}
	}
	return forms
}

// joined joins plains by pairs: root has for each the plain that stands for all that hang together
// with it, and is whether it is a side.
func (p *plains) joined(pairs []lit) (root []int32, is [2][]bool) {
	root = make([]int32, len(p.list))
	for i := range root {
		root[i] = int32(i)
	}
	is[lightSide], is[shadowSide] = make([]bool, len(root)), make([]bool, len(root))
	for _, pair := range pairs {
		is[lightSide][pair.light], is[shadowSide][pair.shadow] = true, true
		a, b := root[pair.light], root[pair.shadow]
		for i := range root { // there are few
			if root[i] == max(a, b) {
				root[i] = min(a, b)
			}
		}
	}
	return root, is
}
