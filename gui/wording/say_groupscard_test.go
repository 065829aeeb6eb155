package wording

import (
	"math"
	"slices"
	"testing"

	"app.tonedesk/analysis"
)

// halfBlack is a picture of which the left half is black and the right one white, read.
func halfBlack(o analysis.Options) *analysis.Reading {
	p := analysis.Pixels{Pix: make([]byte, 4*40*20), Stride: 160, Width: 40, Height: 20, Layout: analysis.RGBA}
	for i := range p.Pix {
		if i%4 == 3 || i/4%40 >= 20 {
			p.Pix[i] = 255
		}
	}
	return analysis.Read(p, o)
}

// Black is value 0 and white 10 (D1535); half of the picture is each.
func TestSayGroupsCard(t *testing.T) {
	card := SayGroupsCard(halfBlack(analysis.Options{Groups: 2}), analysis.Limits{Dark: 8, Light: 97}, true)
	plain := "Too dark 50.0" + Nbsp + "%, too light 50.0" + Nbsp + "%"
	if !slices.Equal(card.Shares, []string{"50" + Nbsp + "%", "50" + Nbsp + "%"}) || len(card.Gaps) != 1 || Tenth(card.Gaps[0]) != "10.0" || card.Murk != "Murk"+Nbsp+"0"+Nbsp+"%" {
		t.Errorf("%+v", card)
	}
	if !slices.Equal(card.Limits, []string{plain + ", hatched in the picture", plain}) {
		t.Errorf("limits %q", card.Limits)
	}
	if got := SayGroupsCard(halfBlack(analysis.Options{Groups: 2}), analysis.Limits{Dark: 8, Light: 97}, false).Limits; !slices.Equal(got, []string{plain}) {
		t.Errorf("not hatched: %q", got)
	}
}

func TestSayGroupsGround(t *testing.T) {
	for ground, want := range map[analysis.Ground]string{
		analysis.GroundLeftOut: "Without the ground, 62" + Nbsp + "%. Too dark 0.5" + Nbsp + "%, too light 4.2" + Nbsp + "%",
		analysis.NoGround:      "No ground found. Too dark 0.5" + Nbsp + "%, too light 4.2" + Nbsp + "%",
		analysis.OnlyGround:    "Hardly more than ground. Too dark 0.5" + Nbsp + "%, too light 4.2" + Nbsp + "%",
	} {
		if got := sayLimits(0.005, 0.042, sayGroundShort(ground, 0.62), true); len(got) != 1 || got[0] != want {
			t.Errorf("%v: %q, want %q", ground, got, want)
		}
	}
}

func TestSayGap(t *testing.T) {
	for tones, want := range map[float64][2]string{2.54: {"2.5" + Nbsp + "tones", "2.5"}, math.NaN(): {"", ""}} {
		if full, short := SayGap(tones); full != want[0] || short != want[1] {
			t.Errorf("%g: %q, %q", tones, full, short)
		}
	}
}
