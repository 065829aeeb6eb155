package scenetest

import (
	"fmt"
	"hash/fnv"
	"image"
	"math"
	"math/rand/v2"
	"slices"
)

// kind is a kind of random scenes, in a table.
type kind struct {
	name  string
	paint func(r *chance)
}

// painted are the kinds that paint; the others are made of them.
var painted = []kind{
	{"flats beside", (*chance).flatsBeside},
	{"pale shadows", (*chance).paleShadows},
	{"coloured light", (*chance).colouredLight},
	{"tinted lines", (*chance).tintedLines},
	{"full bleed", (*chance).fullBleed},
	{"crowds", (*chance).crowds},
	{"narrow shadows", (*chance).narrowShadows},
	{"steps", (*chance).steps},
	{"gradients", (*chance).gradients},
	{"rough brush", (*chance).roughBrush},
	{"key", (*chance).key},
	{"nothing", (*chance).nothing},
	{"clouds", (*chance).clouds},
	{"layers", (*chance).layers},
}

var kinds = slices.Concat(painted, []kind{
	{"jpeg", (*chance).jpeg},
	{"workspace", (*chance).workspace},
})

// Kinds returns the names of the kinds of scenes that Kind paints.
func Kinds() (names []string) {
	for _, k := range kinds {
		names = append(names, k.name)
	}
	return names
}

var kindSizes = []image.Point{
	{480, 360}, {640, 480}, {600, 800}, {720, 540}, {800, 600}, {800, 600}, {900, 600}, {1280, 960},
}

// Kind paints a scene of a kind from a seed; nil if there is no such kind. Seeds are open
// and held out as those of Random. The same seed gives the same scene.
func Kind(name string, seed int) *Scene {
	i := slices.IndexFunc(kinds, func(k kind) bool { return k.name == name })
	if i < 0 {
		return nil
	}
	h := fnv.New64a()
	h.Write([]byte(name)) // so that the table's order doesn't matter
	rng := rand.New(rand.NewPCG(uint64(seed), h.Sum64()))
	size := kindSizes[rng.IntN(len(kindSizes))]
	r := &chance{easel: newEasel(fmt.Sprintf("%s %d", name, seed), size, between(rng, 20, 160)), rng: rng}
	r.seed = uint64(seed)
	r.habits()
	kinds[i].paint(r)
	r.finish = r.finishing()
	if r.crisp {
		r.finish.blur = 0
	}
	if r.quality > 0 {
		r.finish.quality = r.quality
	}
	return r.done().inside(r.around)
}

// least is the shorter side of the picture, in pixels.
func (r *chance) least() float64 { return float64(min(r.width, r.height)) }

// hard takes all from the painter's habits that softens or decorates.
func (r *chance) hard() {
	r.soft, r.glows, r.accents, r.lines, r.strokes = false, false, false, 0, 0
}

// one returns one of several.
func one[T any](rng *rand.Rand, of ...T) T { return of[rng.IntN(len(of))] }

// cells parts the picture into places for n things, row by row, jittered by a share of a
// cell's size.
func (r *chance) cells(n int, jitter float64) (middles []point, wide, high float64) {
	columns := max(1, int(0.5+math.Sqrt(float64(n)*float64(r.width)/float64(r.height))))
	rows := (n + columns - 1) / columns
	wide, high = float64(r.width)/float64(columns), float64(r.height)/float64(rows)
	for i := range n {
		middles = append(middles, point{
			(float64(i%columns) + 0.5 + between(r.rng, -jitter, jitter)) * wide,
			(float64(i/columns) + 0.5 + between(r.rng, -jitter, jitter)) * high,
		})
	}
	return middles, wide, high
}

// ruled is a local colour of which the trade's rule says whether it goes toward black.
func ruled(name string, light, shadow Colour) local {
	t := Truth{Light: light, Shadow: shadow}
	turned := t.turn()
	straight := light.Lab().Chroma() >= 8 && t.gain() <= 0.05 && (max(turned, -turned) < 8 || shadow.Lab().Chroma() < 8)
	return local{name, light, shadow, straight}
}

// lone lays a flat form that is nobody's partner.
func (r *chance) lone(o outline, c Colour) { r.fill(o, c.paint(), alone) }
