package edges

// Options are the limits by which an edge is lost. DefaultOptions says where each comes from.
// Limits compare numbers as they are, limit included.
type Options struct {
	MostTones      float64 `json:"most_tones"`      // up to which the two sides of a lost edge are apart
	LeastCIEDE2000 float64 `json:"least_ciede2000"` // from which colours are so far apart that colour carries an edge
	LeastLength    float64 `json:"least_length"`    // of an edge, share of the picture's width
	LeastTones     float64 `json:"least_tones"`     // from which lightness carries an edge
	MostColourOff  float64 `json:"most_colour_off"` // CIEDE2000 at one lightness, up to which it does so alone
	LineLightness  float64 `json:"line_lightness"`  // L*, spread over a cell, by which a line has to differ from its sides
}

// DefaultOptions returns the usual limits.
func DefaultOptions() Options {
	return Options{
		MostTones:      0.5,  // up to half a tone forms melt in grey (common practice, no source)
		LeastCIEDE2000: 10,   // clearly two colours (common practice, no source)
		LeastLength:    0.02, // what is shorter is a detail (common practice, no source)
		LeastTones:     1,    // twice what melts (our choice)
		MostColourOff:  5,    // what is seen at once beside each other, as with shadows (our choice)
		LineLightness:  6,    // a black line of a thousandth of the picture on middle grey (our choice)
	}
}

// Between what a painter may set what colour carries, how long an edge is, what lightness carries, of
// which colours alone, and what a line is (our choice).
const (
	LeastColours, MostColours = 8, 30 // by less, half a tone alone would nearly do
	LeastLong, MostLong       = 0.01, 0.2
	LeastAlone, MostAlone     = 1, 3
	LeastOff, MostOff         = 2, 10
	LeastLine, MostLine       = 2, 20
)

// WithTones returns the options with another number of tones that the sides of a lost edge are apart
// at most; 0 leaves it.
func (o Options) WithTones(most float64) Options {
	if most > 0 {
		o.MostTones = most
	}
	return o
}

// LeastCells is how many cells an edge is long at least, also in a picture so small that these are
// much of it (our choice).
const LeastCells = 6
