package main

import (
	"math"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

func TestCompareJSON(t *testing.T) {
	e := desktest.Run(t, "", "compare", "--json", "#808080", "#ff0000")
	e.PlainErrors(t, 0)
	const names = "version a b lightness_difference tones layer_grey_difference ciede2000 verdict"
	if got := strings.Join(keys(t, e.Out), " "); got != names {
		t.Errorf("names are %s, want %s", got, names)
	}
	m := object(t, e.Out)
	// L* of both: CIE 15:2004 with CSS Color 4's matrices; differences are b minus a.
	if got := m["lightness_difference"].(float64); math.Abs(got-(53.237116-53.585013)) > 2e-5 {
		t.Errorf("lightness difference %g", got)
	}
	// W3C Compositing and Blending Level 1: Lum of red is 76.5.
	if got := m["layer_grey_difference"].(float64); math.Abs(got-(76.5-128)) > 1e-9 {
		t.Errorf("layer grey difference %g", got)
	}
	if m["verdict"] != "same" {
		t.Errorf("verdict %v, want same", m["verdict"])
	}
}

// The grey ramp's L* are published (IEC 61966-2-1 with CIE 15): #808080 is 53.585, #858585
// 55.5, #8b8b8b 57.7; their differences from #808080 are about 1.9 and 4.2.
func TestCompareToleranceDecidesTheVerdict(t *testing.T) {
	tests := []struct {
		tolerance, b, want string
	}{
		{"", "#858585", "same"},
		{"0.5", "#858585", "close"},
		{"", "#8b8b8b", "close"},
		{"5", "#8b8b8b", "same"},
		{"5", "#ffffff", "apart"},
	}
	for _, tt := range tests {
		args := []string{"compare", "--json", "#808080", tt.b}
		if tt.tolerance != "" {
			args = append(args, "--tolerance", tt.tolerance)
		}
		e := desktest.Run(t, "", args...)
		if m := object(t, e.Out); m["verdict"] != tt.want || e.Code != 0 {
			t.Errorf("%v: verdict %v, want %s", args, m["verdict"], tt.want)
		}
	}
}

func TestCompareArguments(t *testing.T) {
	tests := []struct {
		name         string
		args         []string
		code, errors int
	}{
		{"one colour", []string{"#fff"}, 2, 1},
		{"three colours", []string{"#fff", "#000", "#123"}, 2, 1},
		{"no colour", nil, 2, 1},
		{"one bad", []string{"#fff", "grey"}, 2, 1},
		{"two that are neither colours nor files", []string{"black", "white"}, 1, 2},
		{"a colour and a picture", []string{"#fff", "../../assets/demo.png"}, 2, 1},
		{"tolerance for pictures", []string{"--tolerance", "2", "../../assets/demo.png", "../../assets/demo.png"}, 2, 1},
		{"tolerance too small", []string{"--tolerance", "0.4", "#fff", "#000"}, 2, 1},
		{"tolerance too large", []string{"--tolerance=5.1", "#fff", "#000"}, 2, 1},
		{"tolerance is not a number", []string{"--tolerance", "NaN", "#fff", "#000"}, 2, 1},
		{"tolerance has no value", []string{"#fff", "#000", "--tolerance"}, 2, 1},
		{"option of another command", []string{"--groups", "2", "#fff", "#000"}, 2, 1},
		{"list beside a colour", []string{"-", "#fff"}, 2, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := desktest.Run(t, "", append([]string{"compare"}, tt.args...)...)
			e.PlainErrors(t, tt.errors)
			if e.Code != tt.code || e.Out != "" {
				t.Errorf("code %d, want %d; output %q", e.Code, tt.code, e.Out)
			}
		})
	}
}

func TestCompareList(t *testing.T) {
	input := "#fff #000\nrgb(1,2,3);#456\n#fff\n#fff black\nrgb(1 2 3), rgb(4, 5, 6)\n"
	e := desktest.Run(t, input, "compare", "--json", "-")
	e.PlainErrors(t, 2)
	if n := strings.Count(e.Out, "\n"); n != 3 || e.Code != 1 {
		t.Errorf("code %d and %d pairs, want 1 and 3:\n%s", e.Code, n, e.Out)
	}
	for _, want := range []string{"line 3 of the list", "line 4 of the list"} {
		if !strings.Contains(e.Err, want) {
			t.Errorf("standard error does not name %s:\n%s", want, e.Err)
		}
	}
}

func TestCompareSaysTheWindowsSentence(t *testing.T) {
	e := desktest.Run(t, "", "compare", "#fff", "#000")
	// CIE 15 and ASTM D1535: black is 100 L* and ten values below white.
	if !strings.Contains(e.Out, "B is 10.0 tones darker") || !strings.Contains(e.Out, "B minus A: lightness -100.0, layer grey -255") {
		t.Errorf("the report is\n%s", e.Out)
	}
	if strings.ContainsRune(e.Out, '\u00a0') {
		t.Errorf("unbreakable spaces reach the terminal: %q", e.Out)
	}
	if e = desktest.Run(t, "", "compare", "#123456", "#123456"); !strings.Contains(e.Out, "Same lightness (within 2.0). No difference in lightness.") {
		t.Errorf("the report is\n%s", e.Out)
	}
}
