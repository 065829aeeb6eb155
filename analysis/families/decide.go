package families

import (
	"cmp"
	"math"
	"slices"
)

// alikeSides is how far apart in L*a*b* the sides of two local colours are, at most, that are
// one (our choice: each may lie oneColour from what it was pooled with).
const alikeSides = 1.5 * oneColour

// decision is what was weighed of a picture, and what came of it.
type decision struct {
	pools  []pooled
	of     []int32 // by area: its colour, -1 for none
	links  []link
	figure int     // cells that aren't background
	ragged float64 // see raggedness
	around [][]int32
	joined []local // what hangs together, each cut once: what says how the light falls
	all    []local // all that may be a local colour: they share colours, and compete
	locals []local // those that were chosen, the largest first
}

// local is a local colour: all colours that it shows in, as a light and a shadow side.
type local struct {
	areas      [2][]int32 // light, shadow
	main       [2][]int32 // of them, those of the side's main step
	confidence float64    // 0 to 1

	sides   [2][]int32 // pooled colours
	mains   [2]int32
	cells   [2]int
	part    float64 // of the cells that aren't background, 0 to 1, and more with some of that
	figures [sureFigures]float64
	off     [2]float64 // a* and b* of the shadow beside the light's own, in less light; over L*
	depth   float64    // how far the shadow lies below the light
	weight  float64    // how much it says of the picture's light
	ramp    bool       // runs evenly from end to end: no light and shadow
	scale   bool       // is steps of a scale: no light and shadow
}

// decide finds the local colours of all colours that touch, at once. What hangs together may be
// one local colour, cut into light and shadow anywhere, and so may any two colours that touch.
// Each is weighed beside the rest of the picture, since one light falls on all of it; then they
// compete, and a colour is a side once.
func (f *Finder) decide() *decision {
	f.areas.measureOutlines()
	f.markScales()
	d := &decision{around: f.areas.edgesByArea()}
	d.pools, d.of = f.poolColours()
	for i := range d.pools {
		if !d.pools[i].ground {
			d.figure += d.pools[i].all
		}
	}
	d.links = f.links(d.pools, f.poolEdges(d.pools, d.of), d.figure)
	for i := range d.links {
		d.links[i].logit = weigh(f.model.Link[:], d.links[i].figures[:])
	}
	d.propose()
	d.ragged = d.raggedness()
	d.measure(f)
	for i := range d.all {
		d.all[i].confidence = sigmoid(weigh(f.model.Sure[:], d.all[i].figures[:]))
	}
	d.locals = d.joinAlike(d.choose())
	slices.SortStableFunc(d.locals, func(p, q local) int { return cmp.Compare(q.cells[0]+q.cells[1], p.cells[0]+p.cells[1]) })
	return d
}

// choose returns those that are chosen, of those that are worth a look.
func (d *decision) choose() (chosen []local) {
	var confidence, part []float64
	var colours [][]int32
	list := make([]*local, 0, len(d.all))
	for i := range d.all {
		if l := &d.all[i]; l.confidence >= LeastSure {
			list, colours = append(list, l), append(colours, l.colours())
			confidence, part = append(confidence, l.confidence), append(part, l.part)
		}
	}
	for _, i := range Choose(confidence, part, colours) {
		chosen = append(chosen, *list[i])
	}
	return chosen
}

// colours returns the pooled colours of both sides.
func (l *local) colours() []int32 { return slices.Concat(l.sides[0], l.sides[1]) }

// forWhole is to which power a local colour's part of the picture counts beside its confidence
// where several compete (our choice, compared on pictures that were held out of fitting): of a
// whole and two of its steps that are about as sure, it is the whole that stays so where the
// picture is shifted.
const forWhole = 0.2

// Choose returns which of several are chosen by their confidence and by what part of the picture
// they are: the best first, and then those that share no colour with one that was chosen.
func Choose(confidence, part []float64, colours [][]int32) (chosen []int) {
	order, worth := make([]int, len(confidence)), make([]float64, len(confidence))
	for i := range order {
		order[i], worth[i] = i, confidence[i]*math.Pow(part[i], forWhole)
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(worth[k], worth[i]) })
	taken := map[int32]bool{}
	for _, i := range order {
		if slices.ContainsFunc(colours[i], func(c int32) bool { return taken[c] }) {
			continue
		}
		chosen = append(chosen, i)
		for _, c := range colours[i] {
			taken[c] = true
		}
	}
	return chosen
}

// leastLink is the logit from which on two colours that touch are weighed as a local colour of
// their own (our choice: what is less likely isn't worth the time).
const leastLink = -1.0

// propose lists all that may be a local colour.
func (d *decision) propose() {
	groups, wider := join(d.links, len(d.pools))
	for _, group := range groups {
		d.joined = append(d.joined, d.cut(group))
	}
	d.joined = d.joinAlike(d.joined)
	d.all = slices.Clone(d.joined)
	for _, l := range d.joined {
		d.proposeCuts(l.colours())
	}
	for _, group := range wider {
		if d.lightestFirst(group); d.isChain(group) {
			d.proposeCuts(group)
		}
	}
	for i := range d.links {
		if l := &d.links[i]; l.logit >= leastLink && !d.isProposed([2][]int32{{l.light}, {l.shadow}}) {
			d.all = append(d.all, d.sided([2][]int32{{l.light}, {l.shadow}}))
		}
	}
}

// chainBeside is how far beside the way from its lightest step to its darkest those of a chain lie at
// most, as a part of that way (our choice: hues turn along it).
const chainBeside = 0.2

// isChain reports whether three colours or more, the lightest first, are steps of one way from light
// to dark.
func (d *decision) isChain(steps []int32) bool {
	if len(steps) < 3 {
		return false
	}
	first := d.pools[steps[0]].mean()
	way := minus(d.pools[steps[len(steps)-1]].mean(), first)
	return !slices.ContainsFunc(steps, func(i int32) bool {
		_, square := fromLine(d.pools[i].mean(), first, way)
		return square > chainBeside*chainBeside*dot(way, way)
	})
}

// proposeCuts lists a local colour of several steps, cut wherever it isn't yet.
func (d *decision) proposeCuts(steps []int32) {
	d.lightestFirst(steps)
	for at := 1; at < len(steps); at++ {
		if sides := [2][]int32{steps[:at], steps[at:]}; !d.isProposed(sides) {
			d.all = append(d.all, d.sided(sides))
		}
	}
}

// isProposed reports whether there is one with these sides, the lightest colour first.
func (d *decision) isProposed(sides [2][]int32) bool {
	return slices.ContainsFunc(d.all, func(l local) bool {
		return slices.Equal(l.sides[0], sides[0]) && slices.Equal(l.sides[1], sides[1])
	})
}

func (d *decision) lightestFirst(colours []int32) {
	slices.SortFunc(colours, func(i, k int32) int {
		return cmp.Or(cmp.Compare(d.pools[k].mean().L, d.pools[i].mean().L), cmp.Compare(i, k))
	})
}

// lenience is added to the logits before colours are joined: what is joined is weighed once
// more, what isn't joined is lost (our choice).
const lenience = 0.4

// widest is how far the logits between two groups may speak against joining them for both to be
// weighed as one as well, if they are a chain (our choice): its steps touch only the next ones, and
// where one link is weak, two halves are joined that are no local colours.
const widest = 1.2

// joining is colours on the way to local colours: of each the group that it is in, and between groups
// the sums of the logits.
type joining struct {
	into []int32
	sums []map[int32]float64
}

// join groups colours into local colours: the two groups for which the sum of the logits
// between them speaks most are joined, as long as there are such (JOIN). Wider are groups that
// would be joined next.
func join(links []link, colours int) (groups, wider [][]int32) {
	j := joining{make([]int32, colours), make([]map[int32]float64, colours)}
	for i := range j.into {
		j.into[i], j.sums[i] = int32(i), map[int32]float64{}
	}
	for _, l := range links {
		j.sums[l.light][l.shadow] = l.logit + lenience
		j.sums[l.shadow][l.light] = l.logit + lenience
	}
	for j.joinStrongest(0) >= 0 {
	}
	for i := range int32(colours) {
		if group := j.group(i); len(group) > 1 {
			groups = append(groups, group)
		}
	}
	for at := j.joinStrongest(-widest); at >= 0; at = j.joinStrongest(-widest) {
		wider = append(wider, j.group(at))
	}
	return groups, wider
}

// group lists the colours of one group, in the order of their numbers.
func (j *joining) group(which int32) (all []int32) {
	for i, g := range j.into {
		if g == which {
			all = append(all, int32(i))
		}
	}
	return all
}

// joinStrongest joins the two groups with the largest sum above least, and returns which group
// they are now, -1 if there are none.
func (j *joining) joinStrongest(least float64) int32 {
	a, b := strongest(j.sums, least)
	if a < 0 {
		return -1
	}
	for k, v := range j.sums[b] {
		delete(j.sums[k], b)
		if k != a {
			j.sums[a][k] += v
			j.sums[k][a] += v
		}
	}
	j.sums[b] = nil
	for i := range j.into {
		if j.into[i] == b {
			j.into[i] = a
		}
	}
	return a
}

// strongest returns the two groups with the largest sum above least between them, of equal ones
// the first; -1 if there are none.
func strongest(sums []map[int32]float64, least float64) (a, b int32) {
	a, b = -1, -1
	most := least
	for i := range sums {
		first := int32(i)
		for k, v := range sums[i] {
			if first < k && (v > most || v == most && first == a && k < b) {
				a, b, most = first, k, v
			}
		}
	}
	return a, b
}

// cut cuts a group of colours into light and shadow where that parts their lightness best
// (OTSU's criterion, by cells).
func (d *decision) cut(group []int32) local {
	d.lightestFirst(group)
	all, sum := 0.0, 0.0
	for _, i := range group {
		all += float64(d.pools[i].all)
		sum += float64(d.pools[i].all) * d.pools[i].mean().L
	}
	best, at, n, lit := -1.0, 1, 0.0, 0.0
	for i, c := range group[:len(group)-1] {
		n += float64(d.pools[c].all)
		lit += float64(d.pools[c].all) * d.pools[c].mean().L
		apart := lit/n - (sum-lit)/(all-n)
		if between := n * (all - n) * apart * apart; between > best {
			best, at = between, i+1
		}
	}
	return d.sided([2][]int32{group[:at], group[at:]})
}

// sided makes a local colour of two sides. The largest colour of a side is its main step.
func (d *decision) sided(sides [2][]int32) (l local) {
	l.sides = sides
	for s, side := range l.sides {
		l.mains[s] = slices.MaxFunc(side, func(i, k int32) int { return cmp.Compare(d.pools[i].all, d.pools[k].all) })
		l.main[s] = d.pools[l.mains[s]].areas
		for _, i := range side {
			l.areas[s] = append(l.areas[s], d.pools[i].areas...)
			l.cells[s] += d.pools[i].all
		}
	}
	return l
}

// joinAlike joins local colours whose main steps have nearly the same colours: they may lie
// apart, as two hands do.
func (d *decision) joinAlike(list []local) (kept []local) {
	for _, l := range list {
		k := slices.IndexFunc(kept, func(o local) bool {
			for s := range l.mains {
				if squareApart(d.pools[l.mains[s]].mean(), d.pools[o.mains[s]].mean()) > alikeSides*alikeSides {
					return false
				}
			}
			return true
		})
		if k < 0 {
			kept = append(kept, l)
			continue
		}
		o := &kept[k]
		for s := range l.sides {
			o.sides[s] = slices.Concat(o.sides[s], l.sides[s])
			d.lightestFirst(o.sides[s])
			o.areas[s] = append(o.areas[s], l.areas[s]...)
			o.main[s] = append(slices.Clip(o.main[s]), l.main[s]...)
			o.cells[s] += l.cells[s]
		}
	}
	return kept
}
