package scenetest

import (
	"image"
	"math"

	"app.tonedesk/analysis"
)

// Scene is a finished picture and what is true of it.
type Scene struct {
	Name     string
	Image    *image.RGBA // opaque
	Families []Truth     // none in a picture in which no family may be reported

	labels []uint8 // what each pixel is: see canvas
	family []int   // of each part
}

// Truth is a local colour that was painted with a light side and a shadow side. Its colours
// are means in linear light over the masks, of the picture before grain and JPEG.
type Truth struct {
	Name          string
	Light, Shadow Colour
	LightShare    float64 // of the picture's pixels, soft edges and lines left out
	ShadowShare   float64
	Accent        *Colour // nil if there is none
	Line          bool    // it has a line of its own
	TowardBlack   bool    // painted so: the shadow goes straight toward black

	Scored bool
	Why    string // why it isn't scored

	parts   []int // the forms that have this local colour
	between int   // pixels of half-tone between the sides, at most
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

// owner returns the family and the side that a label stands for; ok is false for none.
func (s *Scene) owner(label uint8) (family int, side Side, ok bool) {
	part := (int(label) - int(firstPart)) / 4
	if label < firstPart || part >= len(s.family) {
		return 0, 0, false
	}
	return s.family[part], Side((label - firstPart) % 4), true
}

// turn returns the Oklch hue turn from light to shadow, in degrees.
func (t Truth) turn() float64 { return turn(t.Light.Oklab().Hue(), t.Shadow.Oklab().Hue()) }

// gain returns the saturation gain.
func (t Truth) gain() float64 { return t.Shadow.saturation()/t.Light.saturation() - 1 }

// Tones returns how many tones apart the sides are.
func (t Truth) Tones() float64 { return t.Light.Value() - t.Shadow.Value() }

// How far from the limits of "toward black" a truth lies for it to be beyond doubt. The
// limits are C*ab 8, a gain of 0.05 and a turn of 8 degrees. A shadow that is the same
// light and less of it has no gain at all, and that is what the rule is meant for: below
// the gain's limit a margin of 0.04 is enough.
const (
	gainAbove, gainBelow = 0.15, 0.01
	turnAbove, turnBelow = 11, 5
	chromaAbove          = 10
	chromaBelow          = 6
)

// Clear reports whether the truth's colours bear out TowardBlack beyond doubt.
func (t Truth) Clear() bool {
	light, shadow := t.Light.Lab().Chroma(), t.Shadow.Lab().Chroma()
	turned := math.Abs(t.turn())
	if t.TowardBlack {
		return light >= chromaAbove && t.gain() <= gainBelow && (turned <= turnBelow || shadow <= chromaBelow)
	}
	return light <= chromaBelow || t.gain() >= gainAbove || (turned >= turnAbove && shadow >= chromaAbove)
}

// At returns of which family, by its index, and of which side of it a pixel is; ok is false for none.
func (s *Scene) At(x, y int) (family int, side Side, ok bool) {
	return s.owner(s.labels[y*s.Image.Rect.Dx()+x])
}
