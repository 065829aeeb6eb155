package reduce

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
)

// A pixel of any space is reduced to light of sRGB of its own lightness; where sRGB can show it,
// also of its own chroma. 16 bits of light are 0.014 L* apart near black (CIE15).
func TestReduceKeepsTheLightnessOfEverySpace(t *testing.T) {
	r := New()
	defer r.Close()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(colour.Spaces()).Draw(t, "space")
		c := colour.RGB{R: rapid.Byte().Draw(t, "r"), G: rapid.Byte().Draw(t, "g"), B: rapid.Byte().Draw(t, "b")}
		p := analysis.Pixels{Pix: []byte{c.R, c.G, c.B, 255}, Stride: 4, Width: 1, Height: 1, Space: s}
		linear := r.Reduce(p, 1, 1, nil).Linear
		red, green, blue := s.LightOfCode(c)
		own := [3]float64{red, green, blue}
		var made [3]float64
		inside := true
		for i, v := range linear {
			made[i] = float64(v) / fixed.LinearWhite
			inside = inside && own[i] >= 0 && own[i] <= 1
		}
		y, want := colour.Luminance(made[0], made[1], made[2]), colour.Luminance(red, green, blue)
		if math.Abs(y-want) > 1.5/fixed.LinearWhite {
			t.Errorf("%v of %s has the luminance %.6f, want %.6f", c, s.Name, y, want)
		}
		for i := range made {
			if inside && math.Abs(made[i]-own[i]) > 3.0/fixed.LinearWhite { // rounded twice, through a matrix
				t.Errorf("%v of %s is %v, want %v", c, s.Name, made, own)
			}
		}
	})
}
