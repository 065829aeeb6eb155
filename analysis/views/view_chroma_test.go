package views

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
)

// vivid holds colours of every hue and chroma, one a pixel.
func vivid() analysis.Pixels {
	const side = 17
	p := analysis.Pixels{Pix: make([]byte, 4*side*side*side), Stride: 4 * side * side, Width: side * side, Height: side}
	for i := range side * side * side {
		at := func(n int) uint8 { return uint8(min(255, 16*n)) }
		analysistest.Set(p, i%p.Width, i/p.Width, colour.RGB{R: at(i % side), G: at(i / side % side), B: at(i / side / side)}, 255)
	}
	return p
}

// The grey's L* is the colour's C*ab, up to 100: half an 8-bit grey off at most, 0.26 L*, and
// a sixteenth, and what the light's last digit makes of a dark colour.
func TestChromaView(t *testing.T) {
	p := vivid()
	got := paintOf(t, p, "chroma", Look{})
	for i := 0; i < len(got); i += 4 {
		c := colour.RGB{R: p.Pix[i], G: p.Pix[i+1], B: p.Pix[i+2]}
		shown, want := analysis.SpotOf(colour.RGB{R: got[i], G: got[i+1], B: got[i+2]}).Lightness, min(100, analysis.SpotOf(c).Chroma)
		if !(math.Abs(shown-want) <= 0.26+1.0/16+0.1) || c.Neutral() && got[i] != 0 {
			t.Fatalf("%s of C*ab %g is painted L* %g", c.Hex(), want, shown)
		}
	}
}

// Every colour is painted at L* 60, with its own hue, and with its own chroma where the
// display can show that: a quarter off in a* and b* each and half an 8-bit code, which at
// this lightness is up to 0.8 in a* or b*.
func TestHueView(t *testing.T) {
	p := vivid()
	got := paintOf(t, p, "hue", Look{})
	limits := mostChroma(hueLightness)
	for i := 0; i < len(got); i += 4 {
		c, shown := colour.RGB{R: p.Pix[i], G: p.Pix[i+1], B: p.Pix[i+2]}, colour.RGB{R: got[i], G: got[i+1], B: got[i+2]}
		from := colour.LabOf(colour.Linear(c.R), colour.Linear(c.G), colour.Linear(c.B))
		to := colour.LabOf(colour.Linear(shown.R), colour.Linear(shown.G), colour.Linear(shown.B))
		part := 1.0
		if chroma := from.Chroma(); chroma > 0 {
			part = min(1, limits.at(from.Hue())/chroma)
		}
		off := math.Hypot(to.A-part*from.A, to.B-part*from.B)
		if !(math.Abs(to.L-hueLightness) < 0.4 && off < 1.2) || c.Neutral() && !shown.Neutral() {
			t.Fatalf("%s %v is painted %s %v", c.Hex(), from, shown.Hex(), to)
		}
	}
}

// What the display can show at L* 60 has a channel at one of its ends, and the least and the
// mean are as said.
func TestMostChroma(t *testing.T) {
	least, sum := math.Inf(1), 0.0
	for half, limit := range mostChroma(hueLightness) {
		sin, cos := math.Sincos(float64(half) / 2 * math.Pi / 180)
		r, g, b := colour.Lab{L: hueLightness, A: limit * cos, B: limit * sin}.Light()
		if low, high := min(r, g, b), max(r, g, b); !(low >= -1e-9 && high <= 1+1e-9 && (low < 1e-6 || high > 1-1e-6)) {
			t.Fatalf("hue %g, chroma %g: %g %g %g", float64(half)/2, limit, r, g, b)
		}
		least, sum = min(least, limit), sum+limit
	}
	if mean := sum / 721; math.Round(least) != 34 || math.Round(mean) != 64 {
		t.Errorf("least %g, mean %g", least, mean)
	}
}
