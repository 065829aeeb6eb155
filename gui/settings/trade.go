package settings

import (
	"slices"

	"app.tonedesk/analysis"
)

// The settings that hold the trade's rules of thumb.

// Dots says where the pixels beyond the limits are dotted in the mirror.
type Dots string

const (
	DotsStructure Dots = "structure" // while the structure page is open: the default
	DotsAlways    Dots = "always"
	DotsNever     Dots = "never"
)

var AllDots = []Dots{DotsStructure, DotsAlways, DotsNever}

const (
	middleLightness = 50.0 // L*: up to here something can be too dark, from here too light
	minLeastTones   = 0.5
	maxLeastTones   = 5.0
	maxMostTones    = 8.0
	maxLeastChroma  = 30.0 // C*ab
	maxLeastTurn    = 60.0 // degrees
	maxMostGain     = 1.0
	maxKeepsWithin  = 20.0 // L*
	minVanishAbove  = 5.0  // value
)

// confineTrade brings these settings into range; mend notes which it changed.
func (s *Settings) confineTrade(mend func(name string, ok bool, repair func())) {
	d := Defaults()
	number := func(name string, at *float64, low, high, instead float64) {
		mend(name, within(*at, low, high), func() { *at = confined(*at, low, high, instead) })
	}
	number("too_dark", &s.TooDark, 0, middleLightness, d.TooDark)
	number("too_light", &s.TooLight, middleLightness, 100, d.TooLight)
	r := &s.Rules
	number("least_tones", &r.LeastTones, minLeastTones, maxLeastTones, d.Rules.LeastTones)
	number("most_tones", &r.MostTones, r.LeastTones, maxMostTones, max(d.Rules.MostTones, r.LeastTones))
	number("least_chroma", &r.LeastChroma, 0, maxLeastChroma, d.Rules.LeastChroma)
	number("least_turn", &r.LeastTurn, 0, maxLeastTurn, d.Rules.LeastTurn)
	number("most_gain", &r.MostGain, 0, maxMostGain, d.Rules.MostGain)
	number("keeps_within", &r.KeepsWithin, 0, maxKeepsWithin, d.Rules.KeepsWithin)
	number("vanish_above", &r.VanishAbove, minVanishAbove, 10, d.Rules.VanishAbove)
	mend("dots", slices.Contains(AllDots, s.Dots), func() { s.Dots = d.Dots })
}

// Limits are the limits of lightness that the painter set.
func (s Settings) Limits() analysis.Limits {
	return analysis.Limits{Dark: s.TooDark, Light: s.TooLight}
}

// Dotted reports whether the pixels beyond the limits are dotted while the page of the
// settings is open.
func (s Settings) Dotted() bool {
	return s.Dots == DotsAlways || s.Dots == DotsStructure && s.Page == PageStructure
}
