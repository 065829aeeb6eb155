package main

import (
	"math"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// figure returns a number of a report, by the names on the way to it.
func figure(t *testing.T, report map[string]any, way ...string) float64 {
	t.Helper()
	for _, name := range way[:len(way)-1] {
		report, _ = report[name].(map[string]any)
	}
	v, ok := report[way[len(way)-1]].(float64)
	if !ok {
		t.Fatalf("no figure %v", way)
	}
	return v
}

// minus holds a difference of a report against what it is said to be: the first minus the second.
func minus(t *testing.T, what string, difference, first, second float64) {
	t.Helper()
	if math.Abs(difference-(first-second)) > 1e-9 {
		t.Errorf("%s: %g, want %g minus %g", what, difference, first, second)
	}
}

// elements returns the objects of a list of a report.
func elements(t *testing.T, report map[string]any, name string) (list []map[string]any) {
	t.Helper()
	all, _ := report[name].([]any)
	for _, one := range all {
		list = append(list, one.(map[string]any))
	}
	if len(list) == 0 {
		t.Fatalf("no %s", name)
	}
	return list
}

// Differences are B minus A, of two colours.
func TestSignsOfPairs(t *testing.T) {
	pair := object(t, desktest.Run(t, "", "compare", "--json", "#f0be95", "#c76d5d").Out)
	for difference, of := range map[string]string{"lightness_difference": "lightness", "tones": "value", "layer_grey_difference": "layer_grey"} {
		minus(t, difference, figure(t, pair, difference), figure(t, pair, "b", of), figure(t, pair, "a", of))
	}
}

// They are after minus before, of two pictures: of the two means, of each group, and by the
// direction that the sentence says.
func TestSignsOfChanges(t *testing.T) {
	before, after := picture(t, "before.png", 12, 5, threeBars(120)), picture(t, "after.png", 12, 5, threeBars(30))
	was := object(t, desktest.Run(t, "", "read", "--json", "--no-families", before).Out)
	is := object(t, desktest.Run(t, "", "read", "--json", "--no-families", after).Out)
	change := object(t, desktest.Run(t, "", "compare", "--json", before, after).Out)
	minus(t, "lightness", figure(t, change, "lightness_difference"), figure(t, is, "lightness", "mean"), figure(t, was, "lightness", "mean"))
	if figure(t, change, "tones") >= 0 { // a bar became dark
		t.Errorf("tones %v", change["tones"])
	}
	for _, g := range elements(t, change, "group_changes") {
		minus(t, "tones of a group", figure(t, g, "tones"), figure(t, g, "value_after"), figure(t, g, "value_before"))
	}
}

// They are light minus shadow of a local colour, accent minus the nearer side, and the light
// minus the line.
func TestSignsOfLocalColours(t *testing.T) {
	report := object(t, desktest.Run(t, "", "read", "--json", root+"/assets/demo.png").Out)
	accents, lines := 0, 0
	for _, f := range elements(t, report, "families") {
		minus(t, "tones", figure(t, f, "tones"), figure(t, f, "light", "value"), figure(t, f, "shadow", "value"))
		light, shadow := figure(t, f, "light", "lightness"), figure(t, f, "shadow", "lightness")
		minus(t, "lightness", figure(t, f, "lightness_difference"), light, shadow)
		if f["accent"] != nil {
			accents++
			own, nearer := figure(t, f, "accent", "lightness"), light
			if math.Abs(own-shadow) < math.Abs(own-light) {
				nearer = shadow
			}
			minus(t, "accent", figure(t, f, "accent", "lightness_difference"), own, nearer)
		}
		if f["line"] != nil {
			lines++
			minus(t, "line", figure(t, f, "line", "tones_below"), figure(t, f, "light", "value"), figure(t, f, "line", "value"))
		}
	}
	if accents == 0 || lines == 0 {
		t.Errorf("%d accents, %d lines", accents, lines)
	}
}

// They are base minus step of what is proposed: above 0 for the darker, below for the lighter,
// within what a rounding to 8 bits may do.
func TestSignsOfSteps(t *testing.T) {
	shades := object(t, desktest.Run(t, "", "shade", "--json", "#c76d5d").Out)
	for _, name := range []string{"ramp", "black_ramp", "lights", "lines"} {
		for _, step := range elements(t, shades, name) {
			asked, made := figure(t, step, "tones_below"), figure(t, shades, "base", "value")-figure(t, step, "value")
			if math.Abs(asked-made) > 0.05 || (asked > 0) != (name != "lights") {
				t.Errorf("%s: %g asked, %g made", name, asked, made)
			}
		}
	}
}
