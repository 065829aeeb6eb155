package wording

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/language"
)

// FamilyText is what is said of a family: a light and its shadow.
type FamilyText struct {
	Title   string   // "2.2 tones: reads"
	Short   string   // the same for a narrow window
	Turn    string   // how hue and saturation go from light to shadow; "" where nothing is known
	Remarks []string // what else there is to say, the most important first
}

// SayFamily returns what is said of a family.
func SayFamily(f families.Family) FamilyText {
	text := FamilyText{Turn: sayTurn(f, Tenth, turned)}
	says, short := familyVerdict(f)
	text.Title = language.Say("%s: %s¦verdict", SayTones(f.Tones), says)
	text.Short = language.Say("%s: %s¦verdict", Tenth(f.Tones), cmp.Or(short, says))
	if slices.Contains(f.Verdict, families.Unlike) {
		text.Turn = ""
		text.Remarks = append(text.Remarks, sayUnlike(f))
	}
	for _, v := range f.Verdict {
		switch v {
		case families.TowardBlack:
			text.Remarks = append(text.Remarks, language.Say("straight toward black: shift the hue first"))
		case families.Overlaps:
			text.Remarks = append(text.Remarks, language.Say("the lightest shadow is %s lighter than the darkest light", SayTones(*f.Overlap)))
		}
	}
	if f.Accent != nil {
		text.Remarks = append(text.Remarks, sayAccent(*f.Accent))
	}
	if f.Line != nil {
		text.Remarks = append(text.Remarks, sayLine(*f.Line))
	}
	return text
}

// familyVerdict says what it means in the trade how far light and shadow are apart; short is "" where
// that is short enough.
func familyVerdict(f families.Family) (says, short language.Words) {
	switch {
	case slices.Contains(f.Verdict, families.Unlike):
		return "hardly one local colour", "hardly one"
	case slices.Contains(f.Verdict, families.Reads):
		return stepReads, ""
	case slices.Contains(f.Verdict, families.Strong):
		return stepStrong, ""
	}
	return stepSoft, ""
}

// sayUnlike says why two colours are hardly one local colour.
func sayUnlike(f families.Family) string {
	if families.NearNeutral(f.Light) || families.NearNeutral(f.Shadow) {
		return language.Say("the colour changes by more than that of one material from light to shadow")
	}
	apart := math.Abs(families.TurnBetween(f.Light.Oklab.Hue(), f.Shadow.Oklab.Hue()))
	return language.Say("the hues are %s° apart, more than those of one material in light and shadow", Tenth(apart))
}

// seenTurn is the turn of a hue, in degrees, under which it is said to stay: a quarter of what
// counts as a turn (our choice).
const seenTurn = 2.0

// How a hue shift is said, and in a row, which has little room.
const (
	turned      language.Words = "hue shift %s° toward %s"
	turnedShort language.Words = "%s° toward %s"
)

// sayTurn says where hue and saturation go in the shadow. A shadow that has no hue beside a
// light that has one is neutral: how saturated it is, is chance. So is by how much it is more
// saturated than a light that is nearly neutral. degrees writes the figure, turn the shift.
func sayTurn(f families.Family, degrees func(float64) string, turn language.Words) string {
	if f.HueTurn == nil && f.SaturationGain != nil {
		if f.Shadow.Colour.Neutral() {
			return language.Say("neutral")
		}
		return language.Say("nearly neutral")
	}
	var parts []string
	switch toward := f.TurnsToward(); {
	case f.HueTurn == nil:
	case toward == "" || math.Abs(*f.HueTurn) < seenTurn:
		parts = append(parts, language.Say("same hue"))
	default:
		parts = append(parts, language.Say(turn, degrees(math.Abs(*f.HueTurn)), language.Name(toward)))
	}
	if f.SaturationGain != nil {
		parts = append(parts, sayGain(*f.SaturationGain, families.NearNeutral(f.Light)))
	}
	return strings.Join(parts, comma())
}

// sayGain says how much richer a shadow is, that is more saturated, or duller; of a nearly
// neutral light, only that it is.
func sayGain(gain float64, nearNeutral bool) string {
	percent := math.Round(100 * math.Abs(gain))
	switch {
	case percent == 0:
		return language.Say("same saturation")
	case gain > 0 && nearNeutral:
		return language.Say("richer")
	case nearNeutral:
		return language.Say("duller")
	case gain > 0:
		return language.Say("%s\u00a0%% richer", Whole(percent))
	}
	return language.Say("%s\u00a0%% duller", Whole(percent))
}

// sayAccent says whether the core shadow's accent keeps its lightness.
func sayAccent(a families.Accent) string {
	off := Tenth(math.Abs(a.LightnessDifference)) + " " + direction(a.LightnessDifference)
	if a.KeepsLightness {
		return language.Say("core-shadow accent %s keeps its lightness: %s", a.Colour.Hex(), off)
	}
	return language.Say("core-shadow accent %s is %s than the nearer side", a.Colour.Hex(), off)
}

// blackUpTo is the value up to which a neutral line is called black (common practice, no
// source).
const blackUpTo = 3.0

// sayLine says what colour the line has and how far below the fill it lies.
func sayLine(l families.Line) string {
	name := language.Name(colour.HueName(l.Oklab.Hue()))
	if l.Neutral {
		name = language.Say("neutral grey")
		if analysis.AsPrinted(l.Value) <= blackUpTo {
			name = language.Say("neutral black")
		}
	}
	said := language.Say("%s line %s, %s below the fill", name, l.Colour.Hex(), SayTones(math.Abs(l.TonesBelow)))
	if analysis.AsPrinted(l.TonesBelow) < 0 {
		said = language.Say("%s line %s, %s above the fill", name, l.Colour.Hex(), SayTones(math.Abs(l.TonesBelow)))
	}
	if l.MayVanish {
		said = joined(said, language.Say("may vanish in so strong a light"))
	}
	return said
}

// SayFold is the heading of a fold of so many rows: those not to be seen, or those unsure.
func SayFold(refused bool, n int) string {
	if refused {
		return language.Say("Not shown (%d)", n)
	}
	return language.Say("Unsure (%d)", n)
}

// SayFamilyList says that no family is listed, or that there are more; else nothing. unsure
// says that there are some that may be none.
func SayFamilyList(listed, more int, unsure bool) string {
	switch {
	case more > 0:
		return language.Say("The %d largest are listed; %d smaller ones are not.", listed, more)
	case listed == 0 && unsure:
		return language.Say("No local colour is surely painted here as a light side and a shadow side. Keep one of the unsure, or set one by hand.")
	case listed == 0:
		return language.Say("No local colour is painted here as a light side and a shadow side, as far as can be seen. Set one by hand to follow it.")
	}
	return ""
}
