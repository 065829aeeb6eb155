package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

const stepNames = "tones colour lightness value layer_grey ok_lightness seen_lightness chroma hue hue_turn saturation_gain note"

// lists decodes the lists of a JSON object and their elements' names.
func lists(t *testing.T, line string) map[string][]json.RawMessage {
	t.Helper()
	var all map[string]json.RawMessage
	if err := json.Unmarshal([]byte(line), &all); err != nil {
		t.Fatalf("%v: %s", err, line)
	}
	found := map[string][]json.RawMessage{}
	for name, raw := range all {
		var list []json.RawMessage
		if json.Unmarshal(raw, &list) == nil {
			found[name] = list
		}
	}
	return found
}

func TestShadeJSON(t *testing.T) {
	e := desk(t, "", "shade", "--json", "#e2ab85")
	e.plainErrors(t, 0)
	const names = "base options ramp lights black_ramp accents edge_accents suggested lines"
	if got := strings.Join(keys(t, e.out), " "); got != names || e.code != 0 {
		t.Fatalf("code %d, names are %s, want %s", e.code, got, names)
	}
	for name, want := range map[string]struct {
		length int
		names  string
	}{
		"ramp": {3, stepNames}, "lights": {2, stepNames}, "black_ramp": {3, stepNames}, "lines": {3, stepNames + " may_vanish"},
		"accents":      {24, "hue colour lightness chroma in_gamut layer_grey seen_lightness note"},
		"edge_accents": {24, "hue colour lightness chroma in_gamut layer_grey seen_lightness note"},
		"suggested":    {3, "hue colour lightness chroma in_gamut layer_grey seen_lightness note"},
	} {
		list := lists(t, e.out)[name]
		if len(list) != want.length {
			t.Errorf("%s holds %d, want %d", name, len(list), want.length)
		}
		for _, element := range list {
			if got := strings.Join(keys(t, string(element)), " "); got != want.names {
				t.Errorf("%s has %s, want %s", name, got, want.names)
			}
		}
	}
	checkRamp(t, e.out)
}

// checkRamp reads the colours of a ramp back and measures how many tones they are away: within
// 0.2 L*, which is less than 0.03 tones above value 1 (D1535: L* is 10 V within 1.06).
func checkRamp(t *testing.T, line string) {
	t.Helper()
	base := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})
	for i, raw := range lists(t, line)["ramp"] {
		var step struct {
			Tones  float64
			Colour colour.RGB
		}
		if err := json.Unmarshal(raw, &step); err != nil {
			t.Fatal(err)
		}
		if got := base.Value - analysis.SpotOf(step.Colour).Value; step.Tones != float64(i+1) || math.Abs(got-step.Tones) > 0.03 {
			t.Errorf("%s is %.3f tones darker, want %g", step.Colour.Hex(), got, step.Tones)
		}
	}
}

// Where there is no room, colour and figures are null and the word stands beside.
func TestShadeSaysNoRoom(t *testing.T) {
	e := desk(t, "", "shade", "--json", "#000", "#fff")
	lines := strings.Split(strings.TrimSpace(e.out), "\n")
	if e.code != 0 || len(lines) != 2 {
		t.Fatalf("code %d, output %q", e.code, e.out)
	}
	for i, name := range []string{"ramp", "lights"} { // below black, above white
		for _, raw := range lists(t, lines[i])[name] {
			step := object(t, string(raw))
			if step["colour"] != nil || step["lightness"] != nil || step["note"] != "no room" {
				t.Errorf("%s: %v", name, step)
			}
		}
	}
	report := desk(t, "", "shade", "#000")
	if n := strings.Count(report.out, "no room"); report.code != 0 || n != 3+3+3 {
		t.Errorf("code %d, no room %d times:\n%s", report.code, n, report.out)
	}
}

func TestShadeSettings(t *testing.T) {
	options := func(args ...string) map[string]any {
		t.Helper()
		e := desk(t, "", append([]string{"shade", "--json", "#3c9a3c"}, args...)...)
		if e.code != 0 {
			t.Fatalf("%v: %s", args, e.err)
		}
		return object(t, e.out)["options"].(map[string]any)
	}
	for _, tt := range []struct {
		args []string
		name string
		want any
	}{
		{nil, "shadow_hue", 283.0}, {nil, "turn", 0.25}, {nil, "gain", 0.2}, {nil, "equal_by", "lightness"},
		{[]string{"--light", "cool"}, "shadow_hue", 35.0},
		{[]string{"--light", "cool", "--shadow-hue", "20"}, "shadow_hue", 20.0},
		{[]string{"--shadow-hue=360"}, "shadow_hue", 0.0},
		{[]string{"--turn", "0.1"}, "turn", 0.1}, {[]string{"--gain", "-0.2"}, "gain", -0.2}, {[]string{"--chroma", "0.05"}, "accent_chroma", 0.05},
		{[]string{"--equal", "layer-grey"}, "equal_by", "layer_grey"}, {[]string{"--equal", "seen-lightness"}, "equal_by", "seen_lightness"},
	} {
		if got := options(tt.args...)[tt.name]; got != tt.want {
			t.Errorf("%v: %s is %v, want %v", tt.args, tt.name, got, tt.want)
		}
	}
}

func TestShadeJudges(t *testing.T) {
	e := desk(t, "", "shade", "--json", "--judge", "#a27a5e", "#e2ab85")
	e.plainErrors(t, 0)
	judged, _ := object(t, e.out)["judged"].(map[string]any)
	family, _ := judged["family"].(map[string]any)
	nearest, _ := judged["nearest"].(map[string]any)
	if family["toward_black"] != true || nearest["colour"] == nil || judged["distance"] == nil {
		t.Errorf("code %d, judged %v", e.code, judged)
	}
	report := desk(t, "", "shade", "--judge", "#a27a5e", "#e2ab85")
	if !strings.Contains(report.out, "\n  Goes straight toward black: turn the hue first.\n") {
		t.Errorf("%s", report.out)
	}
	black := desk(t, "", "shade", "--judge", "#000001", "#e2ab85")
	if strings.Contains(black.out, "% more saturated.") || !strings.Contains(black.out, "  Nearly neutral.\n  Goes straight toward black") {
		t.Errorf("%s", black.out)
	}
	lighter := desk(t, "", "shade", "--judge", "#fff", "#e2ab85")
	lighter.plainErrors(t, 1)
	if lighter.code != 2 || !strings.Contains(lighter.err, "lighter of the two") {
		t.Errorf("code %d: %s", lighter.code, lighter.err)
	}
}

func TestShadeArguments(t *testing.T) {
	tests := []struct {
		name         string
		args         []string
		code, errors int
	}{
		{"no colour", nil, 2, 1},
		{"no colour at all", []string{"reddish"}, 2, 1},
		{"a bad one among good ones", []string{"#fff", "#ggg"}, 2, 1},
		{"list beside colours", []string{"#fff", "-"}, 2, 1},
		{"unknown option", []string{"--hue", "3", "#fff"}, 2, 1},
		{"light that isn't", []string{"--light", "green", "#fff"}, 2, 1},
		{"hue past the circle", []string{"--shadow-hue", "361", "#fff"}, 2, 1},
		{"no number", []string{"--turn", "NaN", "#fff"}, 2, 1},
		{"gain without value", []string{"#fff", "--gain"}, 2, 1},
		{"chroma below nothing", []string{"--chroma=-0.1", "#fff"}, 2, 1},
		{"equal by something", []string{"--equal", "hue", "#fff"}, 2, 1},
		{"judge no colour", []string{"--judge", "dark", "#fff"}, 2, 1},
		{"help", []string{"--help"}, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := desk(t, "", append([]string{"shade"}, tt.args...)...)
			e.plainErrors(t, tt.errors)
			if e.code != tt.code {
				t.Errorf("exit code %d, want %d", e.code, tt.code)
			}
		})
	}
}

func TestShadeList(t *testing.T) {
	e := desk(t, "#fff\nnonsense\n#000\n", "shade", "--json", "-")
	e.plainErrors(t, 1)
	if e.code != 1 || strings.Count(e.out, "\n") != 2 || !strings.Contains(e.err, `line 2 of the list, "nonsense"`) {
		t.Errorf("code %d, said %q, output\n%s", e.code, e.err, e.out)
	}
}
