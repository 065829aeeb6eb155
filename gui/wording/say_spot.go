package wording

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// SpotState is what the window knows of a spot beside its reading.
type SpotState struct {
	Area      bool // read over a dragged area, not a small square
	Moved     bool // the picture has jumped since the spot was placed
	FromWhite bool // values are counted from white
	Selected  bool
}

// SayCard returns what a spot's card shows.
func SayCard(name string, s analysis.Spot, state SpotState) CardText {
	seen, seenShort := SaySeen(s)
	return CardText{
		Name:      name,
		Colour:    s.Colour,
		Grey:      colour.GreyOf(s.Lightness),
		Hex:       s.Colour.Hex(),
		Lightness: Tenth(s.Lightness),
		Value:     ValueSay(s.Value, state.FromWhite),
		LayerGrey: Whole(s.LayerGrey),
		Chroma:    Tenth(s.Chroma),
		Hue:       HueSay(s.Hue),
		Note:      sayNote(s, state),
		Seen:      seen,
		SeenShort: seenShort,
		Selected:  state.Selected,
	}
}

// sayNote says what is to be known before a spot's figures are trusted, the most important
// only; "" if there is nothing.
func sayNote(s analysis.Spot, state SpotState) string {
	switch {
	case state.Moved:
		return "picture moved"
	case state.Area:
		return "area, spread " + Tenth(s.Spread)
	case s.OnEdge:
		return "lies on an edge"
	}
	return ""
}

// SaySeen hints at how light a saturated colour looks beside a grey of its lightness, in a
// long and a short form; both "" where there is nothing to say.
func SaySeen(s analysis.Spot) (long, short string) {
	switch s.SeenHint() {
	case analysis.SeenLittle:
		return "looks a little lighter than its grey", "looks a little lighter"
	case analysis.SeenClearly:
		return "looks clearly lighter than its grey", "looks clearly lighter"
	}
	return "", ""
}

// CardText is what a spot's card shows, ready to be drawn.
type CardText struct {
	Name                                     string
	Colour                                   colour.RGB
	Grey                                     uint8 // of the same lightness
	Hex                                      string
	Lightness, Value, LayerGrey, Chroma, Hue string
	Note                                     string // what is to be known before the figures are trusted
	Seen, SeenShort                          string // a hint on how light the colour looks
	Selected                                 bool
	Lost                                     bool // there is no reading
	Empty                                    bool // there is no spot
}

// SayEmptyCard stands where a spot's card will be, so that nothing moves when it comes.
func SayEmptyCard(name string) CardText {
	t := SayLostCard(name, false)
	t.Note, t.Empty = "", true
	return t
}

// SayLostCard is the card of a spot that lies outside of the picture.
func SayLostCard(name string, selected bool) CardText {
	return CardText{
		Name: name, Hex: Unknown, Lightness: Unknown, Value: Unknown, LayerGrey: Unknown, Chroma: Unknown, Hue: Unknown,
		Note: "outside the picture", Selected: selected, Lost: true,
	}
}

// SaySwatch lists a colour's numbers: code, lightness, value, chroma and hue (C*ab, degrees).
func SaySwatch(s analysis.Spot) string {
	words := s.Colour.Hex() + "  lightness " + Tenth(s.Lightness) + ", value " + Tenth(s.Value) + ", chroma " + Tenth(s.Chroma)
	if s.Hue != nil {
		words += ", hue " + HueSay(s.Hue)
	}
	return words
}
