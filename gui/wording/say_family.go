package wording

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
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
	text := FamilyText{Turn: sayTurn(f)}
	text.Title, text.Short = familyTitle(f)
	if slices.Contains(f.Verdict, families.Unlike) {
		text.Turn = ""
		text.Remarks = append(text.Remarks, sayUnlike(f))
	}
	for _, v := range f.Verdict {
		switch v {
		case families.TowardBlack:
			text.Remarks = append(text.Remarks, "goes straight toward black: shift the hue first")
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
	title, short = "a soft step", "a soft step"
	switch {
	case slices.Contains(f.Verdict, families.Unlike):
		title, short = "hardly one local colour", "hardly one"
	case slices.Contains(f.Verdict, families.Reads):
		title, short = "reads", "reads"
	case slices.Contains(f.Verdict, families.TooFar):
		title, short = "may fall out of the picture", "may fall out"
	}
	return SayTones(f.Tones) + ": " + title, Tenth(f.Tones) + ": " + short
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
// saturated than a light that is nearly neutral.
func sayTurn(f families.Family) string {
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
		parts = append(parts, "hue stays")
	default:
		parts = append(parts, "hue shift "+Tenth(math.Abs(*f.HueTurn))+"° toward "+toward)
	}
	if f.SaturationGain != nil {
		parts = append(parts, sayGain(*f.SaturationGain, families.NearNeutral(f.Light)))
	}
	return strings.Join(parts, ", ")
}

// sayGain says how much more saturated a shadow is; of a nearly neutral light, only that it is.
func sayGain(gain float64, nearNeutral bool) string {
	percent := Whole(100 * math.Abs(gain))
	if percent == "0" {
		return "as saturated"
	}
	said := "less saturated"
	if gain > 0 {
		said = "more saturated"
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
		return "accent " + a.Colour.Hex() + " keeps its lightness: " + off
	}
	return "accent " + a.Colour.Hex() + " is " + off + " than the nearer side"
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

// FamilyRowText is what a family's row shows, ready to be drawn.
type FamilyRowText struct {
	Light, Shadow         colour.RGB
	LightGrey, ShadowGrey uint8        // of the same lightness
	Tones                 string       // "2.2 tones"
	Says, SaysShort       string       // "may fall out of the picture"; the same for a narrow window
	Share                 string       // of the picture; "" if it is not known
	Remarks               []string     // quieter, a line each
	Lines                 []colour.RGB // lines to draw instead, after the last remark
	Lost                  bool         // there is no reading
	Keep, KeepTip         string       // the button that keeps it, or shows it again; "" for none
	Cross                 string       // what the cross does; "" for none
}

// Equal reports whether a row of either shows the same.
func (t FamilyRowText) Equal(o FamilyRowText) bool { return reflect.DeepEqual(t, o) }

// SayFoundFamily is the row of a family that was found; kept says that the painter keeps it.
// Lines are proposed by shade.
func SayFoundFamily(f families.Family, kept bool, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.Share = sayShare(f)
	text.sayKeep(kept)
	return text
}

// sayShare is a family's share of the picture; "" if it is not known.
func sayShare(f families.Family) string {
	if f.Share == nil {
		return ""
	}
	return Percent(*f.Share)
}

// sayKeep offers to keep a family, or says that it is kept.
func (t *FamilyRowText) sayKeep(kept bool) {
	t.Keep, t.KeepTip, t.Cross = "Keep", "Keep it listed, however sure the program is", "Not this: it is no local colour (Delete)"
	if kept {
		t.Keep, t.KeepTip = "Kept", "You keep it. Press to leave it to the program again"
	}
}

// SayFollowedFamily is the row of a family that is kept and was not found now, read where it
// was.
func SayFollowedFamily(f families.Family, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.sayKeep(true)
	text.Remarks = append([]string{"not found now: read where it was"}, text.Remarks...)
	return text
}

// SayAbsentFamily is the row of a family that is kept, and of which nothing is there now: with
// the colours that it had.
func SayAbsentFamily(f families.Family) FamilyRowText {
	text := familyColours(f)
	text.Says, text.SaysShort = "not found now", "not found"
	text.sayKeep(true)
	return text
}

// SayUnsureFamily is the row of a family that may be none: its colours, and no verdict.
func SayUnsureFamily(f families.Family, kept bool) FamilyRowText {
	text := familyColours(f)
	text.Share = sayShare(f)
	text.sayKeep(kept)
	return text
}

// SayRefusedFamily is the row of what the painter says is no local colour.
func SayRefusedFamily(f families.Family) FamilyRowText {
	text := familyColours(f)
	text.Says, text.SaysShort = "not shown", "not shown"
	text.Keep, text.KeepTip = "Show", "Show this local colour again"
	return text
}

// SayFold is the heading of a fold of so many rows: those not to be seen, or those unsure.
func SayFold(refused bool, n int) string {
	if refused {
		return fmt.Sprintf("Not shown (%d)", n)
	}
	return fmt.Sprintf("Unsure (%d)", n)
}

// deleteTip says what the cross does to a family set by hand.
const deleteTip = "Take this local colour away (Delete)"

// SayManualFamily is the row of family i set by hand; moved says that the picture moved since.
func SayManualFamily(i int, f families.Family, moved bool, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.Cross = deleteTip
	note := fmt.Sprintf("set by hand: light%d, shadow%d", i+1, i+1)
	if moved {
		note = "picture moved"
	}
	text.Remarks = append([]string{note}, text.Remarks...)
	return text
}

// SayLostFamily is the row of family i set by hand where there is nothing to read.
func SayLostFamily(i int) FamilyRowText {
	return FamilyRowText{Tones: fmt.Sprintf("Set by hand %d", i+1), Says: "outside the picture", SaysShort: "outside", Cross: deleteTip, Lost: true}
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

// familyColours are the colours of a family, and nothing said.
func familyColours(f families.Family) FamilyRowText {
	return FamilyRowText{
		Light: f.Light.Colour, Shadow: f.Shadow.Colour,
		LightGrey: colour.GreyOf(f.Light.Lightness), ShadowGrey: colour.GreyOf(f.Shadow.Lightness),
	}
}

// sayFamilyRow is what is said of every family.
func sayFamilyRow(f families.Family, shade propose.Options) FamilyRowText {
	said := SayFamily(f)
	remarks := said.Remarks
	if said.Turn != "" {
		remarks = append([]string{said.Turn}, remarks...)
	}
	tones, says, _ := strings.Cut(said.Title, ": ")
	_, short, _ := strings.Cut(said.Short, ": ")
	text := familyColours(f)
	text.Tones, text.Says, text.SaysShort, text.Remarks = tones, says, short, remarks
	if f.Line != nil && f.Line.Neutral {
		text.Lines = fittingLines(f.Light, shade)
	}
	return text
}

// fittingLines are the colours proposed for the line around a fill.
func fittingLines(fill analysis.Spot, shade propose.Options) (lines []colour.RGB) {
	for _, l := range propose.Shade(fill, shade).Lines {
		if l.Spot != nil {
			lines = append(lines, l.Spot.Colour)
		}
	}
	return lines
}
