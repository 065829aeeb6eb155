package propose

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
)

// Judged is a shadow that a painter chose for a local colour, and what would satisfy the
// rules instead.
type Judged struct {
	Family families.Family `json:"family"`
	// Nearest is the colour nearest to the chosen shadow (CIEDE2000) that satisfies the rules:
	// no code near it is nearer. nil if the chosen one does, or nothing does, or it belongs to
	// another material.
	Nearest *analysis.Spot `json:"nearest"`

	Distance *float64 `json:"ciede2000"` // from the chosen shadow to Nearest
}

// JudgeShadow judges a shadow chosen for a local colour, which is the lighter of the two. It
// takes about two milliseconds where it has to look for another.
//
// The colour it offers reads and doesn't go toward black. For a shadow that does, it turns
// the hue the way of the shadow ramp, for light of shadowHue (Oklch, degrees), since the
// trade turns the hue first; and it loses no saturation, unless the chosen one has lost it or the display
// has no more. A neutral shadow says nothing of hue and saturation: for it, both go as in the ramp.
func JudgeShadow(local, shadow analysis.Spot, rules families.Rules, shadowHue float64) Judged {
	j := Judged{Family: families.Of(local, shadow, rules)}
	if foreign := slices.Contains(j.Family.Verdict, families.Unlike) && !j.Family.TowardBlack; foreign || j.Family.Satisfies() {
		return j
	}
	if better, distance := searchShadow(demandOf(&j.Family, rules, shadowHue)); !math.IsInf(distance, 1) {
		j.Nearest, j.Distance = new(analysis.SpotOf(better)), &distance
	}
	return j
}

// shadowDemand is what a better shadow than a chosen one must have.
type shadowDemand struct {
	local, chosen analysis.Spot
	rules         families.Rules

	shadowHue float64 // Oklch, degrees
	way       float64 // to it, degrees, if the hue must turn; 0 for any turn
	leastGain float64 // of saturation
	asRamp    bool    // turn and gain as in the shadow ramp
}

// demandOf says what a better shadow than that of f must have beside its rules. One toward
// black is to turn, the way of the ramp; none loses more saturation than the chosen one.
func demandOf(f *families.Family, rules families.Rules, shadowHue float64) shadowDemand {
	d := shadowDemand{local: f.Light, chosen: f.Shadow, rules: rules, shadowHue: roundTheCircle(shadowHue), leastGain: math.Inf(-1)}
	if f.SaturationGain != nil {
		d.leastGain = min(0, *f.SaturationGain)
	}
	if f.TowardBlack {
		if math.Abs(d.shift(rules.MostTones)) >= rules.LeastTurn {
			d.way = wayToShadow(f.Light.Oklab.Hue(), d.shadowHue)
		}
		d.asRamp = rules.Neutral(f.Shadow)
	}
	return d
}

// shift returns how far the ramp's step of so many tones turns, degrees.
func (d *shadowDemand) shift(tones float64) float64 {
	return shadowShift(d.local.Oklab.Hue(), d.shadowHue, DefaultTurn, tones)
}

// gain returns how much more saturated the ramp's step of so many tones is, at an Oklch
// lightness.
func (d *shadowDemand) gain(tones, lightness float64) float64 {
	return min(math.Pow(1+DefaultGain, tones), mostChroma*d.local.Oklab.L/lightness) - 1
}

// metBy reports whether a code satisfies the rules and what else is demanded.
func (d *shadowDemand) metBy(c colour.RGB) bool {
	neutral := d.rules.Neutral(d.local)
	if !neutral {
		lab := colour.OklabOfCode(c)
		tones := d.local.Value - colour.Value(colour.Lightness(colour.Luminance(colour.Linears[c.R], colour.Linears[c.G], colour.Linears[c.B])))
		if !(lab.L > 0) || !d.turnMet(lab, tones) || !d.gainMet(c, lab, tones) {
			return false
		}
	}
	f := families.Of(d.local, analysis.SpotOfCode(c), d.rules)
	return f.Satisfies() && (neutral || f.HueTurn != nil) // what is offered has a hue
}

// turnMet reports whether the hue turns as demanded. As in the ramp is from its first step to
// the one with as many tones, give or take what doesn't count as a turn; where the ramp has
// no way to turn, a little either way.
func (d *shadowDemand) turnMet(c colour.Oklab, tones float64) bool {
	turn := families.TurnBetween(d.local.Oklab.Hue(), c.Hue())
	if d.way == 0 {
		return !d.asRamp || math.Abs(turn) <= 2*d.rules.LeastTurn
	}
	turn = math.Copysign(1, d.way) * turn
	if !d.asRamp {
		return analysis.AsPrinted(turn) >= d.rules.LeastTurn
	}
	turn = analysis.AsPrinted(roundTheCircle(turn))
	return turn >= max(math.Abs(d.shift(1)), d.rules.LeastTurn) && turn <= math.Abs(d.shift(tones))+d.rules.LeastTurn
}

// gainMet reports whether there is enough saturation. At the gamut's edge there is no more to
// demand.
func (d *shadowDemand) gainMet(code colour.RGB, c colour.Oklab, tones float64) bool {
	if code.OnEdge() {
		return true
	}
	least := d.leastGain
	if d.asRamp {
		least = d.gain(tones, c.L)
	}
	return families.AsPercent(colour.Saturation(c)/colour.Saturation(d.local.Oklab)-1) >= families.AsPercent(least)
}
