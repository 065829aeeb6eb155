package wording

import (
	"fmt"
	"reflect"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
)

// FamilyRowText is what a family's row shows, ready to be drawn.
type FamilyRowText struct {
	Light, Shadow         colour.RGB
	LightGrey, ShadowGrey uint8        // of the same lightness
	Tones                 string       // "2.2 tones"
	Says, SaysShort       string       // "the shadow will not read"; the same for a narrow window
	Share                 string       // of the picture; "" if it is not known
	Remarks               []string     // quieter, a line each
	Lines                 []colour.RGB // lines to draw instead, after the last remark
	ByHand                bool         // set by the painter, who may take it away
	Lost                  bool         // there is no reading
}

// Equal reports whether a row of either shows the same.
func (t FamilyRowText) Equal(o FamilyRowText) bool { return reflect.DeepEqual(t, o) }

// SayFoundFamily is the row of a family that was found. Lines are proposed by shade.
func SayFoundFamily(f families.Family, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	if f.Share != nil {
		text.Share = Percent(*f.Share)
	}
	return text
}

// SayHandFamily is the row of family i set by hand; moved says that the picture moved since.
func SayHandFamily(i int, f families.Family, moved bool, shade propose.Options) FamilyRowText {
	text := sayFamilyRow(f, shade)
	text.ByHand = true
	note := fmt.Sprintf("set by hand: light%d, shadow%d", i+1, i+1)
	if moved {
		note = "picture moved"
	}
	text.Remarks = append([]string{note}, text.Remarks...)
	return text
}

// SayLostFamily is the row of family i set by hand where there is nothing to read.
func SayLostFamily(i int) FamilyRowText {
	return FamilyRowText{Tones: fmt.Sprintf("Family %d", i+1), Says: "outside the picture", SaysShort: "outside", ByHand: true, Lost: true}
}

// SayFamilyList says that no family is listed, or that there are more; else nothing.
func SayFamilyList(listed, more int) string {
	switch {
	case more > 0:
		return fmt.Sprintf("The %d largest are listed; %d smaller ones are not.", listed, more)
	case listed == 0:
		return "No local colour is painted here as a light side and a shadow side, as far as can be seen. Set one by hand to follow it."
	}
	return ""
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
	text := FamilyRowText{
		Light: f.Light.Colour, Shadow: f.Shadow.Colour,
		LightGrey: colour.GreyOf(f.Light.Lightness), ShadowGrey: colour.GreyOf(f.Shadow.Lightness),
		Tones: tones, Says: says, SaysShort: short, Remarks: remarks,
	}
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
