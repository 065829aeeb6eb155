package light

import (
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Ratio is what is left of the light in the shadow: a factor for each channel of linear light,
// above 0.
type Ratio struct {
	Red   float64 `json:"red"`
	Green float64 `json:"green"`
	Blue  float64 `json:"blue"`
}

// channels returns the three factors.
func (r Ratio) channels() [3]float64 { return [3]float64{r.Red, r.Green, r.Blue} }

func ratioOf(c [3]float64) Ratio { return Ratio{c[0], c[1], c[2]} }

// times returns the ratio with each channel multiplied by a factor.
func (r Ratio) times(by float64) Ratio { return Ratio{by * r.Red, by * r.Green, by * r.Blue} }

// Inverse returns what the light is beside the shadow.
func (r Ratio) Inverse() Ratio { return Ratio{1 / r.Red, 1 / r.Green, 1 / r.Blue} }

// WhiteInShadow is what white paper, lit so that it is the display's white, is in the shadow.
// More than white is cut.
func (r Ratio) WhiteInShadow() analysis.Spot { return reading(r.channels()) }

// LightBesideShadow is the light's colour for an eye that takes the shadow's for white, as strong
// as the display can show it.
func (r Ratio) LightBesideShadow() analysis.Spot {
	i := r.Inverse()
	return reading(i.times(1 / max(i.Red, i.Green, i.Blue)).channels())
}

// reading reads linear light, cut to what the display has.
func reading(light [3]float64) analysis.Spot {
	for c, v := range light {
		light[c] = max(0, min(v, 1))
	}
	s := analysis.SpotOfLight(light[0], light[1], light[2])
	s.PointAtHue()
	return s
}

// linear is a reading's linear light. What rounding leaves under 0 is 0.
func linear(s analysis.Spot) [3]float64 {
	red, green, blue := s.Lab.Light()
	return [3]float64{max(0, red), max(0, green), max(0, blue)}
}

// Where a channel is near black, half a code is a large part of it, and what lies beyond the
// gamut's edge was cut: its ratio is chance.
var (
	// leastLight is the linear light that a channel has in the light, at least, for its ratio to
	// count: at code 28 half a code is 3 % of it (computed from SRGB). Our choice.
	leastLight = colour.Linear(28)
	// leastShadow is the least that a channel counts as in the shadow: code 1, the darkest that
	// isn't black. So a shadow that was cut stays deep and stays finite.
	leastShadow = colour.Linear(1)
)

// logRatio returns the logarithms of a pair's shadow over its light, and which channels count.
func logRatio(light, shadow [3]float64) (logs [3]float64, counts [3]bool) {
	for c := range logs {
		if counts[c] = light[c] >= leastLight; counts[c] {
			logs[c] = math.Log(max(shadow[c], leastShadow) / light[c])
		}
	}
	return logs, counts
}

// pair is a sure local colour: what it sends back in light and in shadow, and its weight.
type pair struct {
	family        int // its index
	light, shadow [3]float64
	depth         float64 // tones
	weight        float64
}

// estimate returns the ratio of pairs, the weighted median of each channel's logarithm; ok is
// false where not one channel counts. known says which channels some local colour tells; the
// others are taken to be as the mean of these.
func estimate(pairs []pair) (r Ratio, known [3]bool, ok bool) {
	var of [3][]weighed
	for _, p := range pairs {
		logs, counts := logRatio(p.light, p.shadow)
		for c := range of {
			if counts[c] {
				of[c] = append(of[c], weighed{logs[c], p.weight})
			}
		}
	}
	var logs [3]float64
	sum, n := 0.0, 0.0
	for c := range of {
		if known[c] = len(of[c]) > 0; known[c] {
			logs[c] = median(of[c])
			sum, n = sum+logs[c], n+1
		}
	}
	if n == 0 {
		return r, known, false
	}
	var factors [3]float64
	for c := range factors {
		if !known[c] {
			logs[c] = sum / n
		}
		factors[c] = math.Exp(logs[c])
	}
	return ratioOf(factors), known, true
}
