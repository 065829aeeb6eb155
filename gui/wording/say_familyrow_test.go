package wording

import (
	"slices"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/propose"
)

// The sides are those of the window's tests: by their CIE lightness (CIE15) on the scale of
// values (D1535) they are 2.2 tones apart.
func TestFamilyRows(t *testing.T) {
	light, shadow := colour.RGB{R: 0xe2, G: 0xab, B: 0x85}, colour.RGB{R: 0xb2, G: 0x6a, B: 0x5c}
	f := families.Of(analysis.SpotOf(light), analysis.SpotOf(shadow), families.DefaultRules())
	share := 0.12
	f.Share = &share
	shade := propose.DefaultOptions()
	found := SayFoundFamily(f, false, shade)
	if found.Light != light || found.Shadow != shadow || found.Tones != "2.2"+Nbsp+"tones" || found.Says != "reads" || found.Keep != "A local colour" || found.Cross == "" {
		t.Errorf("a family found: %+v", found)
	}
	if want := Percent(share); found.Share != want {
		t.Errorf("its share is %q, want %q", found.Share, want)
	}
	for moved, want := range map[bool]string{false: found.Below, true: "picture moved"} {
		hand := SayManualFamily(1, f, moved, shade)
		if hand.Keep != "" || hand.Cross == "" || hand.Share != "by hand 2" || hand.ShareShort != "2" || hand.Below != want || moved != slices.Contains(hand.Remarks, found.Below) {
			t.Errorf("a family set by hand: %+v, want below %q", hand, want)
		}
	}
	if lost := SayLostFamily(1); !lost.Lost || lost.Tones != "Set by hand 2" || lost.Equal(found) {
		t.Errorf("a family outside the picture: %+v", lost)
	}
	if kept := SayFoundFamily(f, true, shade); kept.Keep != "Kept" || kept.Says != found.Says {
		t.Errorf("a family that is kept: %+v", kept)
	}
	if followed := SayFollowedFamily(f, shade); followed.Share != "" || followed.Below != "not found now: read where it was" || followed.Remarks[0] != found.Below || followed.Says != found.Says {
		t.Errorf("a family that is kept and not found: %+v", followed)
	}
	for what, row := range map[string]FamilyRowText{"absent": SayAbsentFamily(f), "unsure": SayUnsureFamily(f, false), "refused": SayRefusedFamily(f)} {
		if row.Tones != "" || row.Below != "" || row.Told || len(row.Remarks) != 0 || row.Says == found.Says || row.Light != light || row.Shadow != shadow {
			t.Errorf("%s has a verdict: %+v", what, row)
		}
	}
	if a, b := SayFold(false, 3), SayFold(true, 1); a != "Unsure (3)" || b != "Not shown (1)" {
		t.Errorf("folds %q and %q", a, b)
	}
	if !found.Told || found.Line != nil || found.Accent != nil || slices.ContainsFunc(found.Remarks, offersLine) {
		t.Errorf("there is an accent or a line where there is none: %+v", found)
	}
	black := colour.RGB{R: 3, G: 3, B: 3}
	f.Line = &families.Line{Spot: analysis.SpotOf(black), Neutral: true}
	f.Accent = &families.Accent{Spot: analysis.SpotOf(light)}
	lined := SayFoundFamily(f, false, shade)
	if *lined.Line != black || *lined.Accent != light || !slices.ContainsFunc(lined.Remarks, offersLine) || lined.Equal(found) {
		t.Errorf("a neutral line and an accent: %+v", lined)
	}
}

func offersLine(remark string) bool { return strings.HasPrefix(remark, "a line that fits it: #") }

// The second line in full and where there is little room; the verdict too. The turns are the
// colours' own, by Oklab's hue (Ottosson 2020).
func TestFamilyRowBelow(t *testing.T) {
	light := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})
	turned := SayFoundFamily(families.Of(light, analysis.SpotOf(colour.RGB{R: 0xb2, G: 0x6a, B: 0x5c}), families.DefaultRules()), false, propose.DefaultOptions())
	if full, short := turned.Below, turned.BelowShort; !strings.HasPrefix(full, "hue shift ") || full != "hue shift "+short || turned.Black {
		t.Errorf("a shadow that turns: %q, %q", full, short)
	}
	black := SayFoundFamily(families.Of(light, analysis.SpotOf(colour.RGB{R: 0xa0, G: 0x78, B: 0x5d}), families.DefaultRules()), false, propose.DefaultOptions())
	if black.Below != "keeps its hue: straight toward black" || black.BelowShort != "straight toward black" || !black.Black {
		t.Errorf("a shadow straight toward black: %+v", black)
	}
	if soft := SayFoundFamily(families.Of(light, analysis.SpotOf(colour.RGB{R: 0xd0, G: 0x98, B: 0x7a}), families.DefaultRules()), false, propose.DefaultOptions()); soft.Says != "a soft step" || soft.SaysShort != "soft" {
		t.Errorf("a small step: %q, %q", soft.Says, soft.SaysShort)
	}
}

func TestSayFamilyList(t *testing.T) {
	for _, tt := range []struct {
		listed, more int
		unsure       bool
		want         string
	}{
		{0, 0, false, "No local colour is painted here as a light side and a shadow side, as far as can be seen. Set one by hand to follow it."},
		{0, 0, true, "No local colour is surely painted here as a light side and a shadow side. Keep one of the unsure, or set one by hand."},
		{3, 0, true, ""},
		{18, 2, false, "The 18 largest are listed; 2 smaller ones are not."},
	} {
		if got := SayFamilyList(tt.listed, tt.more, tt.unsure); got != tt.want {
			t.Errorf("%d listed, %d more: %q", tt.listed, tt.more, got)
		}
	}
}
