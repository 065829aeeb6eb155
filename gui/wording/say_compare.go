package wording

import (
	"math"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
)

// GroupRow is what became of a group, as a row of a table.
type GroupRow struct {
	Name   string
	Before string // share of the picture
	Now    string // the same
	Value  string // of its mean: "8.8 → 8.9", or one figure where it stayed
}

// SayGroupRows says what became of each group, the lightest first. Both shares are by the
// borders of the picture before.
func SayGroupRows(c *analysis.Change, fromWhite bool) (rows []GroupRow) {
	var before, now []analysis.Group
	for _, g := range c.Groups {
		share := g.Share
		for _, m := range c.Moves {
			if m.From == g.Name {
				share -= m.Share
			}
			if m.To == g.Name {
				share += m.Share
			}
		}
		before = append(before, analysis.Group{Name: g.Name, Share: g.Share})
		now = append(now, analysis.Group{Name: g.Name, Share: max(share, 0)})
	}
	was, is := GroupShares(before), GroupShares(now)
	for i, g := range c.Groups {
		rows = append(rows, GroupRow{Name: language.Name(g.Name), Before: was[i], Now: is[i], Value: sayValues(g.Before, g.After, fromWhite)})
	}
	slices.Reverse(rows)
	return rows
}

// sayValues says the value of a lightness before and of one now.
func sayValues(before, now float64, fromWhite bool) string {
	say := func(lightness float64) string {
		if math.IsNaN(lightness) {
			return language.Say("none")
		}
		return ValueSay(colour.Value(lightness), fromWhite)
	}
	was, is := say(before), say(now)
	if was == is {
		return was
	}
	return was + Nbsp + "→" + Nbsp + is
}

// SayWentWhere says in lines how much of the picture changed, and what the most of it became.
func SayWentWhere(c *analysis.Change) []string {
	if c.Counted == 0 {
		return nil
	}
	if c.Altered == 0 {
		return []string{language.Say("Nothing changed by more than a quarter of a tone.")}
	}
	lines := []string{language.Say("%s of the picture changed.", Percent(c.Altered))}
	if len(c.Moves) > 0 && c.Moves[0].Share >= 0.005 { // under one percent, as printed
		m := c.Moves[0]
		lines = append(lines, language.Say("%s of the picture went from %s to %s.", Percent(m.Share), language.Name(m.From), language.Name(m.To)))
	}
	return lines
}

// SayNothingBefore is the sentence where there is no still to compare with, and SayChooseBefore
// where there is one and none is chosen.
func SayNothingBefore() Sentence {
	return Sentence{Title: language.Say("Keep a still to compare with"), Short: language.Say("Keep a still first"), Icon: IconStill, Dim: true}
}

// SayChooseBefore asks for one of the stills.
func SayChooseBefore() Sentence {
	return Sentence{Title: language.Say("Choose the picture before"), Short: language.Say("Choose one before"), Icon: IconStill}
}
