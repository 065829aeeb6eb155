package focus

// Options are the limits by which places are told. DefaultOptions says where each comes from.
type Options struct {
	Radius        float64 `json:"radius"`         // of a place, share of the picture's longer side
	LeastContrast float64 `json:"least_contrast"` // of a place, from which it is one
	AsStrong      float64 `json:"as_strong"`      // share of the strongest place's contrast from which another is as strong
	ChromaWeight  float64 `json:"chroma_weight"`  // of a difference of a* and b* beside one as large of L*
	ExtremeWithin float64 `json:"extreme_within"` // L* up to which something is still as light as the lightest light; and as dark as the darkest dark
	AloneShare    float64 `json:"alone_share"`    // of the lightest light that lies together, from which it stands alone; and of the darkest dark
}

// DefaultOptions returns the usual limits.
func DefaultOptions() Options {
	return Options{
		// Seen from one and a half times its longer side, as a picture on a screen commonly is
		// (common practice, no source), a disc of this radius is 5.3 degrees across: about what the
		// fovea sees at once, 5 degrees (from memory).
		Radius:        0.07,
		LeastContrast: 0.015, // about a border of half a tone through a place, on middle grey (our choice; a test shows it)
		AsStrong:      0.95,  // what is nearer is a tie, and may turn with a stroke elsewhere (our choice)
		ChromaWeight:  0.5,   // lightness carries more of what is seen far off (our choice)
		ExtremeWithin: 5,     // half a tone (common practice, no source)
		AloneShare:    0.8,   // (our choice)
	}
}

// Between what a painter may set each of the limits (our choice).
const (
	LeastRadius, MostRadius   = 0.03, 0.2
	LeastExtreme, MostExtreme = 1, 20
	LeastPlace, MostPlace     = 0.005, 0.1
	LeastAs, MostAs           = 0.5, 1
	LeastChroma, MostChroma   = 0, 1
	LeastAlone, MostAlone     = 0.5, 1
)

// Longest is how many cells the picture's longer side has at most.
const Longest = 256

// Scales is how many bands there are: fine, middle and coarse.
const Scales = 3

// MostPlaces is how many of the strongest places are told.
const MostPlaces = 5
