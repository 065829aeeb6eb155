package analysis

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
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
		shown := math.Abs(colour.Value(colour.LightnessOfLayerGrey(b.LayerGrey)) - colour.Value(colour.LightnessOfLayerGrey(a.LayerGrey)))
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
	a, b := SpotOf(colour.RGB{R: 0x74, G: 0x59, B: 0x9a}), SpotOf(colour.RGB{R: 0x31, G: 0x7d, B: 0x46})
	if got := Compare(a, b, 2).LayerGreyRemark(); got != NoRemark {
		t.Errorf("a difference turned round: remark %d", got)
	}
}

// pairOf returns a pair of two values, shown by a grey layer as two other values.
func pairOf(a, b, shownA, shownB float64) Pair {
	spot := func(value, shown float64) Spot {
		y := colour.YOfValue(value)
		return Spot{Lightness: colour.Lightness(y), Value: value, LayerGrey: 255 * colour.EncodedOf(colour.YOfValue(shown)), Lab: colour.Lab{L: colour.Lightness(y)}}
	}
	return Compare(spot(a, shownA), spot(b, shownB), DefaultTolerance)
}

// A remark is made where a grey layer is more than half a tone, as printed, from the truth,
// and in one direction or the other.
func TestLayerGreyRemarkLimits(t *testing.T) {
	tests := []struct {
		name                 string
		a, b, shownA, shownB float64
		want                 Remark
	}{
		{"as it is", 5, 7, 5, 7, NoRemark},
		{"both darker, as far apart", 5, 7, 3, 5, NoRemark},
		{"equal, shown half a tone apart", 5, 5, 5, 5.54, NoRemark},
		{"equal, shown more apart", 5, 5, 5, 5.56, ShowsDifference},
		{"equal, shown more apart the other way", 5, 5, 5.56, 5, ShowsDifference},
		{"nearly equal, shown further apart", 5, 5.1, 5, 5.7, ShowsDifference},
		{"two tones, hidden", 5, 7, 4, 4, HidesDifference},
		{"two tones, shown as half a tone", 5, 7, 4, 4.54, HidesDifference},
		{"two tones, shown as more than half a tone", 5, 7, 4, 4.56, NoRemark},
		{"half a tone, hidden", 5, 5.54, 4, 4, NoRemark},
		{"a little more, hidden", 5, 5.56, 4, 4, HidesDifference},
		{"the other way round, hidden", 7, 5, 4, 4.2, HidesDifference},
	}
	for _, tt := range tests {
		if got := pairOf(tt.a, tt.b, tt.shownA, tt.shownB).LayerGreyRemark(); got != tt.want {
			t.Errorf("%s: remark %d, want %d", tt.name, got, tt.want)
		}
	}
}
