package analysis

// SeenHint says in how far a colour looks lighter than its grey.
type SeenHint uint8

const (
	SeenAlike   SeenHint = iota // by less than 3
	SeenLittle                  // looks a little lighter
	SeenClearly                 // looks clearly lighter
)

// From how much added lightness a hint is given (common practice, no source).
const (
	seenLittleFrom  = 3
	seenClearlyFrom = 8
)

// SeenHint returns the hint for a spot, from the added lightness as printed.
func (s Spot) SeenHint() SeenHint {
	switch added := AsPrinted(s.SeenLightness - s.Lightness); {
	case added >= seenClearlyFrom:
		return SeenClearly
	case added >= seenLittleFrom:
		return SeenLittle
	}
	return SeenAlike
}
