package scenetest

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
)

// Along is a picture of forms whose accents and lines run along a known part of them.
type Along struct {
	*Scene
	Forms []Stretched
}

// Stretched is a form and what is true along its edge and its outline.
type Stretched struct {
	Family      string
	X, Y        float64 // its middle, in parts of the picture's width and height
	AccentShare float64 // of the edge between light and shadow
	LeavesShare float64 // of that edge: the accent there is darker than the shadow
	Darker      float64 // L* by which it is
	Line        Colour
	LineShare   float64 // of the outline
	// Lifted is the middle of where the pen was lifted, in parts of the picture's width and height;
	// nil for nowhere.
	Lifted *[2]float64
}

// How many forms have no accent, and no line.
const (
	bareOnes    = 0.3
	unlinedOnes = 0.25
)

// Edges paints four forms of three local colours from a seed: two of them share a local colour, and
// each has a line of its own colour. Seeds are open and held out as those of Random. The same seed
// gives the same scene.
func Edges(seed int) *Along {
	rng := rand.New(rand.NewPCG(uint64(seed), 23))
	size := kindSizes[rng.IntN(len(kindSizes))]
	r := &chance{easel: newEasel(fmt.Sprintf("edges %d", seed), size, between(rng, 0, 360)), rng: rng}
	r.seed = uint64(seed)
	r.palette = palette{rng: rng, low: 6, top: 8.4}
	r.ground(plain(r.palette.backdrop(9.2)))
	s := &Along{}
	var locals []local
	for n := range 3 {
		if l, ok := r.accentable(n + 1); ok {
			locals = append(locals, l)
		}
	}
	for i := range 4 {
		if len(locals) > 0 {
			s.Forms = append(s.Forms, r.stretched(locals[max(0, i-1)%len(locals)], i))
		}
	}
	if perhaps(rng, 0.5) {
		r.finish.grain = between(rng, 1.5, 5)
	}
	if perhaps(rng, 0.3) {
		r.finish.quality = 75 + rng.IntN(21)
	}
	s.Scene = r.done()
	return s
}

// accentable makes a local colour that has room for an accent: two to three tones apart, and
// neither side too rich to be exceeded.
func (r *chance) accentable(n int) (local, bool) {
	r.palette.mix = func(p *palette, name string) local {
		light := mixed(between(p.rng, p.low, p.top), between(p.rng, 0, 360), between(p.rng, 0.06, 0.14))
		return local{name, light, turned(light, between(p.rng, 1.8, 3), between(p.rng, -25, 25), between(p.rng, 0.1, 0.4)), false}
	}
	return r.palette.local(n)
}

// stretched paints form i of a local colour.
func (r *chance) stretched(l local, i int) Stretched {
	rng := r.rng
	cell := image.Pt(r.width/2, r.height/2)
	x, y := (float64(i%2)+0.5)*float64(cell.X), (float64(i/2)+0.5)*float64(cell.Y)
	half := between(rng, 0.3, 0.4)
	o := lump(rng.Uint64(), 9, 0.15).at(x, y, half*float64(cell.X), half*float64(cell.Y), 0)
	f := l.form(o, plane(between(rng, -0.1, 0.1)*o.size(), 0.02*o.size(), 4))
	f.coat.soft = 0
	truth := Stretched{Family: l.name, X: x / float64(r.width), Y: y / float64(r.height)}
	along := r.accentAlong(&f, &truth).over(o, r.light)
	r.lineAlong(&f, &truth)
	f.coat.own = func(at shade, size float64) func(p point) (paint, uint8) {
		bare, kept, left := f.coat, f.coat, f.coat
		bare.band = 0
		left.accent = along.dark
		looks := [3]look{newLook(bare, size), newLook(kept, size), newLook(left, size)}
		return func(p point) (paint, uint8) { return looks[along.at(p)].at(p, at(p)) }
	}
	r.count(&truth, f, along)
	r.add(f)
	return truth
}

// accentRun says where along an edge an accent runs, in parts of the form's width across the light.
type accentRun struct {
	from, to    float64 // that it has one
	leave, back float64 // that it is too dark
	dark        Colour

	light     point
	low, high float64 // of the outline, across the light
}

// over is the same of an outline in a light.
func (a accentRun) over(o outline, light point) accentRun {
	a.light, a.low, a.high = light, math.Inf(1), math.Inf(-1)
	for _, q := range o {
		a.low, a.high = min(a.low, a.across(q)), max(a.high, a.across(q))
	}
	return a
}

func (a *accentRun) across(p point) float64 { return p.y*a.light.x - p.x*a.light.y }

// at returns 0 for no accent, 1 for one that keeps the lightness of the shadow, 2 for one that
// leaves it.
func (a *accentRun) at(p point) int {
	v := (a.across(p) - a.low) / (a.high - a.low)
	switch {
	case v < a.from || v >= a.to:
		return 0
	case v >= a.leave && v < a.back:
		return 2
	}
	return 1
}

// accentAlong chooses where a form's accent runs.
func (r *chance) accentAlong(f *form, s *Stretched) (a accentRun) {
	rng := r.rng
	if perhaps(rng, bareOnes) {
		return a
	}
	a.from = between(rng, -0.1, 0.35)
	a.to = a.from + between(rng, 0.3, 1.2)
	l := local{light: f.coat.light, shadow: f.coat.shadow}
	f.coat.band = between(rng, 0.03, 0.06)
	for range 60 {
		f.coat.accent = turned(f.coat.shadow, 0, between(rng, -50, 50), between(rng, 0.3, 0.9))
		if l.standsOut(f.coat.accent, 2.2) && min(f.coat.accent.apart(l.shadow), f.coat.accent.apart(l.light)) > 18 {
			break
		}
		f.coat.accent = f.coat.shadow
	}
	if f.coat.accent == f.coat.shadow {
		f.coat.band = 0
		return accentRun{}
	}
	if perhaps(rng, 0.5) {
		a.leave = between(rng, 0.3, 0.5)
		a.back = a.leave + between(rng, 0.15, 0.3)
	}
	c := f.coat.accent
	a.dark = mixed(c.Value()-between(rng, 0.6, 1), c.Oklab().Hue(), c.saturation())
	s.Darker = f.coat.shadow.Lab().L - a.dark.Lab().L
	return a
}

// lineAlong chooses a form's line and where the pen was lifted.
func (r *chance) lineAlong(f *form, s *Stretched) {
	rng := r.rng
	if perhaps(rng, unlinedOnes) {
		return
	}
	c := ink(f.coat.light, between(rng, 3.5, 4.5))
	s.Line = mixed(c.Value(), between(rng, 0, 360), max(c.saturation(), 0.15))
	f.line = pen{colour: s.Line, width: max(2, 0.006*float64(min(r.width, r.height)))}
	s.LineShare = 1
	if perhaps(rng, 0.7) {
		from := between(rng, 0, 0.7)
		f.line.lifted = [2]float64{from, from + between(rng, 0.1, 0.3)}
		at := f.outline[int((f.line.lifted[0]+f.line.lifted[1])/2*float64(len(f.outline)))]
		s.Lifted = &[2]float64{at.x / float64(r.width), at.y / float64(r.height)}
	}
	whole, drawn := 0.0, 0.0
	for i, p := range f.outline {
		q := f.outline[(i+1)%len(f.outline)]
		d := math.Hypot(q.x-p.x, q.y-p.y)
		if whole += d; !f.line.isLifted(float64(i) / float64(len(f.outline))) {
			drawn += d
		}
	}
	s.LineShare = drawn / whole
}

// count counts how much of a form's edge has its accent.
func (r *chance) count(s *Stretched, f form, a accentRun) {
	at, b := f.shading(f.outline, r.light), f.outline.bounds()
	var n [3]float64
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			p := point{float64(x) + 0.5, float64(y) + 0.5}
			if math.Abs(at(p)) < 1 && f.outline.inside(p) > 0 {
				n[a.at(p)]++
			}
		}
	}
	if all := n[0] + n[1] + n[2]; all > 0 && f.coat.band > 0 {
		s.AccentShare, s.LeavesShare = (n[1]+n[2])/all, n[2]/all
	}
}
