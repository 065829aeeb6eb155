package main

import (
	"encoding/json"
	"image/color"
	"math"
	"strings"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
)

// edgesRead is what desk read reports of edges.
type edgesRead struct {
	LostEdges []edgeRead `json:"lost_edges"`
	Edges     struct {
		HeldByLine     []edgeRead `json:"held_by_line"`
		LightnessAlone []edgeRead `json:"lightness_alone"`
	}
}

type edgeRead struct {
	Length, Tones, CIEDE2000 float64
	X, Y                     int
	Box                      struct{ X, Y, Width, Height int }
	Darker, Lighter          struct{ Colour string }
}

// Of two colours of one lightness beside each other (#c87c80 and #81975d: L* 60.1 and 59.5 by CIE
// 15) the border is lost; with a black line between them it is held, and
// between two greys lightness alone carries it.
func TestReadEdges(t *testing.T) {
	rose, moss := color.NRGBA{0xc8, 0x7c, 0x80, 255}, color.NRGBA{0x81, 0x97, 0x5d, 255}
	upright := func(a, b color.NRGBA, line int) func(x, y int) color.NRGBA {
		return func(x, _ int) color.NRGBA {
			switch {
			case x >= 200-line && x < 200+line:
				return color.NRGBA{A: 255}
			case x < 200:
				return a
			}
			return b
		}
	}
	for name, tt := range map[string]struct {
		of    func(x, y int) color.NRGBA
		which func(edgesRead) []edgeRead
		says  string
	}{
		"lost":      {upright(rose, moss, 0), func(e edgesRead) []edgeRead { return e.LostEdges }, "1 lost edge, carried by colour alone, 75 % of the width in all."},
		"lined":     {upright(rose, moss, 1), func(e edgesRead) []edgeRead { return e.Edges.HeldByLine }, "1 edge of one lightness held by a line, 75 %."},
		"lightness": {upright(color.NRGBA{90, 90, 90, 255}, color.NRGBA{160, 160, 160, 255}, 0), func(e edgesRead) []edgeRead { return e.Edges.LightnessAlone }, "1 edge carried by lightness alone, 75 %."},
	} {
		t.Run(name, func(t *testing.T) {
			path := picture(t, "edges.png", 400, 300, tt.of)
			var got edgesRead
			if err := json.Unmarshal([]byte(desktest.Run(t, "", "read", "--json", "--no-families", path).Out), &got); err != nil {
				t.Fatal(err)
			}
			list := tt.which(got)
			if all := len(got.LostEdges) + len(got.Edges.HeldByLine) + len(got.Edges.LightnessAlone); len(list) != 1 || all != 1 {
				t.Fatalf("%+v", got)
			}
			e := list[0]
			if math.Abs(e.Length-0.75) > 0.01 || e.X < 198 || e.X > 202 || e.Y < 140 || e.Y > 160 || e.Box.Height < 295 || e.Box.Width > 8 {
				t.Errorf("%+v", e)
			}
			colours := e.Darker.Colour + " " + e.Lighter.Colour
			if name != "lightness" && (e.Tones > 0.1 || !strings.Contains(colours, "#c87c80") || !strings.Contains(colours, "#81975d")) || name == "lightness" && colours != "#5a5a5a #a0a0a0" {
				t.Errorf("%s, %g tones", colours, e.Tones)
			}
			out := desktest.Run(t, "", "read", "--no-families", path).Out
			if !strings.Contains(out, tt.says) || name == "lost" && !strings.Contains(out, " melts into ") || name != "lost" && !strings.Contains(out, "  edges      no edge is lost in grey.") {
				t.Errorf("it says\n%s", out)
			}
		})
	}
}
