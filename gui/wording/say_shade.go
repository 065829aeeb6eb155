package wording

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/language"
)

// SayStepTones says how far a proposed colour is below its base: "2 tones darker".
func SayStepTones(below float64) string {
	tones, format := math.Abs(below), language.Words("%s\u00a0tones %s")
	if tones == 1 {
		format = language.Plural(1, "%s\u00a0tone %s", "%s\u00a0tones %s")
	}
	return language.Say(format, language.Number(tones, -1), direction(-below))
}

// SayStep says what was done to a base to make a step of its ramp, and how that came out:
// "hue shift 33.4° toward red, 22 % richer".
func SayStep(base analysis.Spot, s propose.Step) string {
	outcome := SayOutcome(s.Note)
	if s.Spot == nil {
		return outcome
	}
	said := sayTurn(families.Family{Light: base, Shadow: *s.Spot, HueTurn: s.HueTurn, SaturationGain: s.SaturationGain}, Tenth, turned)
	return joined(said, outcome)
}

// comma parts what is listed.
func comma() string { return language.Say(", ¦in a list") }

// joined joins two remarks, either of which may be "".
func joined(first, second string) string {
	if first == "" || second == "" {
		return first + second
	}
	return first + comma() + second
}

// SayLine says the same of a line around a fill.
func SayLine(fill analysis.Spot, l propose.Line) string {
	said := SayStep(fill, l.Step)
	if !l.MayVanish || l.Spot == nil {
		return said
	}
	return joined(said, language.Say("may vanish"))
}

// SayLines says what all the lines of a fill have in common.
func SayLines(s *propose.Shades) string {
	lines, saturated, edge := 0, 0, false
	for _, l := range s.Lines {
		if l.Spot == nil {
			continue
		}
		lines++
		edge = edge || l.Note == propose.AtEdge
		if l.SaturationGain != nil && math.Round(100**l.SaturationGain) != 0 && *l.SaturationGain > 0 {
			saturated++
		}
	}
	switch {
	case lines == 0:
		return language.Say("The fill is so dark that a line below it is out of range.")
	case s.Lines[0].MayVanish:
		return language.Say("The fill is so light that its line may vanish there.")
	case saturated == lines:
		return language.Say("A line takes the colour of its form, darker and richer.")
	case edge && s.Options.Gain > 0:
		return language.Say("A line takes the colour of its form, darker, and richer where the display can show it.")
	}
	return language.Say("A line takes the colour of its form, darker.")
}

// SayOutcome says how a proposed colour came out, "" if as asked for.
func SayOutcome(n propose.Note) string {
	switch n {
	case propose.NoRoom:
		return language.Say("out of range")
	case propose.AtEdge:
		return language.Say("at the gamut's limit")
	case propose.AtMost:
		return language.Say("at the limit of its chroma")
	}
	return ""
}

// SayEqualBy says what accents keep.
func SayEqualBy(by propose.EqualBy) string {
	switch by {
	case propose.ByLayerGrey:
		return language.Say("the same layer grey")
	case propose.BySeenLightness:
		return language.Say("the same seen lightness")
	}
	return language.Say("the same lightness")
}

// SayBrought says how one spot came out at the lightness of another, by their names.
func SayBrought(m propose.Brought, a, b string) string {
	said := language.Say("%s at the lightness of %s: %s", b, a, m.Matched.Colour.Hex())
	if m.Note == propose.AtEdge {
		return language.Say("%s, with as much chroma as the display has there", said)
	}
	return language.Say("%s, with all of its chroma", said)
}

// SayJudged says what would satisfy the rules in place of a shadow that the painter chose; ""
// where that is of another material.
func SayJudged(j propose.Judged) string {
	switch {
	case j.Nearest != nil:
		return language.Say("The nearest that reads and does not go toward black: %s, %s\u00a0(CIEDE2000) away", j.Nearest.Colour.Hex(), Tenth(*j.Distance))
	case j.Family.Satisfies():
		return language.Say("Nothing to change by these rules")
	case slices.Contains(j.Family.Verdict, families.Unlike):
		return ""
	}
	return language.Say("A shadow that satisfies the rules is out of range")
}

// SayJudgement says all of a shadow that the painter chose, a sentence each.
func SayJudgement(j propose.Judged) []string {
	said := SayFamily(j.Family)
	var sentences []string
	for _, part := range append(append([]string{said.Title, said.Turn}, said.Remarks...), SayJudged(j)) {
		if part != "" {
			sentences = append(sentences, Stopped(Capitalised(part)))
		}
	}
	return sentences
}

// SayEmptyValues says which steps of the value scale a picture leaves empty.
func SayEmptyValues(empty []int) string {
	switch len(empty) {
	case 0:
		return language.Say("No value is empty")
	case colour.Steps:
		return language.Say("Nothing is counted")
	}
	var spans []string
	for i := 0; i < len(empty); {
		last := i
		for last+1 < len(empty) && empty[last+1] == empty[last]+1 {
			last++
		}
		spans = append(spans, language.Say("%s to %s", strconv.Itoa(empty[i]), strconv.Itoa(empty[last]+1)))
		i = last + 1
	}
	return language.Say("Empty values: %s", strings.Join(spans, comma()))
}

// SayAccents tells what the half-high swatches of a row of accents mean.
func SayAccents(missing, all int) string {
	switch missing {
	case 0:
		return language.Say("Above at the chosen chroma, below at the display's most.")
	case all:
		return language.Say("The display reaches this chroma in no hue here: all show the most there is.")
	}
	return language.Say("Above at the chosen chroma (half as high where the display has less), below at the display's most.")
}
