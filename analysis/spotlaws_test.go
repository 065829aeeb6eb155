package analysis

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// Whatever luminance is given, value stays on its scale, rises, and comes back.
func FuzzValueOfY(f *testing.F) {
	f.Add(0.18418651)
	f.Add(5e-324)
	f.Fuzz(func(t *testing.T, y float64) {
		v, brighter := colour.ValueOfY(y), colour.ValueOfY(y+0.01)
		if !(0 <= v && v <= brighter && brighter <= 10) {
			t.Errorf("value rises from %g to %g above y = %g", v, brighter, y)
		}
		if y >= 0 && y <= 1 && !(math.Abs(colour.YOfValue(v)-y) <= 1e-9) {
			t.Errorf("%g comes back as %g", y, colour.YOfValue(v))
		}
	})
}

// Any pair can be written (JSON has no way to write NaN), in one line, and comes back.
func TestAnyPairCanBeWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := SpotOf(drawColour(t, "a")), SpotOf(drawColour(t, "b"))
		pair := Compare(a, b, rapid.Float64().Draw(t, "tolerance"))
		data, err := json.Marshal(pair)
		if err != nil || strings.Contains(string(data), "\n") {
			t.Fatalf("%s, %v", data, err)
		}
		var back Pair
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		if back.A.Colour != a.Colour || back.B.Value != b.Value || back.Tones != pair.Tones || back.Verdict != pair.Verdict {
			t.Fatalf("%+v comes back as %+v", pair, back)
		}
		for _, s := range []Spot{a, b} {
			if (s.Hue == nil) != s.Colour.Neutral() || s.Hue != nil && !(*s.Hue >= 0 && *s.Hue < 360) {
				t.Fatalf("%s has hue %v", s.Colour.Hex(), s.Hue)
			}
		}
	})
}

// The fields of a spot in the order that scripts see, for a colour whose figures are
// published: red.
func TestSpotJSONOfRed(t *testing.T) {
	data, err := json.Marshal(SpotOf(colour.RGB{R: 255, G: 0, B: 0}))
	if err != nil {
		t.Fatal(err)
	}
	var got Spot
	d := json.NewDecoder(strings.NewReader(string(data)))
	d.DisallowUnknownFields()
	if err := d.Decode(&got); err != nil || got.Hue == nil {
		t.Fatal(err, string(data))
	}
	last := -1
	for _, f := range []struct {
		name, source string
		got, want    float64
	}{
		{"lightness", "srgb_to_lab_oklab.csv, L65", got.Lightness, 53.237116},
		{"value", "D1535, at Y of 21.263901", 100 * colour.YOfValue(got.Value), 21.263901},
		{"layer_grey", "blend_nonseparable.csv", got.LayerGrey, 76.5},
		{"ok_lightness", "srgb_to_lab_oklab.csv, okL", got.OKLightness, 0.62795536},
		{"seen_lightness", "helmholtz_kohlrausch.csv, HGN23", got.SeenLightness, 77.9005},
		{"chroma", "srgb_to_lab_oklab.csv, C65", got.Chroma, 104.550012},
		{"hue", "srgb_to_lab_oklab.csv, h65", *got.Hue, 39.9999},
	} {
		if !(math.Abs(f.got-f.want) <= 1e-4) {
			t.Errorf("%s: %s is %g, want %g", f.source, f.name, f.got, f.want)
		}
		at := strings.Index(string(data), `"`+f.name+`":`)
		if at <= last {
			t.Errorf("%s stands in the wrong place in %s", f.name, data)
		}
		last = at
	}
}

// Commas stand between all or between none, and one at a time.
func TestParseColourCommas(t *testing.T) {
	for text, want := range map[string]colour.RGB{
		"rgb( 1 , 2 ,3 )": {R: 1, G: 2, B: 3}, "rgb(\t1  2\t3)": {R: 1, G: 2, B: 3}, "rgb(007 0 255)": {R: 7, G: 0, B: 255},
	} {
		if got, err := colour.Parse(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{
		"rgb(1,,2 3)", "rgb(,1 2 3)", "rgb(1 2 3,)", "rgb(1,2)", "rgb(1,2,3,4)", "rgb(1 2 3 4)", "rgb(1, 2 3)",
		"rgb()", "rgb(,,)", "rgb(+1 2 3)", "rgb(1_0 2 3)", "rgb(50% 0 0)", "rgb(0x1 2 3)", "#1_2345", "#é1", "#éee", "# fff",
	} {
		if c, err := colour.Parse(text); !errors.Is(err, colour.ErrColour) || c != (colour.RGB{}) {
			t.Errorf("%q: %v, %v", text, c, err)
		}
	}
}
