package main

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

func TestMatchJSON(t *testing.T) {
	e := desk(t, "", "match", "--json", "#e2ab85", "#3060c0")
	e.plainErrors(t, 0)
	if got := strings.Join(keys(t, e.out), " "); got != "a b matched note" || e.code != 0 {
		t.Fatalf("code %d, names are %s", e.code, got)
	}
	m := object(t, e.out)
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
	e := desk(t, "", "match", "#e2ab85", "#808080")
	if e.code != 0 || !strings.Contains(e.out, "B at the lightness of A: #") || strings.Count(e.out, "\n") != 5 {
		t.Errorf("code %d, output\n%s", e.code, e.out)
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
			e := desk(t, "", append([]string{"match"}, tt.args...)...)
			e.plainErrors(t, tt.errors)
			if e.code != tt.code {
				t.Errorf("exit code %d, want %d", e.code, tt.code)
			}
		})
	}
}

func TestMatchList(t *testing.T) {
	e := desk(t, "#fff, #000\n#fff\nrgb(1 2 3) #00f\n", "match", "--json", "-")
	e.plainErrors(t, 1)
	if e.code != 1 || strings.Count(e.out, "\n") != 2 || !strings.Contains(e.err, "two colours") {
		t.Errorf("code %d, said %q, output\n%s", e.code, e.err, e.out)
	}
}
