package analysis

import "math"

// SeenLightness returns how light a colour looks, in the unit of L*: lightness corrected
// for the Helmholtz-Kohlrausch effect. Models of it disagree threefold, so it is good for
// a hint and for nothing else. Source: HGN23, with D65 Lab.
func SeenLightness(c Lab) float64 {
	chroma, hue := c.Chroma(), c.Hue()
	toRadians := math.Pi / 180
	blueYellow := 0.1644*math.Abs(math.Sin((hue-90)/2*toRadians)) + 0.0603
	red := 0.0
	if hue <= 90 || hue >= 270 {
		red = 0.1307*math.Abs(math.Cos(hue*toRadians)) + 0.0060
	}
	return c.L + (blueYellow+red)*chroma
}

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
