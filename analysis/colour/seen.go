package colour

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
