package propose

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
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
