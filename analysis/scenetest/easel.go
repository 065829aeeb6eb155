package scenetest

import (
	"image"
	"math/rand/v2"
	"slices"
)

// easel is a scene in the making.
type easel struct {
	*canvas
	scene  *Scene
	light  point // the way to where the light comes from
	habits []habit
	finish finish
	seed   uint64 // of the grain
}

func newEasel(name string, size image.Point, degrees float64) *easel {
	return &easel{
		canvas: newCanvas(size.X, size.Y), scene: &Scene{Name: name}, light: toward(degrees),
		seed: uint64(size.X*7919 + size.Y),
	}
}

// part starts another form, of the family of a name, and returns its number.
func (e *easel) part(name string) (part int, t *Truth) {
	part = len(e.scene.family)
	if part >= (256-int(firstPart))/4 {
		panic("scenetest: too many forms")
	}
	f := slices.IndexFunc(e.scene.Families, func(t Truth) bool { return t.Name == name })
	if f < 0 {
		f = len(e.scene.Families)
		e.scene.Families = append(e.scene.Families, Truth{Name: name})
	}
	e.scene.family = append(e.scene.family, f)
	t = &e.scene.Families[f]
	t.parts = append(t.parts, part)
	return part, t
}

// add paints a form; forms of one family name share one Truth.
func (e *easel) add(f form) {
	part, t := e.part(f.family)
	e.paint(f, e.light, part)
	if len(t.parts) == 1 {
		t.Scored, t.TowardBlack, t.Line = true, f.coat.straight, f.line.width > 0
		t.between = int(1.5 * max(f.coat.halfWide, f.coat.soft) * f.outline.size()) // across it at a slant
	}
}

// done takes the truth and finishes the picture.
func (e *easel) done() *Scene {
	s := e.scene
	s.labels = e.label
	e.measure()
	e.doubt()
	s.Image = e.apply(e.finish, rand.New(rand.NewPCG(e.seed, 1)))
	return s
}

// layer lays one thing over what is painted already.
type layer func(e *easel)

// habit is something about how forms are painted.
type habit func(f *form)

// as paints a form of a local colour, with the picture's habits and some of its own.
func (l local) as(o outline, s shading, own ...habit) layer {
	return func(e *easel) {
		f := l.form(o, s)
		for _, h := range slices.Concat(e.habits, own) {
			h(&f)
		}
		e.add(f)
	}
}

// layers lays several things, one over the other.
func layers(all ...layer) layer {
	return func(e *easel) {
		for _, l := range all {
			l(e)
		}
	}
}

// flat is a form that is no family.
func flat(o outline, c Colour) layer {
	return func(e *easel) { e.fill(o, c.paint(), ground) }
}

// detail is something tiny that no one would judge.
func detail(o outline, c Colour) layer {
	return func(e *easel) { e.fill(o, c.paint(), unjudged) }
}

// stroke runs a pen along an outline.
func stroke(o outline, p pen) layer {
	return func(e *easel) { e.draw(o, p, unjudged) }
}

// thread runs a pen along a curve and back.
func thread(p pen, way ...point) layer {
	for _, q := range slices.Backward(way[:len(way)-1]) {
		way = append(way, q)
	}
	return stroke(way, p)
}

// likeFlats lays two flat things of like hue, the second over the first: whether they are
// one form's light and shadow or two forms is ambiguous, so that they aren't scored.
func likeFlats(name string, first outline, light Colour, second outline, dark Colour) layer {
	return func(e *easel) {
		part, t := e.part(name)
		t.Why = "flats of like hue that touch"
		e.fill(first, light.paint(), labelOf(part, Light))
		e.fill(second, dark.paint(), labelOf(part, Shadow))
	}
}

// black is a pen with black ink.
func black(width float64) pen { return pen{colour: hex("#161616"), width: width, vary: 0.3} }

// lined has a line around.
func lined(p pen) habit { return func(f *form) { f.line = p } }

// tinted has a line around of a darker, richer ink of the fill.
func tinted(width float64) habit {
	return func(f *form) { f.line = pen{colour: ink(f.coat.light, 3), width: width, vary: 0.3} }
}

// soft has a terminator so wide, as a share of the form's size.
func soft(share float64) habit { return func(f *form) { f.coat.soft = share } }

// stroked has brush strokes that lighten and darken by a share.
func stroked(share float64) habit { return func(f *form) { f.coat.strokes = share } }

// accented has a core-shadow accent as light as the shadow, its hue turned, more saturated.
func accented(degrees, gain, band float64) habit {
	return func(f *form) { f.coat.accent, f.coat.band = turned(f.coat.shadow, 0, degrees, gain), band }
}

// bright has a light that rises by tones, its saturation changed by a share.
func bright(tones, gain float64) habit {
	return func(f *form) {
		l := f.coat.light
		f.coat.bright = mixed(min(l.Value()+tones, 9.9), l.Oklab().Hue(), l.saturation()*(1+gain))
	}
}

// reflecting has a shadow that rises by tones on its far side, toward a hue in degrees.
func reflecting(tones, hue float64) habit {
	return func(f *form) {
		s := f.coat.shadow
		f.coat.reflected = mixed(s.Value()+tones, hue, max(s.saturation(), 0.03))
	}
}
