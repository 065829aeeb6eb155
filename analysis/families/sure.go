package families

import (
	"math"
	"slices"
)

// measure fills in the figures by which local colours are weighed.
func (d *decision) measure(f *Finder) {
	side := make([]int8, len(d.pools)) // by colour: 1 light, 2 shadow of the one that is measured
	for _, list := range [2][]local{d.joined, d.all} {
		for k := range list {
			d.measureAlone(f, &list[k], side)
		}
	}
	d.all = slices.DeleteFunc(d.all, func(l local) bool { return l.ramp || l.scale })
	for k := range d.all {
		d.measureBeside(&d.all[k])
	}
}

func (l *local) has(colour int32) bool {
	return slices.Contains(l.sides[0], colour) || slices.Contains(l.sides[1], colour)
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

// Where in the figures measureBeside puts its own.
const (
	besideDepth = 8 + iota
	besideOff
	besideWeight
)

// noLink is the logit where two colours have no link, or a local colour no rival: that of a
// link that is hardly ever one.
const noLink = -4.0

// measureAlone fills in a local colour's figures that come from itself and what it touches.
func (d *decision) measureAlone(f *Finder, l *local, of []int8) {
	clear(of)
	for s, side := range l.sides {
		for _, i := range side {
			of[i] = int8(1 + s)
		}
	}
	best, main, sum, rival, sharp := math.Inf(-1), math.Inf(-1), 0.0, noLink, 0.0
	contact := 0 // the sides' common edge but for lines: what hardly touches is no light and shadow
	for i := range d.links {
		link := &d.links[i]
		p, q := of[link.light], of[link.shadow]
		switch {
		case p == 1 && q == 2:
			best = max(best, link.logit)
			sharp = max(sharp, link.sharp)
			sum += link.logit
			contact += link.length - link.lined
			if link.light == l.mains[0] && link.shadow == l.mains[1] {
				main = link.logit
			}
		case p == 0 != (q == 0):
			rival = max(rival, link.logit)
		}
	}
	best = max(best, noLink)
	if math.IsInf(main, -1) { // with steps in between
		main = best - 2
	}
	light, shadow := d.pools[l.mains[0]].mean(), d.pools[l.mains[1]].mean()
	step := light.L - shadow.L
	less := inLess(light.L, shadow.L)
	l.off = [2]float64{(shadow.A - less*light.A) / (step + stepDoubt), (shadow.B - less*light.B) / (step + stepDoubt)}
	l.depth = math.Log((light.L + 16) / (shadow.L + 16))
	smaller := part(min(l.cells[0], l.cells[1]), d.figure)
	l.part = part(l.cells[0]+l.cells[1], d.figure)
	l.weight = sigmoid(best) * math.Sqrt(l.part)
	ground, sums := 0.0, [2]moments{}
	for s, side := range l.sides {
		for _, i := range side {
			ground = max(ground, d.pools[i].around)
			sums[s].join(&d.pools[i].moments)
		}
	}
	parted := sums[0].separation(&sums[1])
	l.ramp, l.scale = parted < evenRamp && sharp < sharpStep, d.isScale(l)
	turns, lone := f.measureForms(l, d.around)
	l.figures = [sureFigures]float64{
		1, best, main, sum, rival,
		math.Log(smaller),
		hinge(smallStep, step),
		turns,
		0, 0, 0, // see measureBeside
		ground,
		d.ragged,
		parted, hinge(1, float64(contact)/math.Sqrt(float64(min(l.cells[0], l.cells[1])))),
		lone[0], lone[1],
		math.Log(d.partOfGroup(l)),
	}
}

// measureBeside fills in how a local colour agrees with the others of the picture: one light
// and one surrounding light fall on all of it, so that shadows lie as far below their lights
// and shift their hue the same way.
func (d *decision) measureBeside(l *local) {
	weight, depth, off := usualWeight, usualWeight*usualDepth, [2]float64{}
	own := l.colours()
	for i := range d.joined {
		o := &d.joined[i]
		if slices.ContainsFunc(own, o.has) {
			continue
		}
		weight += o.weight
		depth += o.weight * o.depth
		off[0] += o.weight * o.off[0]
		off[1] += o.weight * o.off[1]
	}
	l.figures[besideDepth] = math.Abs(l.depth - depth/weight)
	l.figures[besideOff] = math.Hypot(l.off[0]-off[0]/weight, l.off[1]-off[1]/weight)
	l.figures[besideWeight] = math.Log(weight)
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

// partOfGroup returns how much a local colour has of what hangs together around it, 0 to 1: steps of
// one thing have less than all of it.
func (d *decision) partOfGroup(l *local) float64 {
	own, least := l.colours(), 1.0
	for i := range d.joined {
		group, cells := &d.joined[i], 0
		for _, k := range own {
			if group.has(k) {
				cells += d.pools[k].all
			}
		}
		if cells > 0 {
			least = min(least, part(cells, group.cells[0]+group.cells[1]))
		}
	}
	return least
}

// isScale reports whether a local colour is steps of a scale that are all of one size: light and
// shadow are larger than the steps between them. A scale may begin or end as a ground.
func (d *decision) isScale(l *local) bool {
	steps, scale := l.colours(), false
	d.lightestFirst(steps)
	for k, i := range steps {
		p := &d.pools[i]
		if !p.scale && !p.ground || k > 0 && !within(float64(d.pools[steps[k-1]].all), float64(p.all), scaleAlike) {
			return false
		}
		scale = scale || p.scale
	}
	return scale
}
