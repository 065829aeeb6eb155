package main

import (
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
)

func TestStagesAreWhatTheGeneratorPaints(t *testing.T) {
	for _, st := range stages {
		f, err := os.Open(filepath.Join("..", st.path()))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		m, err := png.Decode(f)
		if err != nil {
			t.Fatal(err)
		}
		same(t, st.path(), m, paintStage(st))
	}
}

// read reads one colour.
func read(c color.NRGBA) analysis.Spot { return analysis.SpotOf(colour.RGB{R: c.R, G: c.G, B: c.B}) }

// The README says of each stage how many tones its shadows lie below their lights.
func TestStagesLieAsManyTonesApartAsTheReadmeSays(t *testing.T) {
	tones := map[string]float64{"1-flats": 0, "2-too-dark": 4, "3-two-tones": 2, "4-rich": 2}
	for _, st := range stages {
		for name, f := range map[string]family{"skin": skin, "hair": hair, "coat": coat, "scarf": scarf, "leaf": leaf} {
			light, shadow := read(mix(f.light)).Value, read(st.shadow(f)).Value
			if got := light - shadow; math.Abs(got-tones[st.name]) > 2*valueTol {
				t.Errorf("%s, %s: %.3f tones from light to shadow, want %g", st.name, name, got, tones[st.name])
			}
		}
	}
}

// The rich shadows are what the page Colours proposes, so that a painter who follows the
// README finds them there.
func TestRichShadowsAreProposed(t *testing.T) {
	for name, f := range map[string]family{"skin": skin, "hair": hair, "coat": coat, "scarf": scarf, "leaf": leaf} {
		shades := propose.Shade(read(mix(f.light)), propose.DefaultOptions())
		if got, want := read(proposed[f.light]).Colour, shades.Ramp[justRight-1].Spot.Colour; got != want {
			t.Errorf("%s: shadow %v, proposed is %v", name, got, want)
		}
	}
	lines := propose.Shade(read(mix(scarf.light)), propose.DefaultOptions()).Lines
	if got, want := read(scarfLine).Colour, lines[len(lines)-1].Spot.Colour; got != want {
		t.Errorf("the scarf's line is %v, proposed is %v", got, want)
	}
}
