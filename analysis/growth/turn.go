package growth

import "math"

// Rules say from which change on a line has turned.
type Rules struct {
	Tones   float64 `json:"tones"`   // of gaps, local colours, the mean value and the distance from the target
	Share   float64 `json:"share"`   // of the picture, by which a group grows or shrinks
	Murk    float64 `json:"murk"`    // share of the picture
	Degrees float64 `json:"degrees"` // of a hue shift
	Edges   float64 `json:"edges"`   // length of lost edges, parts of the picture's width
}

// DefaultRules returns the usual rules.
func DefaultRules() Rules {
	return Rules{
		Tones:   0.5,  // half a tone is what melts in grey (common practice, no source)
		Share:   0.1,  // a tenth of the picture (our choice)
		Murk:    0.05, // half of that (our choice)
		Degrees: 8,    // by less a hue goes straight (common practice, no source)
		Edges:   0.25, // a quarter of the picture's width (our choice)
	}
}

// LeastTones and MostTones are from how many tones on a line may be said to have turned (our choice).
const LeastTones, MostTones = 0.2, 2

// WithTones returns the rules for another number of tones, the others in proportion.
func (r Rules) WithTones(tones float64) Rules {
	by := tones / r.Tones
	return Rules{tones, by * r.Share, by * r.Murk, by * r.Degrees, by * r.Edges}
}

// level is the part of a rule within which a line counts as level (our choice): of half a tone a
// tenth, which is what figures are printed to.
const level = 0.2

// Turn is where a line turned: from then on it went one way, but for less than the rule asks for, and
// by its end it is as far from there as the rule asks for.
type Turn struct {
	At     int     `json:"at"`     // the moment since which, from 0
	From   float64 `json:"from"`   // the line then, in its unit
	To     float64 `json:"to"`     // the line at its end
	Change float64 `json:"change"` // to minus from; of a hue shift the shorter way
	// Throughout says that it is the line's first moment: it went this way all along and turned
	// nowhere.
	Throughout bool `json:"throughout"`
}

// turnOf returns where a line turned by a rule; nil where it has not, or where by its end it has gone
// back so far that less is left than the rule asks for. Values that are NaN are passed over.
//
// A line goes one way until it has come back from its extreme by as much as the rule says: then the
// extreme was a turn. Of the moments that are level with the last of these the latest counts, so that
// a line that was level and then fell turned where it began to fall.
func turnOf(values []float64, by rule) *Turn {
	var known []int
	for i, v := range values {
		if !math.IsNaN(v) {
			known = append(known, i)
		}
	}
	if len(known) < 2 {
		return nil
	}
	at := func(k int) float64 { return values[known[k]] }
	end := len(known) - 1
	from, extreme := lastLeg(at, end, by)
	if from < 0 || !by.reached(at(from), at(end)) {
		return nil
	}
	turned := from
	for k := from; k <= extreme; k++ {
		if math.Abs(at(k)-at(from)) <= level*by.least && by.reached(at(k), at(end)) {
			turned = k
		}
	}
	v := at(turned)
	return &Turn{At: known[turned], From: v, To: at(end), Change: at(end) - v, Throughout: turned == 0}
}

// lastLeg returns the extreme from which a line last went one way, and the one to which it has come;
// -1 where it never went anywhere.
func lastLeg(at func(k int) float64, end int, by rule) (from, extreme int) {
	from = -1
	low, high, way := 0, 0, 0.0
	for k := 1; k <= end; k++ {
		switch {
		case way == 0:
			if at(k) < at(low) {
				low = k
			}
			if at(k) > at(high) {
				high = k
			}
			if by.reached(at(low), at(k)) && low < k {
				from, extreme, way = low, k, 1
			} else if by.reached(at(high), at(k)) && high < k {
				from, extreme, way = high, k, -1
			}
		case way*(at(k)-at(extreme)) >= 0:
			extreme = k
		case by.reached(at(extreme), at(k)):
			from, extreme, way = extreme, k, -way
		}
	}
	return from, extreme
}

// rule is from how much on a line has turned, and to how much its figures are printed.
type rule struct{ least, printed float64 }

// reached reports whether two figures are apart by as much as the rule says, as printed.
func (r rule) reached(a, b float64) bool {
	const tiny = 1e-9 // what binary fractions lose of a limit
	return math.Round(math.Abs(a-b)/r.printed)*r.printed >= r.least-tiny
}
