package wording

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
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
	t.Keep, t.KeepTip, t.Cross = "Keep", "Keep it listed, however sure the program is", "Not a local colour, Delete"
	if kept {
		t.Keep, t.KeepTip = "Kept", "You keep it. Press to leave it to the program again"
	}
}

// SayFollowedFamily is the row of a family that is kept and was not found now, read where it
// was.
func SayFollowedFamily(f families.Family, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.sayKeep(true)
	text.matter("not found now: read where it was")
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

// deleteTip says what the cross does to a family set by hand.
const deleteTip = "Take this local colour away, Delete"

// SayManualFamily is the row of family i set by hand; moved says that the picture moved since.
func SayManualFamily(i int, f families.Family, moved bool, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.Cross = deleteTip
	text.Share, text.ShareShort = fmt.Sprintf("by hand %d", i+1), fmt.Sprint(i+1)
	if moved {
		text.matter("picture moved")
	}
	return text
}

// SayLostFamily is the row of family i set by hand where there is nothing to read.
func SayLostFamily(i int) FamilyRowText {
	return FamilyRowText{Tones: fmt.Sprintf("Set by hand %d", i+1), Says: "outside the picture", SaysShort: "outside", Cross: deleteTip, Lost: true}
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
		text.Below, text.BelowShort = "keeps its hue: straight toward black", "straight toward black"
		text.Remarks = text.Remarks[1:]
	case said.Turn != "":
		text.Below = sayTurn(f, Whole) // a row has little room
		text.BelowShort = strings.TrimPrefix(text.Below, "hue shift ")
	}
	text.Tones, text.Says, _ = strings.Cut(said.Title, ": ")
	_, text.SaysShort, _ = strings.Cut(said.Short, ": ")
	text.SaysShort = strings.TrimSuffix(strings.TrimPrefix(text.SaysShort, "a "), " step")
	text.Told = true
	if f.Accent != nil {
		text.Accent = &f.Accent.Colour
	}
	if f.Line != nil {
		text.Line = &f.Line.Colour
		if fits := fittingLines(f, shade); fits != "" {
			text.Remarks = append(text.Remarks, "a line that fits it: "+fits)
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
	return strings.Join(fits, ", ")
}
