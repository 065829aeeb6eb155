package propose

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// What a colour to paint was made with, as numbers that are shown and can be set (common
// practice, no source).
const (
	WarmLightShadow = 283.0 // Oklch hue of the shadow under warm light: violet-blue
	CoolLightShadow = 35.0  // under cool light: brown-red

	DefaultTurn         = 0.15 // skin turns by 20 degrees at the first tone
	DefaultGain         = 0.1  // saturation gain per tone
	DefaultAccentChroma = 0.12 // Oklch
)

// Options say how colours to paint next are made. DefaultOptions is where to begin.
type Options struct {
	ShadowHue    float64 `json:"shadow_hue"`    // Oklch, degrees: where hues turn in the shadow
	Turn         float64 `json:"turn"`          // how far hues turn, 0 to 1: see shadowShift
	Gain         float64 `json:"gain"`          // saturation gain per tone, -0.5 to 2, as far as a shadow may have it: see mixture
	AccentChroma float64 `json:"accent_chroma"` // Oklch chroma of the accents, 0 to 0.4
	EqualBy      EqualBy `json:"equal_by"`      // what accents keep; "" is lightness
}

// DefaultOptions returns the settings for warm light.
func DefaultOptions() Options {
	return Options{
		ShadowHue: WarmLightShadow, Turn: DefaultTurn, Gain: DefaultGain,
		AccentChroma: DefaultAccentChroma, EqualBy: ByLightness,
	}
}

// Valid returns the options inside of their ranges; a NaN becomes the default.
func (o Options) Valid() Options {
	usual := DefaultOptions()
	within := func(v, from, to, otherwise float64) float64 {
		if v != v {
			return otherwise
		}
		return max(from, min(v, to))
	}
	o.ShadowHue = roundTheCircle(within(o.ShadowHue, -1e6, 1e6, usual.ShadowHue))
	o.Turn = within(o.Turn, 0, 1, usual.Turn)
	o.Gain = within(o.Gain, -0.5, 2, usual.Gain)
	o.AccentChroma = within(o.AccentChroma, 0, 0.4, usual.AccentChroma)
	if o.EqualBy != ByLayerGrey && o.EqualBy != BySeenLightness {
		o.EqualBy = ByLightness
	}
	return o
}

// Shades are the colours to paint next, proposed from one colour. They keep what they
// promise as 8-bit codes: lightness (or what EqualBy says) within 0.2, a layer grey exactly,
// and lie within 1.0 in a*b* of the colour as made.
type Shades struct {
	Base    analysis.Spot `json:"base"`
	Options Options       `json:"options"` // as used, inside of their ranges

	Ramp      [rampSteps]Step  `json:"ramp"`       // one, two, three tones darker
	Lights    [lightSteps]Step `json:"lights"`     // one, two tones lighter
	BlackRamp [rampSteps]Step  `json:"black_ramp"` // as Ramp, but straight toward black

	Accents     [AccentHues]Accent `json:"accents"`      // at AccentChroma, hue by hue
	FullAccents [AccentHues]Accent `json:"full_accents"` // at the gamut's limit
	Suggested   []Accent           `json:"suggested"`    // nearest first, each colour once

	Lines [lineSteps]Line `json:"lines"` // three, four, five tones darker
}

// Shade proposes colours to paint next from base, a spot of a picture or of a colour. The
// result is the caller's own.
func Shade(base analysis.Spot, o Options) *Shades {
	s := &Shades{Base: base, Options: o.Valid()}
	m := maker{base: base, Oklch: base.Oklab.Oklch(), margin: marginOf(base.Oklab), Options: s.Options}
	if base.Colour.Neutral() {
		m.Oklch.C, m.Oklch.H = 0, s.Options.ShadowHue
	}
	m.ramp(s)
	m.accents(s)
	m.lines(s)
	return s
}

// maker makes colours from a base.
type maker struct {
	base         analysis.Spot
	colour.Oklch         // the base's; a neutral has the shadow's hue, and no chroma
	margin       float64 // the base's inside of the gamut: see marginOf
	Options
}

// saturation is the base's.
func (m *maker) saturation() float64 { return colour.SaturationOf(m.Oklch) }

// Note says how a proposed colour came out.
type Note string

const (
	AsMade Note = ""             // as the settings ask for
	AtEdge Note = "gamut_edge"   // with less chroma: more is outside of the display's gamut, or for a shadow too near to it
	AtMost Note = "chroma_limit" // with less chroma: a shadow has no more beside its base
	NoRoom Note = "out_of_range" // there is no colour: too near black or white
)

// spotFields are the JSON names of a spot of a colour, each null where there is none.
type spotFields struct {
	Colour        *colour.RGB `json:"colour"`
	Lightness     *float64    `json:"lightness"`
	Value         *float64    `json:"value"`
	LayerGrey     *float64    `json:"layer_grey"`
	OKLightness   *float64    `json:"ok_lightness"`
	SeenLightness *float64    `json:"seen_lightness"`
	Chroma        *float64    `json:"chroma"`
	Hue           *float64    `json:"hue"`
}

// spotFieldsOf returns the fields of a spot, which may be nil.
func spotFieldsOf(s *analysis.Spot) spotFields {
	if s == nil {
		return spotFields{}
	}
	return spotFields{&s.Colour, &s.Lightness, &s.Value, &s.LayerGrey, &s.OKLightness, &s.SeenLightness, &s.Chroma, s.Hue}
}
