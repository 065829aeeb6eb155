package main

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/cmd/desk/desktest"
)

func TestMatchJSON(t *testing.T) {
	e := desktest.Run(t, "", "match", "--json", "#e2ab85", "#3060c0")
	e.PlainErrors(t, 0)
	if got := strings.Join(keys(t, e.Out), " "); got != "version a b matched outcome" || e.Code != 0 {
		t.Fatalf("code %d, names are %s", e.Code, got)
	}
	m := object(t, e.Out)
	a, b, matched := m["a"].(map[string]any), m["b"].(map[string]any), m["matched"].(map[string]any)
	if a["colour"] != "#e2ab85" || b["colour"] != "#3060c0" || len(matched) != len(strings.Fields(spotNames)) {
		t.Errorf("a %v, b %v, matched %v", a["colour"], b["colour"], matched)
	}
	c, err := colour.Parse(matched["colour"].(string))
	if err != nil {
		t.Fatal(err)
	}
	got, first, second := analysis.SpotOf(c), analysis.SpotOf(colour.RGB{R: 0xe2, G: 0xab, B: 0x85}), analysis.SpotOf(colour.RGB{R: 0x30, G: 0x60, B: 0xc0})
	if d := math.Abs(got.Lightness - first.Lightness); d > 0.2 {
		t.Errorf("%s differs from A in lightness by %.2f", c.Hex(), d)
	}
	if d := math.Abs(got.Oklab.Hue() - second.Oklab.Hue()); d > 2 { // 8 bits: within 1.0 in a*b*
		t.Errorf("%s differs from B in hue by %.2f degrees", c.Hex(), d)
	}
}

func TestMatchReport(t *testing.T) {
	e := desktest.Run(t, "", "match", "#e2ab85", "#808080")
	if e.Code != 0 || !strings.Contains(e.Out, "B at the lightness of A: #") || strings.Count(e.Out, "\n") != 5 {
		t.Errorf("code %d, output\n%s", e.Code, e.Out)
	}
}

func TestMatchArguments(t *testing.T) {
	for _, tt := range []struct {
		name         string
		args         []string
		code, errors int
	}{
		{"no colour", nil, 2, 1},
		{"one colour", []string{"#fff"}, 2, 1},
		{"three", []string{"#fff", "#000", "#123"}, 2, 1},
		{"two that are none", []string{"light", "dark"}, 2, 2},
		{"list beside colours", []string{"#fff", "-"}, 2, 1},
		{"unknown option", []string{"--tolerance", "1", "#fff", "#000"}, 2, 1},
		{"help", []string{"-h"}, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", append([]string{"match"}, tt.args...)...)
			e.PlainErrors(t, tt.errors)
			if e.Code != tt.code {
				t.Errorf("exit code %d, want %d", e.Code, tt.code)
			}
		})
	}
}

func TestMatchList(t *testing.T) {
	e := desktest.Run(t, "#fff, #000\n#fff\nrgb(1 2 3) #00f\n", "match", "--json", "-")
	e.PlainErrors(t, 1)
	if e.Code != 1 || strings.Count(e.Out, "\n") != 2 || !strings.Contains(e.Err, "two colours") {
		t.Errorf("code %d, said %q, output\n%s", e.Code, e.Err, e.Out)
	}
}
