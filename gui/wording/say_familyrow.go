package wording

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/language"
)

// FamilyRowText is what a local colour's row shows, ready to be drawn.
type FamilyRowText struct {
	Light, Shadow         colour.RGB
	LightGrey, ShadowGrey uint8       // of the same lightness
	Tones                 string      // "2.2 tones"
	Says, SaysShort       string      // "a strong step"; the same for a narrow window
	Share, ShareShort     string      // of the picture, or how it was set; "" if that is not known
	Below, BelowShort     string      // the second line: how hue and saturation go, or what is the matter
	Black                 bool        // it says "straight toward black": with the warning sign
	Told                  bool        // whether there is an accent or a line is known
	Accent, Line          *colour.RGB // nil for none
	Remarks               []string    // what else there is to say, a sentence each without its stop
	Lost                  bool        // there is no reading
	Kept                  bool        // the painter keeps it
	Keep, KeepTip         string      // the button that keeps it, or shows it again; "" for none
	Cross                 string      // what the cross does; "" for none
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
	t.Kept = kept
	t.Keep, t.KeepTip, t.Cross = language.Say("A local colour"), language.Say("A local colour: list it, however sure the program is"), language.Say("Not a local colour, Delete")
	if kept {
		t.Keep, t.KeepTip = language.Say("Kept"), language.Say("You keep it. Press to leave it to the program again")
	}
}

// SayFollowedFamily is the row of a family that is kept and was not found now, read where it
// was.
func SayFollowedFamily(f families.Family, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.sayKeep(true)
	text.matter(language.Say("not found now: read where it was"))
	return text
}

// SayAbsentFamily is the row of a family that is kept, and of which nothing is there now: with
// the colours that it had.
func SayAbsentFamily(f families.Family) FamilyRowText {
	text := familyColours(f)
	text.Says, text.SaysShort = language.Say("not found now"), language.Say("not found")
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
	text.Says, text.SaysShort = language.Say("not shown"), language.Say("not shown")
	text.Keep, text.KeepTip = language.Say("Show"), language.Say("Show this local colour again")
	return text
}

// deleteTip says what the cross does to a family set by hand.
const deleteTip language.Words = "Take this local colour away, Delete"

// SayManualFamily is the row of family i set by hand; moved says that the picture moved since.
func SayManualFamily(i int, f families.Family, moved bool, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.Cross = deleteTip.String()
	text.Share, text.ShareShort = language.Say("by hand %d", i+1), fmt.Sprint(i+1)
	if moved {
		text.matter(language.Say("picture moved"))
	}
	return text
}

// SayLostFamily is the row of family i set by hand where there is nothing to read.
func SayLostFamily(i int) FamilyRowText {
	return FamilyRowText{Tones: language.Say("Set by hand %d", i+1), Says: language.Say("outside the picture"), SaysShort: language.Say("outside"), Cross: deleteTip.String(), Lost: true}
}

// matter puts into the second line what is the matter; what stood there is a remark.
func (t *FamilyRowText) matter(words string) {
	if t.Below != "" {
		t.Remarks = append([]string{t.Below}, t.Remarks...)
	}
	t.Below, t.BelowShort, t.Black = words, words, false
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
	said, text := SayFamily(f), familyColours(f)
	text.Remarks = said.Remarks
	text.Black = slices.Contains(f.Verdict, families.TowardBlack) && said.Turn != ""
	switch {
	case text.Black: // one line says both
		text.Below, text.BelowShort = language.Say("keeps its hue: straight toward black"), language.Say("straight toward black")
		text.Remarks = text.Remarks[1:]
	case said.Turn != "":
		text.Below, text.BelowShort = sayTurn(f, Whole, turned), sayTurn(f, Whole, turnedShort)
	}
	says, short := familyVerdict(f)
	text.Tones, text.Says, text.SaysShort = SayTones(f.Tones), says.String(), narrowStep(cmp.Or(short, says)).String()
	text.Told = true
	if f.Accent != nil {
		text.Accent = &f.Accent.Colour
	}
	if f.Line != nil {
		text.Line = &f.Line.Colour
		if fits := fittingLines(f, shade); fits != "" {
			text.Remarks = append(text.Remarks, language.Say("a line that fits it: %s", fits))
		}
	}
	return text
}

// fittingLines are the colours proposed in place of a neutral line.
func fittingLines(f families.Family, shade propose.Options) string {
	var fits []string
	if f.Line.Neutral {
		for _, l := range propose.Shade(f.Light, shade).Lines {
			if l.Spot != nil {
				fits = append(fits, l.Spot.Colour.Hex())
			}
		}
	}
	return strings.Join(fits, comma())
}
