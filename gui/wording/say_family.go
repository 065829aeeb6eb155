package wording

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
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
	text := FamilyText{Turn: sayTurn(f, Tenth)}
	text.Title, text.Short = familyTitle(f)
	if slices.Contains(f.Verdict, families.Unlike) {
		text.Turn = ""
		text.Remarks = append(text.Remarks, sayUnlike(f))
	}
	for _, v := range f.Verdict {
		switch v {
		case families.TowardBlack:
			text.Remarks = append(text.Remarks, "straight toward black: shift the hue first")
		case families.Overlaps:
			text.Remarks = append(text.Remarks, "the lightest shadow is "+SayTones(*f.Overlap)+" lighter than the darkest light")
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

// familyTitle says how far light and shadow are apart and what that means in the trade.
func familyTitle(f families.Family) (title, short string) {
	title = stepSoft
	switch {
	case slices.Contains(f.Verdict, families.Unlike):
		title, short = "hardly one local colour", "hardly one"
	case slices.Contains(f.Verdict, families.Reads):
		title = stepReads
	case slices.Contains(f.Verdict, families.Strong):
		title = stepStrong
	}
	return SayTones(f.Tones) + ": " + title, Tenth(f.Tones) + ": " + cmp.Or(short, title)
}

// sayUnlike says why two colours are hardly one local colour.
func sayUnlike(f families.Family) string {
	if families.NearNeutral(f.Light) || families.NearNeutral(f.Shadow) {
		return "the colour changes by more than that of one material from light to shadow"
	}
	apart := math.Abs(families.TurnBetween(f.Light.Oklab.Hue(), f.Shadow.Oklab.Hue()))
	return "the hues are " + Tenth(apart) + "° apart, more than those of one material in light and shadow"
}

// seenTurn is the turn of a hue, in degrees, under which it is said to stay: a quarter of what
// counts as a turn (our choice).
const seenTurn = 2.0

// sayTurn says where hue and saturation go in the shadow. A shadow that has no hue beside a
// light that has one is neutral: how saturated it is, is chance. So is by how much it is more
// saturated than a light that is nearly neutral. degrees writes the figure.
func sayTurn(f families.Family, degrees func(float64) string) string {
	if f.HueTurn == nil && f.SaturationGain != nil {
		if f.Shadow.Colour.Neutral() {
			return "neutral"
		}
		return "nearly neutral"
	}
	var parts []string
	switch toward := f.TurnsToward(); {
	case f.HueTurn == nil:
	case toward == "" || math.Abs(*f.HueTurn) < seenTurn:
		parts = append(parts, "same hue")
	default:
		parts = append(parts, "hue shift "+degrees(math.Abs(*f.HueTurn))+"° toward "+toward)
	}
	if f.SaturationGain != nil {
		parts = append(parts, sayGain(*f.SaturationGain, families.NearNeutral(f.Light)))
	}
	return strings.Join(parts, ", ")
}

// sayGain says how much richer a shadow is, that is more saturated, or duller; of a nearly
// neutral light, only that it is.
func sayGain(gain float64, nearNeutral bool) string {
	percent := Whole(100 * math.Abs(gain))
	if percent == "0" {
		return "same saturation"
	}
	said := "duller"
	if gain > 0 {
		said = "richer"
	}
	if nearNeutral {
		return said
	}
	return percent + Nbsp + "% " + said
}

// sayAccent says whether the core shadow's accent keeps its lightness.
func sayAccent(a families.Accent) string {
	off := Tenth(math.Abs(a.LightnessDifference)) + " " + direction(a.LightnessDifference)
	if a.KeepsLightness {
		return "core-shadow accent " + a.Colour.Hex() + " keeps its lightness: " + off
	}
	return "core-shadow accent " + a.Colour.Hex() + " is " + off + " than the nearer side"
}

// blackUpTo is the value up to which a neutral line is called black (common practice, no
// source).
const blackUpTo = 3.0

// sayLine says what colour the line has and how far below the fill it lies.
func sayLine(l families.Line) string {
	name := colour.HueName(l.Oklab.Hue())
	if l.Neutral {
		name = "neutral grey"
		if analysis.AsPrinted(l.Value) <= blackUpTo {
			name = "neutral black"
		}
	}
	side := " below the fill"
	if analysis.AsPrinted(l.TonesBelow) < 0 {
		side = " above the fill"
	}
	said := name + " line " + l.Colour.Hex() + ", " + SayTones(math.Abs(l.TonesBelow)) + side
	if l.MayVanish {
		said += ", may vanish in so strong a light"
	}
	return said
}

// SayFold is the heading of a fold of so many rows: those not to be seen, or those unsure.
func SayFold(refused bool, n int) string {
	if refused {
		return fmt.Sprintf("Not shown (%d)", n)
	}
	return fmt.Sprintf("Unsure (%d)", n)
}

// SayFamilyList says that no family is listed, or that there are more; else nothing. unsure
// says that there are some that may be none.
func SayFamilyList(listed, more int, unsure bool) string {
	switch {
	case more > 0:
		return fmt.Sprintf("The %d largest are listed; %d smaller ones are not.", listed, more)
	case listed == 0 && unsure:
		return "No local colour is surely painted here as a light side and a shadow side. Keep one of the unsure, or set one by hand."
	case listed == 0:
		return "No local colour is painted here as a light side and a shadow side, as far as can be seen. Set one by hand to follow it."
	}
	return ""
}
