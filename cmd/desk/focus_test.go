package main

import (
	"encoding/json"
	"image/color"
	"math"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// focusRead is what desk read reports of contrast.
type focusRead struct {
	Focus struct {
		Strongest []struct {
			X, Y     int
			Contrast float64
			Share    float64
		}
		Marked []struct {
			X, Y      int
			Strongest struct{ Share float64 }
		}
		There    *bool
		Lightest *struct {
			X, Y       int
			AloneShare float64 `json:"alone_share"`
		}
	}
}

// A light disc on grey and a darker grey one: the first is the strongest, with a mark there or
// elsewhere; options may be given again, and a place outside of the picture is told.
func TestReadFocus(t *testing.T) {
	path := picture(t, "discs.png", 400, 300, func(x, y int) color.NRGBA {
		switch {
		case math.Hypot(float64(x-320), float64(y-230)) < 14:
			return color.NRGBA{240, 240, 240, 255}
		case math.Hypot(float64(x-80), float64(y-70)) < 14:
			return color.NRGBA{95, 95, 95, 255}
		}
		return color.NRGBA{119, 119, 119, 255}
	})
	for _, tt := range []struct {
		args  []string
		there string // "" for null
		says  string
	}{
		{nil, "", "contrast   the strongest contrast lies at the lower right: "},
		{[]string{"--focus", "322,228"}, "true", "contrast   the strongest contrast lies where you want it, at the lower right: "},
		{[]string{"--focus", "80,70"}, "false", "contrast   the strongest contrast lies elsewhere, at the lower right: "},
		{[]string{"--focus", "80,70", "--focus", "322,228"}, "true", "at one of the places you want, the second one, at the lower right: "},
		{[]string{"--focus", "80,70;322,228"}, "true", "the marked place at the upper left has "},
	} {
		var got focusRead
		args := append([]string{"read", "--no-families", path}, tt.args...)
		if err := json.Unmarshal([]byte(desktest.Run(t, "", append(args, "--json")...).Out), &got); err != nil {
			t.Fatal(err)
		}
		f := got.Focus
		there := ""
		if f.There != nil {
			there = map[bool]string{true: "true", false: "false"}[*f.There]
		}
		if len(f.Strongest) != 2 || math.Hypot(float64(f.Strongest[0].X-320), float64(f.Strongest[0].Y-230)) > 4 || f.Strongest[0].Share != 1 || f.Strongest[1].Share > 0.7 || there != tt.there {
			t.Errorf("%v: %+v, there %s", tt.args, f, there)
		}
		if f.Lightest == nil || f.Lightest.AloneShare < 0.99 || math.Hypot(float64(f.Lightest.X-320), float64(f.Lightest.Y-230)) > 4 {
			t.Errorf("%+v", f.Lightest)
		}
		if out := desktest.Run(t, "", args...).Out; !strings.Contains(out, tt.says) {
			t.Errorf("%v: it says\n%s", tt.args, out)
		}
	}
	for _, wrong := range []string{"400,10", "1", "a,b"} {
		if e := desktest.Run(t, "", "read", "--focus", wrong, path); e.Code == 0 || e.Err == "" {
			t.Errorf("%s is taken: %+v", wrong, e)
		}
	}
}
