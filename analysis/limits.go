package analysis

import "app.tonedesk/analysis/colour"

// Limits bound the lightness that still shows: what is darker than Dark sinks into black,
// what is lighter than Light burns into white, on many a display and in print. L*.
type Limits struct{ Dark, Light float64 }

// DefaultLimits are where the straight piece of L* ends, and near white (common practice,
// no source).
var DefaultLimits = Limits{Dark: 8, Light: 97}

// Limits returns the shares of the counted pixels, 0 to 1, that are darker than l.Dark and
// lighter than l.Light, by the histogram's bins: within 0.2 L* of the limits. NaN if no
// pixel was counted.
func (r *Reading) Limits(l Limits) (dark, light float64) {
	darkUnder, lightFrom := l.Bins()
	counted := float64(r.Counted)
	return float64(countOf(r.Histogram[:darkUnder])) / counted, float64(countOf(r.Histogram[lightFrom:])) / counted
}

// Bins returns the limits as bins: those under darkUnder are too dark, those from lightFrom
// on too light. A limit that is not a number bounds nothing.
func (l Limits) Bins() (darkUnder, lightFrom int) {
	for darkUnder < 256 && colour.LightnessOfBins(darkUnder, 1) < l.Dark {
		darkUnder++
	}
	for lightFrom = 256; lightFrom > 0 && colour.LightnessOfBins(lightFrom-1, 1) > l.Light; {
		lightFrom--
	}
	return darkUnder, lightFrom
}
