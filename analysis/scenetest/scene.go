package scenetest

import (
	"image"
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

	parts   []int
	between int // pixels of half-tone between the sides, at most
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
	t.between = int(1.5 * f.coat.halfWide * f.outline.size()) // across it at a slant
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
	e.measure()
	e.measureCores()
	e.doubt()
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
