package analysis

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// Verdict says how far apart two spots are in lightness.
type Verdict string

const (
	Same  Verdict = "same"  // up to the tolerance
	Close Verdict = "close" // up to half a tone
	Apart Verdict = "apart"
)

// The verdict's limits, in L*.
const (
	DefaultTolerance = 2.0 // common practice, no source
	MinTolerance     = 0.5
	MaxTolerance     = 5.0
	closeUpTo        = 5.0 // half a tone: L* is 10 V within 1.06 (D1535)
)

// Pair is the comparison of two spots. Differences are b minus a.
type Pair struct {
	A Spot `json:"a"`
	B Spot `json:"b"`

	LightnessDifference float64 `json:"lightness_difference"`  // L*
	Tones               float64 `json:"tones"`                 // value steps
	LayerGreyDifference float64 `json:"layer_grey_difference"` // -255 to 255
	CIEDE2000           float64 `json:"ciede2000"`
	Verdict             Verdict `json:"verdict"`
}

// Compare returns the comparison of two spots; tolerance, in L*, is cut to 0.5 to 5. The
// verdict compares the difference as it is printed, with one decimal; a limit belongs to
// the nearer verdict.
func Compare(a, b Spot, tolerance float64) Pair {
	p := Pair{
		A: a, B: b,
		LightnessDifference: b.Lightness - a.Lightness,
		Tones:               b.Value - a.Value,
		LayerGreyDifference: b.LayerGrey - a.LayerGrey,
		CIEDE2000:           colour.CIEDE2000(a.Lab, b.Lab),
		Verdict:             Apart,
	}
	if !(tolerance >= MinTolerance) {
		tolerance = MinTolerance
	}
	switch d := AsPrinted(math.Abs(p.LightnessDifference)); {
	case d <= min(tolerance, MaxTolerance):
		p.Verdict = Same
	case d <= closeUpTo:
		p.Verdict = Close
	}
	return p
}

// AsPrinted returns a number as it is printed, with one decimal. Limits compare numbers as
// printed, so that what is said never contradicts what is shown.
func AsPrinted(v float64) float64 { return math.Round(10*v) / 10 }

// Remark is how a grey layer would mislead about a pair.
type Remark uint8

const (
	NoRemark        Remark = iota
	ShowsDifference        // equally light, but shown as different greys
	HidesDifference        // different in lightness, but shown as nearly equal greys
)

// remarkFrom is the disagreement, in tones, from above which a remark is made: half a tone
// (common practice, no source).
const remarkFrom = 0.5

// LayerGreyRemark compares what a grey layer would show, turned into value, with the
// lightness: a remark is made where the two distances differ by more than half a tone.
func (p Pair) LayerGreyRemark() Remark {
	shown := colour.Value(p.B.Space.GreyLightness(p.B.LayerGrey)) - colour.Value(p.A.Space.GreyLightness(p.A.LayerGrey))
	if AsPrinted(math.Abs(math.Abs(shown)-math.Abs(p.Tones))) <= remarkFrom {
		return NoRemark
	}
	switch {
	case p.Verdict == Same:
		return ShowsDifference
	case AsPrinted(math.Abs(shown)) <= remarkFrom:
		return HidesDifference
	}
	return NoRemark
}
