package analysis

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A remark is made where the layer grey's distance, in tones, is over half a tone from the
// lightness's; both limits as printed. Equal layer greys show no distance at all.
func TestRemarkLimits(t *testing.T) {
	tests := []struct {
		tones   float64
		verdict Verdict
		want    Remark
	}{
		{0, Same, NoRemark}, {0.54, Close, NoRemark}, {-0.54, Apart, NoRemark},
		{0.56, Close, HidesDifference}, {-0.56, Apart, HidesDifference}, {6, Apart, HidesDifference},
	}
	for _, tt := range tests {
		p := Pair{A: Spot{LayerGrey: 100}, B: Spot{LayerGrey: 100}, Tones: tt.tones, Verdict: tt.verdict}
		if got := p.LayerGreyRemark(); got != tt.want {
			t.Errorf("%g tones, %s: remark %d, want %d", tt.tones, tt.verdict, got, tt.want)
		}
	}
}

// A layer that turns a small difference round, at much the same distance, neither hides it
// nor shows a larger one.
func TestRemarkComparesDistances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := SpotOf(drawColour(t, "a")), SpotOf(drawColour(t, "b"))
		p := Compare(a, b, rapid.Float64Range(MinTolerance, MaxTolerance).Draw(t, "tolerance"))
		shown := math.Abs(Value(lightnessOfLayerGrey(b.LayerGrey)) - Value(lightnessOfLayerGrey(a.LayerGrey)))
		tones := math.Abs(p.Tones)
		switch p.LayerGreyRemark() {
		case ShowsDifference:
			if p.Verdict != Same || !(shown > 0.5) {
				t.Fatalf("%s, %.3f tones shown as %.3f", p.Verdict, tones, shown)
			}
		case HidesDifference:
			if p.Verdict == Same || !(tones > shown+0.5) {
				t.Fatalf("%s, %.3f tones shown as %.3f", p.Verdict, tones, shown)
			}
		}
	})
	// published lightness of both (srgb_to_lab_oklab's formulas) a third of a tone apart,
	// under layer greys a third of a tone the other way
	a, b := SpotOf(RGB{0x74, 0x59, 0x9a}), SpotOf(RGB{0x31, 0x7d, 0x46})
	if got := Compare(a, b, 2).LayerGreyRemark(); got != NoRemark {
		t.Errorf("a difference turned round: remark %d", got)
	}
}
