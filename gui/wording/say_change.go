package wording

import (
	"math"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
)

// mostMoves is how many moves between groups are said: the largest.
const mostMoves = 3

// SayChange says in one sentence what happened to a picture's lightness. It describes and
// doesn't judge.
func SayChange(c *analysis.Change) string {
	if c.Counted == 0 {
		return language.Say("Nothing is counted in both")
	}
	parts := slices.Concat(changedGroups(c), changedGaps(c), changedShares(c))
	if len(parts) == 0 {
		return language.Say("No change in lightness")
	}
	return Capitalised(strings.Join(parts, comma()))
}

// changedGroups says what became lighter or darker, as printed.
func changedGroups(c *analysis.Change) (parts []string) {
	for _, g := range c.Groups {
		tones := analysis.AsPrinted(g.Tones)
		if tones == 0 || math.IsNaN(tones) {
			continue
		}
		parts = append(parts, language.Say("%s group %s %s", language.Name(g.Name), SayTones(math.Abs(tones)), direction(tones)))
	}
	return parts
}

func changedGaps(c *analysis.Change) (parts []string) {
	for _, g := range c.Gaps {
		if math.IsNaN(g.After) {
			parts = append(parts, language.Say("gap between %s and %s gone", language.Name(g.Darker), language.Name(g.Lighter)))
		} else if was, is := Tenth(g.Before), Tenth(g.After); was != is {
			parts = append(parts, language.Say("gap between %s and %s from %s to %s", language.Name(g.Darker), language.Name(g.Lighter), was, is))
		}
	}
	return parts
}

func changedShares(c *analysis.Change) (parts []string) {
	for _, m := range c.Moves[:min(len(c.Moves), mostMoves)] {
		if m.Share < 0.005 { // under one percent, as printed
			break
		}
		from, to := language.Name(m.From), language.Name(m.To)
		if len(parts) > 0 {
			parts = append(parts, language.Say("%s from %s to %s", Percent(m.Share), from, to))
		} else {
			parts = append(parts, language.Say("%s of the picture went from %s to %s", Percent(m.Share), from, to))
		}
	}
	return parts
}

// SayAlignment says how two pictures were laid over each other, "" where there is nothing to
// say.
func SayAlignment(a stills.Aligned) string {
	size := SizeSay(a.Before.Width, a.Before.Height)
	switch {
	case a.How == stills.ByPosition:
		return language.Say("They show different parts of one place: the %s pixels that both show are compared", size)
	case a.How == stills.Scaled && a.Stretched:
		return language.Say("Their sizes and shapes differ: both are brought to %s pixels, which stretches one of them", size)
	case a.How == stills.Scaled:
		return language.Say("Their sizes differ: both are brought to %s pixels", size)
	}
	return ""
}

// PictureBefore is the name of a picture from before where its own finds no room.
const PictureBefore language.Words = "before"

// PictureNow is the name of the picture that is watched, beside that of one from before.
const PictureNow language.Words = "now"

// MapFigures returns what is drawn at the ends and in the middle of a map's scale.
func MapFigures(span float64) [3]string {
	return [3]string{minus + Whole(span), "0", language.Say("+%s\u00a0tones", Whole(span))}
}
