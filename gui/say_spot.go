package gui

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
	seen, seenShort := saySeen(s)
	return CardText{
		Name:      name,
		Colour:    s.Colour,
		Grey:      colour.GreyOf(s.Lightness),
		Hex:       HexSay(s.Colour),
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

// saySeen hints at how light a saturated colour looks beside a grey of its lightness, in a
// long and a short form; both "" where there is nothing to say.
func saySeen(s analysis.Spot) (long, short string) {
	switch s.SeenHint() {
	case analysis.SeenLittle:
		return "looks a little lighter than its grey", "looks a little lighter"
	case analysis.SeenClearly:
		return "looks clearly lighter than its grey", "looks clearly lighter"
	}
	return "", ""
}
