package main

import (
	"encoding/json"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// ball is a ball on a ground, lit from the left, painted with two codes.
func ball(light, shadow color.NRGBA) func(x, y int) color.NRGBA {
	return func(x, y int) color.NRGBA {
		dx, dy := float64(x)-100, float64(y)-75
		switch {
		case math.Hypot(dx, dy) > 50:
			return color.NRGBA{220, 224, 230, 255}
		case dx < 10:
			return light
		}
		return shadow
	}
}

// familyReport is a family in the JSON of desk read, as a reader of it would write it down.
type familyReport struct {
	Light, Shadow struct {
		Colour string
		X, Y   *int
		Size   *int
	}
	LightnessApart, Tones                 float64 `json:"-"`
	Share                                 *float64
	Verdict                               string
	Remarks                               []string
	HueTurn, SaturationGain, Accent, Line any `json:"-"`
}

func TestReadJSONFamilies(t *testing.T) {
	// red and half_red of srgb_to_lab_oklab.csv: L* 53.237116 and 25.533324, one hue, one saturation
	path := picture(t, "ball.png", 200, 150, ball(color.NRGBA{255, 0, 0, 255}, color.NRGBA{128, 0, 0, 255}))
	e := desktest.Run(t, "", "read", "--json", path)
	e.PlainErrors(t, 0)
	var names []map[string]any
	if err := json.Unmarshal(reportFrom(t, e.Out).Families, &names); err != nil || len(names) != 1 {
		t.Fatalf("%v: %s", err, e.Out)
	}
	for _, name := range strings.Fields("light shadow lightness_difference tones hue_turn saturation_gain share verdict remarks overlap accent line confidence") {
		if _, ok := names[0][name]; !ok {
			t.Errorf("a family lacks %s", name)
		}
		delete(names[0], name)
	}
	if len(names[0]) != 0 {
		t.Errorf("a family has more: %v", names[0])
	}
	var families []familyReport
	if err := json.Unmarshal(reportFrom(t, e.Out).Families, &families); err != nil {
		t.Fatal(err)
	}
	f := families[0]
	if f.Light.Colour != "#ff0000" || f.Shadow.Colour != "#800000" || f.Verdict != "reads" || !slices.Contains(f.Remarks, "toward_black") {
		t.Errorf("family %s", e.Out)
	}
	if f.Light.X == nil || *f.Light.X >= 110 || *f.Shadow.X < 110 || f.Light.Size == nil {
		t.Errorf("places %+v, %+v", f.Light, f.Shadow)
	}
	if want := math.Pi * 2500 / 30000; f.Share == nil || math.Abs(*f.Share-want) > 0.01 {
		t.Errorf("share %v, want %g", f.Share, want)
	}
}

// Left out they are null; where there are none the list is empty.
func TestReadWithoutFamilies(t *testing.T) {
	path := picture(t, "ball.png", 200, 150, ball(color.NRGBA{255, 0, 0, 255}, color.NRGBA{128, 0, 0, 255}))
	flat := picture(t, "flat.png", 200, 150, ball(color.NRGBA{255, 0, 0, 255}, color.NRGBA{255, 0, 0, 255}))
	for _, tt := range []struct {
		args []string
		json string
		text string
	}{
		{[]string{path, "--no-families"}, "null", ""},
		{[]string{flat}, "[]", "local colours: none found"},
	} {
		e := desktest.Run(t, "", append([]string{"read", "--json"}, tt.args...)...)
		if got := string(reportFrom(t, e.Out).Families); got != tt.json {
			t.Errorf("%v: families %s, want %s", tt.args, got, tt.json)
		}
		e = desktest.Run(t, "", append([]string{"read"}, tt.args...)...)
		if !strings.Contains(e.Out, tt.text) || tt.text == "" && strings.Contains(e.Out, "local colours") {
			t.Errorf("%v: the report says\n%s", tt.args, e.Out)
		}
	}
}

func TestReadReportsFamilies(t *testing.T) {
	path := picture(t, "ball.png", 200, 150, ball(color.NRGBA{255, 0, 0, 255}, color.NRGBA{128, 0, 0, 255}))
	e := desktest.Run(t, "", "read", path)
	e.PlainErrors(t, 0)
	// D1535 of the published luminances: 21.26 % and 4.59 % lie 2.7 tones apart
	for _, want := range []string{
		"local colours", "light ", "#ff0000", "shadow ", "#800000", "tones: reads; 26", "Same hue, same saturation.",
		"Straight toward black: shift the hue first.",
	} {
		if !strings.Contains(e.Out, want) {
			t.Errorf("the report lacks %q:\n%s", want, e.Out)
		}
	}
}
