package main

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/cmd/desk/desktest"
)

const (
	stepNames   = "tones_below colour lightness value layer_grey ok_lightness seen_lightness chroma hue hue_turn saturation_gain outcome"
	accentNames = "oklch_hue colour lightness value layer_grey ok_lightness seen_lightness chroma hue oklch_chroma in_gamut outcome"
)

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
	e := desktest.Run(t, "", "shade", "--json", "#e2ab85")
	e.PlainErrors(t, 0)
	const names = "version base options ramp lights black_ramp accents full_accents suggested lines"
	if got := strings.Join(keys(t, e.Out), " "); got != names || e.Code != 0 {
		t.Fatalf("code %d, names are %s, want %s", e.Code, got, names)
	}
	for name, want := range map[string]struct {
		length int
		names  string
	}{
		"ramp": {3, stepNames}, "lights": {2, stepNames}, "black_ramp": {3, stepNames}, "lines": {3, stepNames + " may_vanish"},
		"accents":      {24, accentNames},
		"full_accents": {24, accentNames},
		"suggested":    {3, accentNames},
	} {
		list := lists(t, e.Out)[name]
		if len(list) != want.length {
			t.Errorf("%s holds %d, want %d", name, len(list), want.length)
		}
		for _, element := range list {
			if got := strings.Join(keys(t, string(element)), " "); got != want.names {
				t.Errorf("%s has %s, want %s", name, got, want.names)
			}
		}
	}
	checkRamp(t, e.Out)
}

// checkRamp reads the colours of a ramp back and measures how many tones they are away: within
// 0.2 L*, which is less than 0.03 tones above value 1 (D1535: L* is 10 V within 1.06).
func checkRamp(t *testing.T, line string) {
	t.Helper()
	base := analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85})
	for i, raw := range lists(t, line)["ramp"] {
		var step struct {
			Tones  float64 `json:"tones_below"`
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

// What is out of range: colour and figures are null and the word stands beside.
func TestShadeSaysOutOfRange(t *testing.T) {
	e := desktest.Run(t, "", "shade", "--json", "#000", "#fff")
	lines := strings.Split(strings.TrimSpace(e.Out), "\n")
	if e.Code != 0 || len(lines) != 2 {
		t.Fatalf("code %d, output %q", e.Code, e.Out)
	}
	for i, name := range []string{"ramp", "lights"} { // below black, above white
		for _, raw := range lists(t, lines[i])[name] {
			step := object(t, string(raw))
			if step["colour"] != nil || step["lightness"] != nil || step["outcome"] != "out_of_range" {
				t.Errorf("%s: %v", name, step)
			}
		}
	}
	report := desktest.Run(t, "", "shade", "#000")
	if n := strings.Count(report.Out, "out of range"); report.Code != 0 || n != 3+3+3 {
		t.Errorf("code %d, out of range %d times:\n%s", report.Code, n, report.Out)
	}
}

func TestShadeSettings(t *testing.T) {
	options := func(args ...string) map[string]any {
		t.Helper()
		e := desktest.Run(t, "", append([]string{"shade", "--json", "#3c9a3c"}, args...)...)
		if e.Code != 0 {
			t.Fatalf("%v: %s", args, e.Err)
		}
		return object(t, e.Out)["options"].(map[string]any)
	}
	for _, tt := range []struct {
		args []string
		name string
		want any
	}{
		{nil, "shadow_hue", 283.0}, {nil, "turn", 0.15}, {nil, "gain", 0.1}, {nil, "equal_by", "lightness"},
		{[]string{"--shadow", "warm"}, "shadow_hue", 35.0}, {[]string{"--shadow", "cool"}, "shadow_hue", 283.0},
		{[]string{"--shadow", "warm", "--shadow-hue", "20"}, "shadow_hue", 20.0},
		{[]string{"--shadow-hue=360"}, "shadow_hue", 0.0},
		{[]string{"--hue-shift", "0.1"}, "turn", 0.1}, {[]string{"--gain", "-0.2"}, "gain", -0.2}, {[]string{"--chroma", "0.05"}, "accent_chroma", 0.05},
		{[]string{"--equal", "layer-grey"}, "equal_by", "layer_grey"}, {[]string{"--equal", "seen-lightness"}, "equal_by", "seen_lightness"},
	} {
		if got := options(tt.args...)[tt.name]; got != tt.want {
			t.Errorf("%v: %s is %v, want %v", tt.args, tt.name, got, tt.want)
		}
	}
}

func TestShadeJudges(t *testing.T) {
	e := desktest.Run(t, "", "shade", "--json", "--judge", "#a27a5e", "#e2ab85")
	e.PlainErrors(t, 0)
	judged, _ := object(t, e.Out)["judged"].(map[string]any)
	family, _ := judged["family"].(map[string]any)
	nearest, _ := judged["nearest"].(map[string]any)
	if family["remarks"].([]any)[0] != "toward_black" || nearest["colour"] == nil || judged["ciede2000"] == nil {
		t.Errorf("code %d, judged %v", e.Code, judged)
	}
	report := desktest.Run(t, "", "shade", "--judge", "#a27a5e", "#e2ab85")
	if !strings.Contains(report.Out, "\n  Straight toward black: shift the hue first.\n") {
		t.Errorf("%s", report.Out)
	}
	black := desktest.Run(t, "", "shade", "--judge", "#000001", "#e2ab85")
	if strings.Contains(black.Out, "% richer.") || !strings.Contains(black.Out, "  Nearly neutral.\n  Straight toward black") {
		t.Errorf("%s", black.Out)
	}
	foreign := desktest.Run(t, "", "shade", "--judge", "#5f80c8", "#e2ab85")
	if !strings.Contains(foreign.Out, "hardly one local colour.\n  The hues are ") || strings.Contains(foreign.Out, "The nearest that reads") {
		t.Errorf("%s", foreign.Out)
	}
	lighter := desktest.Run(t, "", "shade", "--judge", "#fff", "#e2ab85")
	lighter.PlainErrors(t, 1)
	if lighter.Code != 2 || !strings.Contains(lighter.Err, "lighter of the two") {
		t.Errorf("code %d: %s", lighter.Code, lighter.Err)
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
		{"shadow that isn't", []string{"--shadow", "green", "#fff"}, 2, 1},
		{"hue past the circle", []string{"--shadow-hue", "361", "#fff"}, 2, 1},
		{"no number", []string{"--hue-shift", "NaN", "#fff"}, 2, 1},
		{"gain without value", []string{"#fff", "--gain"}, 2, 1},
		{"chroma below nothing", []string{"--chroma=-0.1", "#fff"}, 2, 1},
		{"equal by something", []string{"--equal", "hue", "#fff"}, 2, 1},
		{"judge no colour", []string{"--judge", "dark", "#fff"}, 2, 1},
		{"help", []string{"--help"}, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", append([]string{"shade"}, tt.args...)...)
			e.PlainErrors(t, tt.errors)
			if e.Code != tt.code {
				t.Errorf("exit code %d, want %d", e.Code, tt.code)
			}
		})
	}
}

func TestShadeList(t *testing.T) {
	e := desktest.Run(t, "#fff\nnonsense\n#000\n", "shade", "--json", "-")
	e.PlainErrors(t, 1)
	if e.Code != 1 || strings.Count(e.Out, "\n") != 2 || !strings.Contains(e.Err, `line 2 of the list, "nonsense"`) {
		t.Errorf("code %d, said %q, output\n%s", e.Code, e.Err, e.Out)
	}
}
