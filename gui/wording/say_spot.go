package wording

import (
	"math"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/language"
)

// SpotState is what the window knows of a spot beside its reading.
type SpotState struct {
	Area      bool // read over a dragged area, not a small square
	Moved     bool // the picture has jumped since the spot was placed
	Fixed     bool // read once, outside of what is watched
	FromWhite bool // values are counted from white
	Selected  bool
}

// FigureText are a spot's figures, or by how much two spots differ in them.
type FigureText struct{ Lightness, Value, LayerGrey, Chroma, Hue string }

// SpotText is what the page shows of a spot, ready to be drawn.
type SpotText struct {
	FigureText
	Name      string
	Colour    colour.RGB
	Grey      uint8 // of the same lightness
	Hex       string
	FromFirst string // by how much its value differs from the first spot's, "" for the first
	Note      string // what is to be known before the figures are trusted, "" for nothing
	Selected  bool
	Fixed     bool // it was read once, and stays so
	Lost      bool // there is no reading
	Empty     bool // there is no spot
}

// SaySpotText returns what is shown of a spot.
func SaySpotText(name string, s analysis.Spot, state SpotState) SpotText {
	return SpotText{
		FigureText: FigureText{
			Lightness: Tenth(s.Lightness), Value: ValueSay(s.Value, state.FromWhite), LayerGrey: Whole(s.LayerGrey),
			Chroma: Tenth(s.Chroma), Hue: hueFigure(s.Hue),
		},
		Name: name, Colour: s.Colour, Grey: colour.GreyOf(s.Lightness), Hex: s.Colour.Hex(),
		Note: sayNote(s, state), Selected: state.Selected, Fixed: state.Fixed,
	}
}

// SayEmptySpot stands where a spot will be, so that nothing moves when it comes.
func SayEmptySpot(name string) SpotText { return SpotText{Name: name, Empty: true} }

// SayLostSpot is a spot that lies outside of the picture.
func SayLostSpot(name string, selected bool) SpotText {
	none := FigureText{Unknown, Unknown, Unknown, Unknown, Unknown}
	return SpotText{FigureText: none, Name: name, Hex: Unknown, Note: language.Say("lies outside the picture"), Selected: selected, Lost: true}
}

// hueFigure is a hue with its sign, a dash for a neutral.
func hueFigure(hue *float64) string {
	if hue == nil {
		return Unknown
	}
	return HueSay(hue) + "°"
}

// SayDifferences says by how much the second of two spots differs from the first; a hue goes
// the shorter way round. Values differ as they are counted.
func SayDifferences(a, b analysis.Spot, fromWhite bool) FigureText {
	t := FigureText{
		Lightness: Signed(b.Lightness-a.Lightness, 1), Value: SayValueDifference(a, b, fromWhite),
		LayerGrey: Signed(b.LayerGrey-a.LayerGrey, 0), Chroma: Signed(b.Chroma-a.Chroma, 1), Hue: Unknown,
	}
	if a.Hue != nil && b.Hue != nil {
		t.Hue = Signed(families.TurnBetween(*a.Hue, *b.Hue), 1) + "°"
	}
	return t
}

// SayValueDifference says by how much b's value differs from a's, in tones, as values are
// counted.
func SayValueDifference(a, b analysis.Spot, fromWhite bool) string {
	if fromWhite {
		a, b = b, a
	}
	return Signed(b.Value-a.Value, 1)
}

// Signed returns a difference with its sign and so many decimals; nought has none.
func Signed(v float64, decimals int) string {
	s := figure(v, decimals)
	switch {
	case strings.Trim(s, minus+"0.,") == "":
		return strings.TrimPrefix(s, minus)
	case v > 0 && !math.IsInf(v, 0):
		return "+" + s
	}
	return s
}

// sayNote says what is to be known before a spot's figures are trusted, the most important
// only; "" if there is nothing.
func sayNote(s analysis.Spot, state SpotState) string {
	switch {
	case state.Moved:
		return language.Say("may lie elsewhere now")
	case state.Fixed:
		return language.Say("is fixed: read once, outside")
	case state.Area:
		return language.Say("varies by %s", Tenth(s.Spread))
	case s.OnEdge:
		return language.Say("lies on an edge")
	}
	return ""
}

// SaySeen hints at how light a saturated colour looks beside a grey of its lightness; "" where
// there is nothing to say.
func SaySeen(s analysis.Spot) string {
	switch s.SeenHint() {
	case analysis.SeenLittle:
		return language.Say("looks a little lighter than its grey")
	case analysis.SeenClearly:
		return language.Say("looks clearly lighter than its grey")
	}
	return ""
}

// SaySpotRemark is the one line below the figures of a few spots: what makes one doubtful, else
// which looks lighter than its grey; of two that do, the one that does clearly, or the later.
func SaySpotRemark(texts []SpotText, spots []analysis.Spot) string {
	for i := range texts {
		if t := texts[len(texts)-1-i]; t.Note != "" {
			return t.Name + " " + t.Note
		}
	}
	for _, hint := range []analysis.SeenHint{analysis.SeenClearly, analysis.SeenLittle} {
		for i := range spots {
			if at := len(spots) - 1 - i; spots[at].SeenHint() == hint {
				return texts[at].Name + " " + SaySeen(spots[at])
			}
		}
	}
	return ""
}

// SayBesideFirst says in a sentence on a pair, below, that its first spot is another than the one
// before the second.
func SayBesideFirst(s Sentence, first string) Sentence {
	if s.Below != "" {
		s.Below = language.Say("Than %s. %s", first, s.Below)
	}
	return s
}

// SaySwatch lists a colour's numbers: code, lightness, value, chroma and hue (C*ab, degrees).
func SaySwatch(s analysis.Spot) string {
	words := language.Say("%s  lightness %s, value %s, chroma %s", s.Colour.Hex(), Tenth(s.Lightness), Tenth(s.Value), Tenth(s.Chroma))
	if s.Hue != nil {
		words = joined(words, language.Say("hue %s", HueSay(s.Hue)))
	}
	return words
}
