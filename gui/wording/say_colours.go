package wording

import "app.tonedesk/analysis"

// SaySwatch lists a colour's numbers: code, lightness, value, chroma and hue (C*ab, degrees).
func SaySwatch(s analysis.Spot) string {
	words := s.Colour.Hex() + "  lightness " + Tenth(s.Lightness) + ", value " + Tenth(s.Value) + ", chroma " + Tenth(s.Chroma)
	if s.Hue != nil {
		words += ", hue " + HueSay(s.Hue)
	}
	return words
}

// SayAccents tells what the half-high swatches of a row of accents mean.
func SayAccents(missing, all int) string {
	switch missing {
	case 0:
		return "Above at the chosen chroma, below at the display's most."
	case all:
		return "The display reaches this chroma in no hue here: all show the most there is."
	}
	return "Above at the chosen chroma (half as high where the display has less), below at the display's most."
}
