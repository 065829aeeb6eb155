package wording

import (
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/pictures"
)

// SaySpace says in which colours a picture is read, by their name.
func SaySpace(name string) string { return language.Say("read in %s, as its file says", name) }

// toldWords are what of a file tells its colours.
var toldWords = map[pictures.ToldBy]language.Words{
	pictures.ToldByCodePoints: "its code points", pictures.ToldByProfile: "its profile",
	pictures.ToldBySRGB: "its mark of sRGB", pictures.ToldByGamma: "its exponent and chromaticities",
}

// SayOverridden says what of a file isn't asked for its colours, since something else of it counts
// more; "" for nothing. An exponent and chromaticities alone go unsaid: the PNG specification has
// them stand beside what counts more, for older programs.
func SayOverridden(others []pictures.ToldBy) string {
	var said []string
	for _, by := range others {
		if by != pictures.ToldByGamma || len(others) > 1 {
			said = append(said, toldWords[by].String())
		}
	}
	if len(said) == 0 {
		return ""
	}
	return language.Say("%s: something else of the file counts more", And(said))
}
