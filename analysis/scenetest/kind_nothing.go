package scenetest

import (
	"image"
	"math"
)

// nothing is a picture without any family, of one of several kinds.
func (r *chance) nothing() {
	rng := r.rng
	r.hard()
	r.crisp = true
	if perhaps(rng, 0.6) {
		r.lines, r.line = 1+rng.IntN(2), min(r.line, 5)
	}
	r.backdrop()
	one(rng, r.flats, r.lineArt, r.pattern, r.markings, r.twoMaterials, r.gleams, r.tints, r.emblem, r.atlas, r.chart)()
}

// lined lays a flat form with the picture's line around.
func (r *chance) lined(o outline, c Colour) {
	r.lone(o, c)
	r.draw(o, r.pen(c), unjudged)
}

// flats are things of unlike colours with gaps between them.
func (r *chance) flats() {
	middles, wide, high := r.cells(3+r.rng.IntN(10), 0.05)
	for _, at := range middles {
		if c, ok := r.palette.flat(); ok {
			r.lined(r.flatShape(at.x, at.y, 0.36*min(wide, high)), c)
		}
	}
}

// lineArt is drawn with a pen on paper.
func (r *chance) lineArt() {
	rng := r.rng
	paper, ink := r.palette.used[0], hex("#1c1a20")
	if paper.Value() < 5 {
		ink = hex("#f0eee6")
	}
	middles, wide, high := r.cells(1+rng.IntN(7), 0.1)
	for _, at := range middles {
		s := shapes(rng.Uint64())[rng.IntN(len(shapes(0)))]
		size := 0.45 * min(wide, high)
		o := s.at(at.x, at.y, size*min(s.aspect, 1), size/max(s.aspect, 1), between(rng, -10, 10))
		p := pen{colour: ink, width: r.line, vary: r.vary, gaps: r.gaps}
		r.lone(o, paper)
		r.draw(o, p, unjudged)
		r.draw(o.at(at.x*0.4, at.y*0.4, 0.6, 0.6, 0), p, unjudged) // a line inside
	}
}

// weaves are patterns over the whole picture or a thing: which of three colours a place has, at
// a scale in pixels.
var weaves = []func(p point, scale float64) int{
	func(p point, s float64) int { return int(2 * mod1(p.x/s/2)) },                          // stripes
	func(p point, s float64) int { return int(3 * mod1((p.x+p.y)/s/4)) },                    // slanted ones
	func(p point, s float64) int { return (int(p.x/s) + int(p.y/s)) % 2 },                   // checks
	func(p point, s float64) int { return int(2*mod1(p.x/s/2)) + int(2*mod1(p.y/s/2)) },     // plaid
	func(p point, s float64) int { return int(2 * mod1((p.y+0.25*s*wave(p.x/s/3))/s/1.6)) }, // waves
	func(p point, s float64) int { // dots
		if math.Hypot(mod1(p.x/s)-0.5, mod1(p.y/s+0.5*math.Floor(mod1(p.x/s/2)*2))-0.5) < 0.3 {
			return 1
		}
		return 0
	},
}

// pattern covers everything, or things.
func (r *chance) pattern() {
	rng := r.rng
	colours := r.three()
	w, scale := one(rng, weaves...), between(rng, 0.03, 0.1)*r.least()
	o := r.band(-30, float64(r.height)+30)
	if perhaps(rng, 0.5) {
		r.wear(o, colours, w, scale)
		return
	}
	middles, wide, high := r.cells(1+rng.IntN(4), 0.05)
	for _, at := range middles {
		o := one(rng, skirt, torso, box, pot, disc).at(at.x, at.y, 0.42*min(wide, high), 0.42*min(wide, high), 0)
		r.wear(o, colours, w, scale/2)
		r.draw(o, r.pen(colours[0]), unjudged)
	}
}

// three mixes the colours of a pattern: unlike ones, or three of one hue.
func (r *chance) three() (all [3]Colour) {
	for i := range all {
		all[i], _ = r.palette.flat()
	}
	if perhaps(r.rng, 0.5) {
		hue, saturation := between(r.rng, 0, 360), between(r.rng, 0.05, 0.2)
		for i := range all {
			all[i] = mixed(8.5-2.4*float64(i), hue, saturation)
		}
	}
	return all
}

// wear fills an outline with a pattern.
func (r *chance) wear(o outline, colours [3]Colour, which func(p point, scale float64) int, scale float64) {
	mask := o.cover(r.bounds())
	for y := mask.Rect.Min.Y; y < mask.Rect.Max.Y; y++ {
		for x := mask.Rect.Min.X; x < mask.Rect.Max.X; x++ {
			if a := mask.AlphaAt(x, y).A; a > 0 {
				c := colours[which(point{float64(x) + 0.5, float64(y) + 0.5}, scale)]
				r.lay(x, y, c.paint(), float64(a)/255, alone)
			}
		}
	}
}

// markings are fur and plumage: spots, bands or patches all over a flat body.
func (r *chance) markings() {
	rng := r.rng
	coat := mixed(between(rng, 6, 9.4), between(rng, 40, 90), between(rng, 0.01, 0.15))
	black, seed := hex("#2a2320"), rng.IntN(1000)
	mark := one(rng, black, turned(coat, between(rng, 2, 4), between(rng, -15, 10), 0.4))
	which := one(rng, weaves[len(weaves)-1], func(p point, s float64) int { // spots, or bands
		return int(2 * mod1((p.x+0.6*s*cloudAt(p.x, p.y, 2*s, 2, seed))/s/1.5))
	})
	if perhaps(rng, 0.3) { // patches: of the body's hue they might be dappled shade
		mark, which = black, func(p point, s float64) int {
			return int(math.Round(ease(0.15, 0.16, cloudAt(p.x, p.y, 2*s, 2, seed))))
		}
	}
	middles, wide, high := r.cells(1+rng.IntN(4), 0.05)
	for _, at := range middles {
		size := 0.43 * min(wide, high)
		o := one(rng, fish, pear, leaf, lump(rng.Uint64(), 8, 0.3), hat).at(at.x, at.y, size, 0.8*size, between(rng, -15, 15))
		r.wear(o, [3]Colour{coat, mark, mark}, which, between(rng, 0.12, 0.22)*size)
		r.draw(o, r.pen(coat), unjudged)
	}
}

// twoMaterials are things of two parts that are nothing like each other: a head on a handle, a
// band around a hat, a glaze over a foot.
func (r *chance) twoMaterials() {
	rng := r.rng
	middles, wide, high := r.cells(1+rng.IntN(6), 0.05)
	for _, at := range middles {
		first, ok := r.palette.flat()
		if !ok {
			return
		}
		second := mixed(between(rng, 3, 8.5), first.Oklab().Hue()+between(rng, 100, 260), between(rng, 0.12, 0.25))
		size := 0.44 * min(wide, high)
		if perhaps(rng, 0.5) { // a handle
			r.lined(box.at(at.x, at.y+0.3*size, 0.1*size, 0.7*size, 0), first)
			r.lined(one(rng, rock(rng.Uint64(), 6), leaf, box, disc, bell).at(at.x, at.y-0.55*size, 0.55*size, 0.36*size, 0), second)
			continue
		}
		o := one(rng, pot, jug, boot, bell, mushroom).at(at.x, at.y, 0.8*size, size, 0)
		from, to := between(rng, -0.5, 0)*size, between(rng, 0.15, 1.2)*size
		r.wear(o, [3]Colour{first, second}, func(p point, _ float64) int {
			if d := p.y - at.y; d > from && d < to {
				return 1
			}
			return 0
		}, 1)
		r.draw(o, r.pen(first), unjudged)
	}
}

// gleams are flat shiny things with small highlights.
func (r *chance) gleams() {
	rng := r.rng
	middles, wide, high := r.cells(1+rng.IntN(6), 0.05)
	for _, at := range middles {
		c, ok := r.palette.flat()
		if !ok {
			return
		}
		size := 0.42 * min(wide, high)
		r.lined(one(rng, disc, pot, apple, bell, boot, pear).at(at.x, at.y, 0.85*size, size, 0), c)
		shine := one(rng, hex("#fffef8"), mixed(min(c.Value()+2.5, 9.8), c.Oklab().Hue(), 0.6*c.saturation())).paint()
		x, y := at.x-0.3*size, at.y+0.05*size
		r.fill(disc.at(x, y, 0.06*size, 0.2*size, 15), shine, alone)
		r.fill(disc.at(x+0.12*size, y-0.25*size, 0.04*size, 0.05*size, 0), shine, alone)
	}
}

// tints are a row of like things in lighter and darker colours of one hue, with gaps between
// and a line around each.
func (r *chance) tints() {
	rng := r.rng
	r.lines, r.line = 1+rng.IntN(2), max(r.line, 2)
	n := 3 + rng.IntN(4)
	s := one(rng, box, disc, jug, leaf, tower, star, drop)
	hue, saturation := between(rng, 0, 360), between(rng, 0.03, 0.2)
	wide := float64(r.width) / float64(n)
	rows := 1 + rng.IntN(2)
	for k := range n * rows {
		x, y := (float64(k%n)+0.5)*wide, (float64(k/n)+0.5)/float64(rows)*float64(r.height)
		size := 0.42 * min(wide, float64(r.height)/float64(rows))
		value := 9 - 6.5*float64((k+2*(k/n))%n)/float64(n-1)
		r.lined(s.at(x, y, 0.9*size, size, 0), mixed(value, hue, saturation))
	}
}

// emblem is an invented sign of a few flat parts.
func (r *chance) emblem() {
	rng := r.rng
	c := r.three()
	x, y, size := float64(r.width)/2, float64(r.height)/2, between(rng, 0.28, 0.42)*r.least()
	r.lined(one(rng, disc, box, rock(rng.Uint64(), 6)).at(x, y, size, size, between(rng, 0, 45)), c[0])
	r.lined(disc.at(x, y, 0.66*size, 0.66*size, 0), r.palette.used[0])
	n := 2 + rng.IntN(5)
	for k := range n {
		d := toward(360*float64(k)/float64(n) + 90)
		r.lined(one(rng, star, drop, box).at(x+0.36*size*d.x, y+0.36*size*d.y, 0.16*size, 0.18*size, 360*float64(k)/float64(n)), c[1+k%2])
	}
}

// atlas is a map: countries with borders, some in tints of one hue, and the sea.
func (r *chance) atlas() {
	rng := r.rng
	var colours []Colour
	for k := range 6 {
		hue := []float64{90, 90, 20, 150, 310, 60}[k]
		colours = append(colours, mixed(between(rng, 6.5, 9.4), hue+between(rng, -10, 10), between(rng, 0.05, 0.13)))
	}
	capitals, _, _ := r.cells(9+rng.IntN(12), 0.4)
	bend, seed := 0.06*r.least(), rng.IntN(1000)
	sea, border := mixed(8, 235, 0.07).paint(), hex("#4a4038").paint()
	for i := range r.pix {
		p := point{float64(i % r.width), float64(i / r.width)}
		p.x += bend * cloudAt(p.x, p.y, 3*bend, 3, seed)
		p.y += bend * cloudAt(p.x, p.y, 3*bend, 3, seed+9)
		nearest, first, second := 0, math.Inf(1), math.Inf(1)
		for k, c := range capitals {
			if d := math.Hypot(p.x-c.x, p.y-c.y); d < first {
				nearest, first, second = k, d, first
			} else if d < second {
				second = d
			}
		}
		switch {
		case second-first < max(r.line, 2):
			r.pix[i] = border
		case nearest%5 == 0:
			r.pix[i] = sea
		default:
			r.pix[i] = colours[nearest%len(colours)].paint()
		}
	}
}

// chart is a table of colours with gaps: hues across, values down.
func (r *chance) chart() {
	rng := r.rng
	columns, rows := 3+rng.IntN(6), 2+rng.IntN(5)
	cell := image.Pt(r.width/columns, r.height/rows)
	size := 0.42 * float64(min(cell.X, cell.Y))
	shape := one(rng, box, disc)
	start, saturation := between(rng, 0, 360), between(rng, 0.05, 0.2)
	for k := range columns * rows {
		x, y := (float64(k%columns)+0.5)*float64(cell.X), (float64(k/columns)+0.5)*float64(cell.Y)
		c := mixed(9-7*float64(k/columns)/float64(rows), start+360*float64(k%columns)/float64(columns), saturation)
		r.lined(shape.at(x, y, size, size, 0), c)
	}
}
