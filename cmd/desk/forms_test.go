package main

import (
	"encoding/json"
	"image/color"
	"math"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// A disc on paper, light on its left and shadow on its right, with an accent on the upper half of the
// edge, whose upper half again is darker than the shadow, and a blue line that is not drawn along the
// left quarter of the outline. Colours are invented.
func TestReadForms(t *testing.T) {
	paint := func(x, y int) color.NRGBA {
		dx, dy := float64(x)+0.5-320, float64(y)+0.5-240
		d := math.Hypot(dx, dy)
		switch {
		case d > 152 || d > 148 && dx < 0 && math.Abs(dy) < -dx:
			return color.NRGBA{228, 226, 220, 255}
		case d > 146 && !(dx < 0 && math.Abs(dy) < -dx):
			return color.NRGBA{30, 40, 110, 255}
		case dx < 0:
			return color.NRGBA{226, 171, 133, 255}
		case dx < 12 && dy < -75:
			return color.NRGBA{190, 54, 44, 255} // L* 43.9 (CIE 15), that of the shadow is 52.4
		case dx < 12 && dy < 0:
			return color.NRGBA{206, 84, 64, 255} // L* 51.6
		}
		return color.NRGBA{178, 106, 92, 255}
	}
	path := picture(t, "disc.png", 640, 480, paint)
	var got struct {
		Families []any
		Forms    []struct {
			Family int
			X, Y   float64
			Edge   struct {
				Length float64
				Accent float64 `json:"accent_share"`
				Leaves float64 `json:"leaves_share"`
				List   []struct {
					Length     float64
					Middle     struct{ X, Y float64 }
					Difference float64 `json:"lightness_difference"`
				} `json:"leaves"`
			}
			Outline struct {
				Length   float64
				Line     float64 `json:"line_share"`
				Light    float64 `json:"vanishes_in_light_share"`
				Vanishes []struct{ Middle struct{ X, Y float64 } }
			}
		}
	}
	if err := json.Unmarshal([]byte(desktest.Run(t, "", "read", "--json", path).Out), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Families) != 1 || len(got.Forms) != 1 {
		t.Fatalf("%d local colours with %d forms", len(got.Families), len(got.Forms))
	}
	f := got.Forms[0]
	near := func(what string, v, want, within float64) {
		t.Helper()
		if math.Abs(v-want) > within {
			t.Errorf("%s is %.3f, want %.3f", what, v, want)
		}
	}
	near("x", f.X, 0.5, 0.02)
	near("y", f.Y, 0.5, 0.02)
	near("the edge's length", f.Edge.Length, 296.0/640, 0.04)
	near("the accent's part", f.Edge.Accent, 0.5, 0.06)
	near("what leaves the lightness", f.Edge.Leaves, 0.25, 0.06)
	near("the outline's length", f.Outline.Length, 2*math.Pi*149/640, 0.08)
	near("the line's part", f.Outline.Line, 0.75, 0.06)
	near("where it vanishes in the light", f.Outline.Light, 0.25, 0.06)
	if len(f.Edge.List) != 1 || len(f.Outline.Vanishes) != 1 {
		t.Fatalf("%+v", f)
	}
	near("the height of where it leaves", f.Edge.List[0].Middle.Y, (240-111)/480.0, 0.05)
	near("how far", f.Edge.List[0].Difference, 43.9-52.4, 3)
	near("where it vanishes", f.Outline.Vanishes[0].Middle.X, (320-150)/640.0, 0.03)
	out := desktest.Run(t, "", "read", path).Out
	for _, words := range []string{"darker than the nearer side along 2", "of the outline, in the light."} {
		if !strings.Contains(out, words) {
			t.Errorf("%q isn't said: %s", words, out)
		}
	}
}
