package scenetest

import (
	"fmt"
	"image"
	"math/rand/v2"
)

// The seeds of Random. Those held out are never to be tuned on: a finder may be tried on
// them, its rules and limits may not be changed because of what they show.
const (
	FirstOpen, LastOpen       = 1, 40
	FirstHeldOut, LastHeldOut = 1001, 1040
)

var sizes = []image.Point{
	{320, 240}, {480, 640}, {640, 480}, {640, 480}, {800, 600}, {1024, 768}, {720, 1080}, {1280, 720}, {1280, 720}, {1920, 1080},
}

// Random paints a scene from a seed: one to nine families in a mixture of all that the
// named scenes have. The same seed gives the same scene.
func Random(seed int) *Scene {
	rng := rand.New(rand.NewPCG(uint64(seed), 7))
	size := sizes[rng.IntN(len(sizes))]
	r := &chance{
		easel: newEasel(fmt.Sprintf("seed %d", seed), size, between(rng, 20, 160)), rng: rng,
	}
	r.seed = uint64(seed)
	r.habits()
	r.backdrop()
	r.things()
	r.finish = r.finishing()
	return r.done()
}

// chance is a scene that is made up as it goes.
type chance struct {
	*easel
	rng     *rand.Rand
	palette palette
	dark    Colour // of the ground in a cast shadow

	// habits of the painter
	soft             bool // soft edges
	lines            int  // 0 none, 1 black, 2 tinted, 3 in one ink
	ink              Colour
	line, gaps, vary float64 // of the lines
	accents          bool
	glows            bool // reflected light, and light that rises
	casts            bool
	strokes          float64
	crisp            bool                              // what is painted is too small to be blurred
	quality          int                               // JPEG that it must have; 0 for whatever comes
	around           frame                             // what lies around the picture
	lightOf          func(local) point                 // the way to a form's light; nil for that of all
	sided            func(o outline, kind int) shading // how a kind is shaded otherwise; nil for as always
	closest          float64                           // fewest tones between two sides in the picture
}

func (r *chance) habits() {
	rng := r.rng
	r.soft = perhaps(rng, 0.5)
	r.lines = [...]int{0, 0, 1, 1, 2, 2, 0}[rng.IntN(7)]
	if r.soft && perhaps(rng, 0.5) {
		r.lines = 0
	}
	r.line = max(1.5, between(rng, 0.003, 0.011)*float64(min(r.width, r.height)))
	r.vary = between(rng, 0, 0.5)
	if perhaps(rng, 0.25) {
		r.gaps = between(rng, 0.05, 0.2)
	}
	r.accents = perhaps(rng, 0.3)
	r.glows = r.soft && perhaps(rng, 0.5)
	r.casts = perhaps(rng, 0.35)
	if r.soft && perhaps(rng, 0.4) {
		r.strokes = between(rng, 0.01, 0.035)
	}
	r.palette = palette{rng: rng, low: 4.6, top: 8.8}
	switch rng.IntN(6) {
	case 0:
		r.palette.low, r.palette.top = 7, 9.5
	case 1:
		r.palette.low, r.palette.top = 3, 6
	}
	r.closest = 9
}

// backdrop lays the ground.
func (r *chance) backdrop() {
	rng, p := r.rng, &r.palette
	base := p.backdrop([...]float64{9.4, 8.5, 7, 5, 3, 1.5}[rng.IntN(6)])
	switch rng.IntN(5) {
	case 0, 1:
		r.ground(plain(base))
	case 2:
		r.ground(fade(base, p.near(base, between(rng, -1.6, 1.6)), between(rng, 0, 360)))
	case 3:
		r.ground(glow(base, p.near(base, between(rng, -1.6, 1.6))))
	case 4:
		r.ground(mottled(base, between(rng, 0.03, 0.1), rng.IntN(1000)))
	}
	r.dark = mixed(max(base.Value()-1.6, 0.3), base.Oklab().Hue(), base.saturation())
	if r.casts {
		p.used = append(p.used, r.dark)
	}
}

// finishing picks what happens after painting. Grain stays well below the smallest step
// between a light and its shadow: a tone is about 25 codes.
func (r *chance) finishing() (f finish) {
	rng := r.rng
	if perhaps(rng, 0.45) {
		f.grain = min(between(rng, 1.5, 9), 25*r.closest/3)
		f.clump = [...]float64{0, 0, 0.7, 1.5}[rng.IntN(4)]
		f.colour = perhaps(rng, 0.3)
	}
	if perhaps(rng, 0.15) {
		f.weave = min(between(rng, 2, 6), 25*r.closest/4)
	}
	if perhaps(rng, 0.15) {
		f.blur = between(rng, 0.4, 0.9)
	}
	if perhaps(rng, 0.35) {
		f.quality = 60 + rng.IntN(36)
	}
	return f
}
