package overlay

import (
	"image"
	"math"
	"slices"
	"testing"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/guitest"
)

// straight is a stretch across a picture at a height, from and to in parts of its width.
func straight(from, to, y float64) families.Stretch {
	s := families.Stretch{Length: to - from, Difference: new(-8.0)}
	for x := from; x <= to; x += 0.01 {
		s.Way = append(s.Way, families.At{X: x, Y: y})
	}
	return s
}

// An accent is drawn along its way and nowhere else, what leaves the lightness stands out across it,
// and a line that vanishes is rings that lie apart: shapes, all grey, exchanged where the mirror is.
func TestAlong(t *testing.T) {
	whole := image.Rect(100, 50, 300, 150)
	forms := []families.Form{{
		Edge:    &families.FormEdge{Accents: []families.Stretch{straight(0.1, 0.4, 0.25)}, Leaves: []families.Stretch{straight(0.3, 0.4, 0.25)}},
		Outline: &families.FormOutline{Vanishes: []families.Stretch{straight(0.5, 0.9, 0.75)}},
	}}
	for name, flipped := range map[string]bool{"as it is": false, "flipped": true} {
		t.Run(name, func(t *testing.T) {
			lay := Lay{Part: whole, Size: image.Pt(400, 200), Unit: 1, Flipped: flipped}
			img := lay.clear()
			Along(img, forms, whole, lay)
			guitest.AssertNeutral(t, img)
			at := func(x, y float64) bool { // whether a light pixel lies there
				if flipped {
					x = 1 - x
				}
				return img.RGBAAt(int(math.Round(400*x)), int(math.Round(200*y))).R > 200
			}
			for x := 0.12; x < 0.29; x += 0.01 {
				if !at(x, 0.25) {
					t.Errorf("no accent is drawn at %.2f", x)
				}
			}
			// A rung is 9 across, a line 3.
			rungs, rings, gaps := 0, 0, 0
			for x := 0.0; x < 1; x += 0.0025 {
				if at(x, 0.25+3.0/200) {
					if rungs++; x < 0.29 || x > 0.41 {
						t.Errorf("a rung at %.2f", x)
					}
				}
				if at(x, 0.75-2.0/200) {
					rings++
				} else if x > 0.5 && x < 0.9 {
					gaps++
				}
			}
			if rungs < 4 || rings < 16 || gaps < 16 {
				t.Errorf("%d columns of rungs, %d of rings, %d between them", rungs, rings, gaps)
			}
		})
	}
	for name, lay := range map[string]Lay{"no room": {Part: whole, Unit: 1}, "nothing": {Size: image.Pt(9, 9), Unit: 1}} {
		img := lay.clear()
		Along(img, []families.Form{{}, {Edge: &families.FormEdge{}}}, image.Rectangle{}, lay)
		if box, _ := drawnIn(img); !box.Empty() {
			t.Errorf("%s: drawn in %v", name, box)
		}
	}
}

// Words lie at the foot or at the top, in the first way that has room, in a line for each part where none
// has, or not at all.
func TestWords(t *testing.T) {
	for name, tt := range map[string]struct {
		size  image.Point
		top   bool
		drawn bool
		least image.Point // what the chip's width is more than, and less
	}{
		"wide":    {image.Pt(500, 200), false, true, image.Pt(200, 480)},
		"at top":  {image.Pt(500, 200), true, true, image.Pt(200, 480)},
		"short":   {image.Pt(140, 200), false, true, image.Pt(40, 124)},
		"parts":   {image.Pt(126, 106), false, true, image.Pt(60, 110)},
		"narrow":  {image.Pt(40, 200), false, false, image.Point{}},
		"too low": {image.Pt(500, 30), false, false, image.Point{}},
	} {
		img := image.NewRGBA(image.Rectangle{Max: tt.size})
		Words(img, tt.top, 1, "Accent along 62 % of the edge; line all round", "Accent 62 %; line gone")
		box, _ := drawnIn(img)
		if box.Empty() == tt.drawn || tt.drawn && (box.Dx() < tt.least.X || box.Dx() > tt.least.Y || tt.top != (box.Max.Y < tt.size.Y/2) || tt.top == (box.Min.Y > tt.size.Y/2)) {
			t.Errorf("%s: drawn in %v", name, box)
		}
	}
}

// A label is broken at the stops of its language, and a decimal comma is none (CLDR 47, numbers: de, es).
func TestParts(t *testing.T) {
	for _, tt := range []struct {
		words, stops string
		want         []string
	}{
		{"Accent 62 %; line gone, all round", ";；", []string{"Accent 62 %", "line gone, all round"}},
		{"Accent 62 %; line gone, all round", ";；,、", []string{"Accent 62 %", "line gone", "all round"}},
		{"Akzent 62 %, 1,5 Stufen; Linie 0,4 dunkler", ";；,、", []string{"Akzent 62 %", "1,5 Stufen", "Linie 0,4 dunkler"}},
		{"アクセント62 %；線が消える、全周", ";；", []string{"アクセント62 %", "線が消える、全周"}},
		{"アクセント62 %；線が消える、全周", ";；,、", []string{"アクセント62 %", "線が消える", "全周"}},
		{"1,2", ";；,、", []string{"1,2"}}, {"1,", ";；,、", []string{"1"}}, {";, 、", ";；,、", nil}, {"", ";", nil},
	} {
		if got := parts(tt.words, tt.stops); !slices.Equal(got, tt.want) {
			t.Errorf("%q at %q: %q, want %q", tt.words, tt.stops, got, tt.want)
		}
	}
}
