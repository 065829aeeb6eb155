package light

// Options are the limits by which local colours agree. DefaultOptions says where each comes
// from. Limits compare numbers as they are, limit included.
type Options struct {
	MostTonesOff  float64 `json:"most_tones_off"`  // tones by which a shadow may be deeper, or shallower, than the picture's light makes it
	MostHueOff    float64 `json:"most_hue_off"`    // degrees of Oklch by which its hue may lie elsewhere
	MostColourOff float64 `json:"most_colour_off"` // CIEDE2000, at the shadow's own lightness, up to which its colour is the same
	OneLightFrom  float64 `json:"one_light_from"`  // share, by weight, that has to agree for one light to fall on the picture, and for it to have one direction

	MostDegreesOff float64 `json:"most_degrees_off"` // degrees by which a form may seem to be lit from elsewhere
}

// Between what a painter may set each of the limits (our choice).
const (
	LeastTones, MostTones     = 0.2, 2
	LeastHue, MostHue         = 5, 60
	LeastColour, MostColour   = 2, 15
	LeastShare, MostShare     = 0.3, 1
	LeastDegrees, MostDegrees = 30, 120
)

// WithTones returns the options with another number of tones by which a shadow may be off; 0 leaves it.
func (o Options) WithTones(most float64) Options {
	if most > 0 {
		o.MostTonesOff = most
	}
	return o
}

// DefaultOptions returns the usual limits.
func DefaultOptions() Options {
	return Options{
		MostTonesOff:   0.5, // shadows that read are two to three tones deep, so half a tone about the middle (common practice, no source)
		MostHueOff:     20,  // as much as skin turns at the first tone (our choice)
		MostColourOff:  5,   // what is seen at once beside each other (our choice)
		OneLightFrom:   0.5, // no more speaks against it than for it (our choice)
		MostDegreesOff: 60,  // four times the error of a form, as painted scenes have it (our choice)
	}
}
