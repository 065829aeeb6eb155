package families

import (
	"encoding/json"
	"math"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Verdict says how a family's light and shadow stand to each other.
type Verdict string

const (
	Reads       Verdict = "reads"        // the shadow reads as a shadow of its light
	Soft        Verdict = "soft"         // fewer tones apart than a shadow that reads
	Strong      Verdict = "strong"       // more: one side may fall out of the picture
	TowardBlack Verdict = "toward_black" // darker only: neither hue nor saturation moved
	Overlaps    Verdict = "overlaps"     // the lightest shadow is lighter than the darkest light
	Unlike      Verdict = "unlike"       // two colours given by hand that are hardly one local colour
)

// Rules are the trade's limits for a family (common practice, no source). Limits
// compare numbers as printed, limit included.
type Rules struct {
	LeastTones  float64 `json:"least_tones"`  // from here on a shadow reads
	MostTones   float64 `json:"most_tones"`   // up to here
	LeastChroma float64 `json:"least_chroma"` // C*ab under which a colour counts as neutral and has no hue to turn
	LeastTurn   float64 `json:"least_turn"`   // degrees: a hue that turns by less went straight
	MostGain    float64 `json:"most_gain"`    // saturation gain up to which a shadow counts as not enriched
	KeepsWithin float64 `json:"keeps_within"` // L* up to which an accent keeps its lightness
	VanishAbove float64 `json:"vanish_above"` // value of a light above which its line may vanish
}

// DefaultRules returns the limits as the trade passes them on (common practice, no
// source).
func DefaultRules() Rules {
	return Rules{
		LeastTones: 2, MostTones: 3, LeastChroma: 8, LeastTurn: 8, MostGain: 0.05,
		KeepsWithin: 3, VanishAbove: 9,
	}
}

// Family is one local colour with its light side and its shadow side. Its JSON names and
// units are the command line's contract; what can't be known is nil.
type Family struct {
	Light  analysis.Spot `json:"light"` // of a picture: the side's mean, and a place inside the side
	Shadow analysis.Spot `json:"shadow"`

	LightnessApart float64   `json:"lightness_difference"` // L* of light minus L* of shadow
	Tones          float64   `json:"tones"`                // value of light minus value of shadow
	HueTurn        *float64  `json:"hue_turn"`             // Oklch hue, light to shadow, (-180, 180] degrees; nil beside a neutral
	SaturationGain *float64  `json:"saturation_gain"`      // shadow's over light's, minus 1; nil for a neutral light and for black
	Share          *float64  `json:"share"`                // of the counted pixels, 0 to 1; nil for two colours given by hand
	Verdict        []Verdict `json:"-"`                    // Reads, Soft or Strong; then TowardBlack, Overlaps, Unlike where true
	TowardBlack    bool      `json:"-"`                    // the shadow goes straight toward black
	Overlap        *float64  `json:"overlap"`              // value of the shadow's lightest tenth minus the light's darkest tenth; nil for two colours
	Accent         *Accent   `json:"accent"`               // nil if there is none
	Line           *Line     `json:"line"`                 // nil if there is none
	Confidence     *float64  `json:"confidence"`           // 0 to 1: of those with 0.8 four in five are painted so; nil for two colours given by hand
}

// MarshalJSON writes the first word of the verdict as verdict, the others as remarks.
func (f Family) MarshalJSON() ([]byte, error) {
	type family Family
	written := struct {
		family
		Verdict Verdict   `json:"verdict"`
		Remarks []Verdict `json:"remarks"`
	}{family: family(f), Remarks: []Verdict{}}
	if len(f.Verdict) > 0 {
		written.Verdict, written.Remarks = f.Verdict[0], f.Verdict[1:]
	}
	return json.Marshal(written)
}

// SureFrom is the confidence from which a family counts as found; below it is only a guess.
const SureFrom = 0.5

// Sure reports whether a family is no guess: found with confidence, or given by hand.
func (f *Family) Sure() bool { return f.Confidence == nil || *f.Confidence >= SureFrom }

// Accent is the core shadow's accent: a narrow band along the edge between light and
// shadow, more saturated than both or turned in hue.
type Accent struct {
	analysis.Spot
	LightnessDifference float64 `json:"lightness_difference"` // L*, accent minus the side that is nearer in lightness
	KeepsLightness      bool    `json:"keeps_lightness"`
}

// Line is the thin dark line that bounds a form.
type Line struct {
	analysis.Spot
	TonesBelow float64 `json:"tones_below"` // value of the light side, the fill, minus value of the line
	Neutral    bool    `json:"neutral"`     // no hue to speak of
	MayVanish  bool    `json:"may_vanish"`  // the light is so strong that the line may vanish there
}

// Of judges two colours, of which light is the lighter, as a family.
func Of(light, shadow analysis.Spot, rules Rules) Family {
	f := Family{
		Light: light, Shadow: shadow,
		LightnessApart: light.Lightness - shadow.Lightness,
		Tones:          light.Value - shadow.Value,
		HueTurn:        hueTurn(light, shadow, rules),
		SaturationGain: saturationGain(light, shadow, rules),
	}
	f.TowardBlack = f.straightToBlack(rules)
	f.judge(rules)
	return f
}

// judge writes the verdict.
func (f *Family) judge(rules Rules) {
	f.Verdict = make([]Verdict, 0, 4)
	switch tones := analysis.AsPrinted(f.Tones); {
	case tones < rules.LeastTones:
		f.Verdict = append(f.Verdict, Soft)
	case tones > rules.MostTones:
		f.Verdict = append(f.Verdict, Strong)
	default:
		f.Verdict = append(f.Verdict, Reads)
	}
	if f.TowardBlack {
		f.Verdict = append(f.Verdict, TowardBlack)
	}
	if f.Overlap != nil && analysis.AsPrinted(*f.Overlap) > 0 {
		f.Verdict = append(f.Verdict, Overlaps)
	}
	if f.Share == nil && f.unlike() { // of a picture's families the picture itself decides
		f.Verdict = append(f.Verdict, Unlike)
	}
}

// Limits of what may be one local colour in light and in shadow.
const (
	nearNeutral  = 16.0 // C*ab under which a hue says little: twice what counts as neutral (our choice)
	unlikeTurn   = 70.0 // degrees: no shadow of one material turns by more (from memory; yellow into red-brown takes 60)
	unlikeChange = 1.2  // a*b* distance over the drop in lightness, beside a near neutral (from memory)
)

// NearNeutral reports whether a colour has so little chroma that its hue, and how much more
// saturated another is, say little.
func NearNeutral(s analysis.Spot) bool { return s.Chroma < nearNeutral }

// unlike reports whether light and shadow are hardly one local colour: their hues lie too far
// apart or, where one has next to none, the shadow's a*b* lie farther from those of the light,
// darkened as much, than the drop in lightness explains.
func (f *Family) unlike() bool {
	if NearNeutral(f.Light) || NearNeutral(f.Shadow) {
		light, shadow := f.Light.Lab, f.Shadow.Lab
		if light.L < shadow.L {
			light, shadow = shadow, light
		}
		part := 1.0
		if light.L > 0 {
			part = shadow.L / light.L
		}
		change := math.Hypot(part*light.A-shadow.A, part*light.B-shadow.B)
		return change > max(nearNeutral, unlikeChange*(light.L-shadow.L))
	}
	return math.Abs(TurnBetween(f.Light.Oklab.Hue(), f.Shadow.Oklab.Hue())) > unlikeTurn
}

// Neutral reports whether a colour has too little chroma for its hue to mean anything.
func (r Rules) Neutral(s analysis.Spot) bool { return analysis.AsPrinted(s.Chroma) < r.LeastChroma }

// hueTurn returns the turn of the Oklch hue from light to shadow, nil if either is neutral.
func hueTurn(light, shadow analysis.Spot, rules Rules) *float64 {
	if rules.Neutral(light) || rules.Neutral(shadow) {
		return nil
	}
	return new(TurnBetween(light.Oklab.Hue(), shadow.Oklab.Hue()))
}

// TurnBetween returns the shorter way from one hue to another, in (-180, 180] degrees.
func TurnBetween(from, to float64) float64 {
	turn := math.Remainder(to-from, 360)
	if turn == -180 {
		return 180
	}
	return turn
}

// saturationGain returns the shadow's saturation over the light's, minus 1: nil if the light
// is neutral, whose saturation is chance, or the shadow black, which has none.
func saturationGain(light, shadow analysis.Spot, rules Rules) *float64 {
	gain := colour.Saturation(shadow.Oklab)/colour.Saturation(light.Oklab) - 1
	if rules.Neutral(light) || math.IsNaN(gain) || math.IsInf(gain, 0) {
		return nil
	}
	return &gain
}

// seenChroma is the C*ab under which a colour has no saturation to speak of: near black its
// codes have what chance gives them. Our choice.
const seenChroma = 2

// straightToBlack reports whether the shadow of a light that has a hue is no more saturated,
// and of the same hue or of none. Black itself is.
func (f *Family) straightToBlack(rules Rules) bool {
	if rules.Neutral(f.Light) {
		return false
	}
	gained := f.SaturationGain != nil && AsPercent(*f.SaturationGain) > rules.MostGain
	if gained && f.Shadow.Chroma >= seenChroma {
		return false
	}
	return f.HueTurn == nil || analysis.AsPrinted(math.Abs(*f.HueTurn)) < rules.LeastTurn
}

// AsPercent returns a ratio as it is printed, in whole percent.
func AsPercent(v float64) float64 { return math.Round(100*v) / 100 }

// accentOf judges a band between the sides.
func (f *Family) accentOf(s analysis.Spot, rules Rules) *Accent {
	difference := s.Lightness - f.Light.Lightness
	if d := s.Lightness - f.Shadow.Lightness; math.Abs(d) < math.Abs(difference) {
		difference = d
	}
	return &Accent{s, difference, analysis.AsPrinted(math.Abs(difference)) <= rules.KeepsWithin}
}

// lineOf judges the line around the form.
func (f *Family) lineOf(s analysis.Spot, rules Rules) *Line {
	return &Line{
		Spot:       s,
		TonesBelow: f.Light.Value - s.Value,
		Neutral:    rules.Neutral(s),
		MayVanish:  analysis.AsPrinted(f.Light.Value) > rules.VanishAbove,
	}
}

// Satisfies reports whether a family reads and has nothing against it.
func (f *Family) Satisfies() bool { return len(f.Verdict) == 1 && f.Verdict[0] == Reads }

// TurnsToward returns the name of the hue toward which the shadow turned: the one it reached,
// or the next in that direction if it stayed in the light's; "" if no turn is known, or none
// as printed.
func (f Family) TurnsToward() string {
	if f.HueTurn == nil || analysis.AsPrinted(*f.HueTurn) == 0 {
		return ""
	}
	return colour.HueToward(f.Light.Oklab.Hue(), f.Shadow.Oklab.Hue(), *f.HueTurn > 0)
}
