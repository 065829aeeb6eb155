package propose

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
)

// Whatever the factors, there is a colour of the lightness of the light that they leave, within
// what every proposed colour keeps (promiseWithin); and where the display has that light, it lies
// next to the code that plain rounding gives.
func TestUnderKeepsTheLight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := analysis.SpotOf(analysistest.DrawColour(t, "base"))
		factor := rapid.Float64Range(0, 3)
		f := [3]float64{factor.Draw(t, "red"), factor.Draw(t, "green"), factor.Draw(t, "blue")}
		c := base.Colour
		r, g, b := f[0]*colour.Linear(c.R), f[1]*colour.Linear(c.G), f[2]*colour.Linear(c.B)
		s := Under(base, f[0], f[1], f[2])
		want := colour.Lightness(min(colour.Luminance(r, g, b), 1))
		if s.Spot == nil || !(math.Abs(s.Spot.Lightness-want) <= promiseWithin+1e-6) || math.Abs(base.Value-s.Spot.Value-s.Tones) > 1e-9 {
			t.Fatalf("%s under %v: %+v, want L* %g", c.Hex(), f, s, want)
		}
		if max(r, g, b) > 1 {
			if s.Note != AtEdge {
				t.Fatalf("%s under %v is %s, without a word", c.Hex(), f, s.Spot.Colour.Hex())
			}
			return
		}
		for i, light := range [3]float64{r, g, b} {
			code := [3]uint8{s.Spot.Colour.R, s.Spot.Colour.G, s.Spot.Colour.B}[i]
			if off := math.Abs(float64(code) - 255*colour.EncodedOf(light)); off > 3.5 {
				t.Fatalf("%s under %v: channel %d is %d, off by %g", c.Hex(), f, i, code, off)
			}
		}
	})
}

// What stays as it is, and what has no room.
func TestUnderAtTheEnds(t *testing.T) {
	skin, black, white := colour.RGB{R: 0xe2, G: 0xab, B: 0x85}, colour.RGB{}, colour.RGB{R: 255, G: 255, B: 255}
	for _, tt := range []struct {
		source  string
		base    colour.RGB
		r, g, b float64
		want    colour.RGB
		note    Note
	}{
		{"one light", skin, 1, 1, 1, skin, AsMade},
		{"no light", skin, 0, 0, 0, black, AsMade},
		{"black sends nothing back", black, 3, 3, 3, black, AsMade},
		{"more than white", white, 2, 2, 2, white, AtEdge},
	} {
		if s := Under(analysis.SpotOf(tt.base), tt.r, tt.g, tt.b); s.Spot.Colour != tt.want || s.Note != tt.note {
			t.Errorf("%s: %s %q, want %s %q", tt.source, s.Spot.Colour.Hex(), s.Note, tt.want.Hex(), tt.note)
		}
	}
}
