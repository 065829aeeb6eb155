package scenetest

import "math"

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
