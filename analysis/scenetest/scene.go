package scenetest

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"

	"app.tonedesk/analysis"
)

// Scene is a finished picture and what is true of it.
type Scene struct {
	Name     string
	Image    *image.RGBA // opaque
	Families []Truth
	Empty    bool // a picture in which no family may be reported

	labels []uint8 // what each pixel is: see canvas
	owners [256]owned
}

// Truth is a local colour that was painted with a light side and a shadow side. Its colours
// are means in linear light over the masks, of the picture before grain and JPEG.
type Truth struct {
	Name          string
	Light, Shadow Colour
	LightShare    float64 // of the picture's pixels, soft edges and lines left out
	ShadowShare   float64
	Accent        *Colour // nil if there is none
	Line          *Colour // nil if it has no line of its own
	TowardBlack   bool    // painted so: the shadow goes straight toward black
	Parts         int     // how many forms have this local colour

	// LightCore and ShadowCore are means without the soft terminator: they tell how much
	// of a miss is a question of where the half-tone belongs.
	LightCore, ShadowCore Colour

	Scored bool
	Why    string // why it isn't scored

	parts []int
}

// Pixels returns the picture as the analysis takes it. It shares the scene's memory.
func (s *Scene) Pixels() analysis.Pixels {
	return analysis.Pixels{
		Pix: s.Image.Pix, Stride: s.Image.Stride,
		Width: s.Image.Rect.Dx(), Height: s.Image.Rect.Dy(), Layout: analysis.RGBA,
	}
}

// Side is one of a family's two sides, its accent or its line.
type Side uint8

const (
	Light Side = iota
	Shadow
	Accent
	Line
)

// Mask returns where a family's side is seen: 255 there, 0 elsewhere.
func (s *Scene) Mask(family int, side Side) *image.Alpha {
	mask := image.NewAlpha(s.Image.Rect)
	for i, l := range s.labels {
		if f, is, ok := s.owner(l); ok && f == family && is == side {
			mask.Pix[i] = 255
		}
	}
	return mask
}

// owned says what a label stands for.
type owned struct {
	family int
	side   Side
	ok     bool // it is of a family
}

// owner returns the family and the side that a label stands for.
func (s *Scene) owner(label uint8) (family int, side Side, ok bool) {
	o := &s.owners[label]
	return o.family, o.side, o.ok
}

// own fills the table of owners.
func (s *Scene) own() {
	for f, t := range s.Families {
		for _, part := range t.parts {
			for side := Light; side <= Line; side++ {
				s.owners[firstPart+uint8(4*part)+uint8(side)] = owned{f, side, true}
			}
		}
	}
}

// easel is a scene in the making.
type easel struct {
	*canvas
	scene  *Scene
	finish finish
	seed   uint64
}

func newEasel(name string, width, height int) *easel {
	return &easel{canvas: newCanvas(width, height), scene: &Scene{Name: name}, seed: uint64(width*7919 + height)}
}

// add paints a form; forms of one family name share one Truth.
func (e *easel) add(f form) {
	part := e.parts
	e.parts++
	if e.parts > (256-int(firstPart))/4 {
		panic("scenetest: too many forms")
	}
	e.paint(f, part)
	for i := range e.scene.Families {
		if t := &e.scene.Families[i]; t.Name == f.family {
			t.parts = append(t.parts, part)
			t.Parts++
			return
		}
	}
	t := Truth{Name: f.family, TowardBlack: f.coat.straight, Parts: 1, Scored: f.why == "", Why: f.why, parts: []int{part}}
	if f.line != nil {
		ink := f.line.colour
		t.Line = &ink
	}
	e.scene.Families = append(e.scene.Families, t)
}

// likeFlats lays two flat things of like hue, the second over the first: whether they are
// one form's light and shadow or two forms is ambiguous, so that they aren't scored.
func (e *easel) likeFlats(name string, first outline, light Colour, second outline, dark Colour) {
	part := e.parts
	e.parts++
	e.fill(first, light.paint(), partLight+uint8(4*part))
	e.fill(second, dark.paint(), partShadow+uint8(4*part))
	e.scene.Families = append(e.scene.Families, Truth{Name: name, Parts: 1, Why: "flats of like hue that touch", parts: []int{part}})
}

// done takes the truth and finishes the picture.
func (e *easel) done() *Scene {
	s := e.scene
	s.labels = e.label
	s.own()
	for i := range s.Families {
		e.measure(i)
	}
	s.Image = e.apply(e.finish, rand.New(rand.NewPCG(e.seed, 1)))
	return s
}

// empty finishes a picture that has no families.
func (e *easel) empty() *Scene {
	e.scene.Empty = true
	return e.done()
}

// leastShare is the least that a scored side takes of the picture.
const leastShare = 0.012

// measure fills in what a truth's masks say.
func (e *easel) measure(family int) {
	t := &e.scene.Families[family]
	var sum [4]mean3
	for i, l := range e.label {
		if f, side, ok := e.scene.owner(l); ok && f == family {
			sum[side].add(e.pix[i])
		}
	}
	n := float64(len(e.label))
	t.Light, t.Shadow = sum[Light].colour(), sum[Shadow].colour()
	t.LightShare, t.ShadowShare = float64(sum[Light].count)/n, float64(sum[Shadow].count)/n
	t.LightCore, t.ShadowCore = e.core(family, t.Light, t.Shadow)
	if sum[Accent].count > 0 {
		c := sum[Accent].colour()
		t.Accent = &c
	}
	if least := min(t.LightShare, t.ShadowShare); t.Scored && least < leastShare {
		t.Scored, t.Why = false, fmt.Sprintf("only %.1f %% of the picture shows of a side", 100*least)
	}
	if edge := e.commonEdge(family); t.Scored && edge < leastEdge {
		t.Scored, t.Why = false, fmt.Sprintf("hardly an edge between light and shadow shows: %.1f", edge)
	}
}

// core returns the means of the lighter three quarters of the light and the darker three
// quarters of the shadow, by the place between the two sides' lightness.
func (e *easel) core(family int, light, shadow Colour) (Colour, Colour) {
	top, bottom := light.Lab().L, shadow.Lab().L
	var lit, dim mean3
	for i, l := range e.label {
		f, side, ok := e.scene.owner(l)
		if !ok || f != family || side > Shadow {
			continue
		}
		at := (e.pix[i].lightness() - bottom) / max(top-bottom, 1)
		switch {
		case side == Light && at > 0.75:
			lit.add(e.pix[i])
		case side == Shadow && at < 0.25:
			dim.add(e.pix[i])
		}
	}
	return lit.colour(), dim.colour()
}

// leastEdge is the least length of the edge between light and shadow, over the root of the
// smaller side's area: a square on the ground of another has 1 with one side on the edge.
const leastEdge = 0.8

// commonEdge counts the steps from light to shadow along rows and columns, over at most a
// band of the accent's width, against the root of the smaller side.
func (e *easel) commonEdge(family int) float64 {
	t := &e.scene.Families[family]
	reach := max(6, max(e.width, e.height)/16)
	if t.Accent == nil {
		reach = 6
	}
	side := make([]int8, len(e.label)) // 1 light, 2 shadow, 3 may be crossed
	for i, l := range e.label {
		if l == unjudged {
			side[i] = 3
		}
		if f, is, ok := e.scene.owner(l); ok && f == family {
			side[i] = [4]int8{1, 2, 3, 0}[is]
		}
	}
	run := func(length, step, first int) (edges int) {
		last, since := int8(0), 0
		for i := range length {
			switch now := side[first+i*step]; {
			case now == 3:
				since++
			case now == 0 || since > reach:
				last, since = now, 0
			default:
				if last != 0 && last != now {
					edges++
				}
				last, since = now, 0
			}
		}
		return edges
	}
	rows, columns := 0, 0
	for y := range e.height {
		rows += run(e.width, 1, y*e.width)
	}
	for x := range e.width {
		columns += run(e.height, e.width, x)
	}
	smaller := min(t.LightShare, t.ShadowShare) * float64(len(e.label))
	return math.Hypot(float64(rows), float64(columns)) / math.Sqrt(max(smaller, 1))
}

// mean3 averages paint in linear light.
type mean3 struct {
	red, green, blue float64
	count            int
}

func (m *mean3) add(p paint) {
	m.red += analysis.LinearOf(float64(p[0]))
	m.green += analysis.LinearOf(float64(p[1]))
	m.blue += analysis.LinearOf(float64(p[2]))
	m.count++
}

func (m *mean3) colour() Colour {
	n := float64(max(m.count, 1))
	return Colour{m.red / n, m.green / n, m.blue / n}
}

func (p paint) lightness() float64 {
	return analysis.Lightness(analysis.Luminance(
		analysis.LinearOf(float64(p[0])), analysis.LinearOf(float64(p[1])), analysis.LinearOf(float64(p[2]))))
}
