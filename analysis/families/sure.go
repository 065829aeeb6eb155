package families

import "math"

// measure fills in the figures by which local colours are weighed.
func (d *decision) measure() {
	owner := make([]int, len(d.pools)) // by colour: 2 * local + side + 1, 0 for none
	for k := range d.locals {
		for s, side := range d.locals[k].sides {
			for _, i := range side {
				owner[i] = 2*k + s + 1
			}
		}
	}
	for k := range d.locals {
		d.measureAlone(k, owner)
	}
	for k := range d.locals {
		d.measureBeside(k)
	}
}

// What is believed of a picture's light before any local colour was seen: how far shadows lie
// below their lights, and how much that weighs (our choice; the weights are fitted to it).
const (
	usualDepth  = 0.3
	usualWeight = 0.15
)

// smallStep is the step, in L*, under which ever less speaks for light and shadow: half a tone (our
// choice; the weight is fitted to it). Two whites of one thing, or two pinks, are about as far apart.
const smallStep = 6.0

// noLink is the logit where two colours have no link, or a local colour no rival: that of a
// link that is hardly ever one.
const noLink = -4.0

// measureAlone fills in a local colour's figures that come from itself and what it touches.
func (d *decision) measureAlone(k int, owner []int) {
	l := &d.locals[k]
	best, main, sum, rival, sharp := math.Inf(-1), math.Inf(-1), 0.0, noLink, 0.0
	for i := range d.links {
		link := &d.links[i]
		p, q := owner[link.light], owner[link.shadow]
		switch {
		case p == 2*k+1 && q == 2*k+2:
			best = max(best, link.logit)
			sharp = max(sharp, link.sharp)
			sum += link.logit
			if link.light == l.mains[0] && link.shadow == l.mains[1] {
				main = link.logit
			}
		case p == q:
		case (p+1)/2 == k+1 || (q+1)/2 == k+1:
			rival = max(rival, link.logit)
		}
	}
	if math.IsInf(main, -1) { // with steps in between
		main = best - 2
	}
	light, shadow := d.pools[l.mains[0]].mean(), d.pools[l.mains[1]].mean()
	step := light.L - shadow.L
	less := inLess(light.L, shadow.L)
	l.off = [2]float64{(shadow.A - less*light.A) / (step + stepDoubt), (shadow.B - less*light.B) / (step + stepDoubt)}
	l.depth = math.Log((light.L + 16) / (shadow.L + 16))
	both, smaller := part(l.cells[0]+l.cells[1], d.figure), part(min(l.cells[0], l.cells[1]), d.figure)
	l.weight = sigmoid(best) * math.Sqrt(both)
	ground, outline, sums := false, 0, [2]moments{}
	for s, side := range l.sides {
		for _, i := range side {
			ground = ground || d.pools[i].ground
			outline += d.pools[i].outline
			sums[s].join(&d.pools[i].moments)
		}
	}
	parted := sums[0].separation(&sums[1])
	l.ramp = parted < evenRamp && sharp < sharpStep
	l.figures = [sureFigures]float64{
		1, best, main, sum, rival,
		math.Log(both), math.Log(smaller),
		math.Log(float64(len(l.sides[0]) + len(l.sides[1]) - 1)),
		math.Log(step / usualStep), hinge(smallStep, step),
		math.Hypot(l.off[0], l.off[1]),
		0, 0, 0, // see measureBeside
		flag(ground),
		math.Log(jaggedness(outline, l.cells[0]+l.cells[1])), d.ragged,
		parted,
	}
}

// measureBeside fills in how a local colour agrees with the others of the picture: one light
// and one surrounding light fall on all of it, so that shadows lie as far below their lights
// and shift their hue the same way.
func (d *decision) measureBeside(k int) {
	l := &d.locals[k]
	weight, depth, off := usualWeight, usualWeight*usualDepth, [2]float64{}
	for i := range d.locals {
		if o := &d.locals[i]; i != k {
			weight += o.weight
			depth += o.weight * o.depth
			off[0] += o.weight * o.off[0]
			off[1] += o.weight * o.off[1]
		}
	}
	l.figures[11] = math.Abs(l.depth - depth/weight)
	l.figures[12] = math.Hypot(l.off[0]-off[0]/weight, l.off[1]-off[1]/weight)
	l.figures[13] = math.Log(weight)
}

// raggedness returns how ragged the colours of a picture are: the mean of their jaggedness by
// cells, as a logarithm. A painted form has a clear outline; where most have none, as in a
// picture of noise, shapes are chance.
func (d *decision) raggedness() float64 {
	sum, cells := 0.0, 0.0
	for i := range d.pools {
		p := &d.pools[i]
		if p.ground {
			continue
		}
		sum += float64(p.all) * math.Log(jaggedness(p.outline, p.all))
		cells += float64(p.all)
	}
	return sum / max(cells, 1)
}
