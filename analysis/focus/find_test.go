package focus_test

import (
	"image"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/focus"
)

// Where the strongest contrast was painted it is found, and nothing else outdoes it. Places are in
// shares of the width.
func TestStrongest(t *testing.T) {
	red, green := colour.Lab{L: 60, A: 40, B: 20}, colour.Lab{L: 60, A: -40, B: 20}
	for name, tt := range map[string]struct {
		of   scene
		x, y float64
	}{
		"light on grey":                  {spots(grey(50), spot{0.8, 0.2, 0.03, grey(90)}), 0.8, 0.2},
		"dark on grey":                   {spots(grey(50), spot{0.2, 0.6, 0.03, grey(10)}), 0.2, 0.6},
		"the stronger of two lights":     {spots(grey(50), spot{0.2, 0.2, 0.03, grey(70)}, spot{0.8, 0.6, 0.03, grey(90)}), 0.8, 0.6},
		"a large one beside a small one": {spots(grey(50), spot{0.2, 0.2, 0.01, grey(80)}, spot{0.8, 0.6, 0.04, grey(80)}), 0.8, 0.6},
		"colour of one lightness":        {spots(green, spot{0.3, 0.5, 0.03, red}), 0.3, 0.5},
		"more of it beside less":         {spots(grey(60), spot{0.2, 0.2, 0.03, colour.Lab{L: 60, A: 10}}, spot{0.8, 0.6, 0.03, red}), 0.8, 0.6},
		"light on a large dark":          {spots(grey(70), spot{0.3, 0.4, 0.25, grey(30)}, spot{0.3, 0.4, 0.03, grey(95)}), 0.3, 0.4},
		// PELI90: the same step of light counts by the light around it: 0.1 more of a linear light
		// of 0.1, and of 0.8.
		"a step in the dark": {spots(grey(70), spot{0.25, 0.4, 0.2, grey(colour.Lightness(0.1))}, spot{0.25, 0.4, 0.03, grey(colour.Lightness(0.2))},
			spot{0.75, 0.4, 0.2, grey(colour.Lightness(0.8))}, spot{0.75, 0.4, 0.03, grey(colour.Lightness(0.9))}), 0.25, 0.4},
	} {
		t.Run(name, func(t *testing.T) {
			f := find(tt.of.pixels(400, 300))
			if len(f.Places) == 0 || distance(f.Places[0], tt.x, tt.y) > 0.03 && name != "a step in the dark" {
				t.Fatalf("%+v", f.Places)
			}
			if name == "a step in the dark" {
				dark, bright := f.Of([]focus.Mark{{X: tt.x, Y: tt.y / 0.75}}), f.Of([]focus.Mark{{X: 0.75, Y: tt.y / 0.75}})
				if dark.Marks[0].Contrast < 3*bright.Marks[0].Contrast {
					t.Errorf("%g in the dark, %g in the light", dark.Marks[0].Contrast, bright.Marks[0].Contrast)
				}
			}
		})
	}
}

// Five places at most are told, in their order, none where another one is; of those as strong the
// upper one comes first, and of two beside each other the left one.
func TestOrder(t *testing.T) {
	lightness := []float64{95, 90, 85, 80, 75, 70}
	at := [][2]float64{{0.8, 0.6}, {0.2, 0.2}, {0.5, 0.4}, {0.8, 0.15}, {0.2, 0.6}, {0.5, 0.1}}
	var list []spot
	for i, l := range lightness {
		list = append(list, spot{at[i][0], at[i][1], 0.03, grey(l)})
	}
	f := find(spots(grey(50), list...).pixels(400, 300))
	if len(f.Places) != focus.MostPlaces {
		t.Fatalf("%d places", len(f.Places))
	}
	for i, p := range f.Places {
		if distance(p, at[i][0], at[i][1]) > 0.02 {
			t.Errorf("place %d lies at %.3f, %.3f", i, p.X, p.Y)
		}
	}
	for name, tt := range map[string][2]spot{
		"below each other":  {{0.75, 0.25, 0.03, grey(90)}, {0.25, 0.5, 0.03, grey(90)}},
		"beside each other": {{0.3, 0.4, 0.03, grey(90)}, {0.7, 0.4, 0.03, grey(90)}},
	} {
		same := find(spots(grey(50), tt[1], tt[0]).pixels(512, 384)) // whole pixels a cell
		if len(same.Places) != 2 || distance(same.Places[0], tt[0].x, tt[0].y) > 0.02 {
			t.Errorf("%s: %+v", name, same.Places)
		}
	}
}

// A flat picture has no place, no lightest light and no darkest dark, nor has one in which all is
// left out, or none of pixels.
func TestNothing(t *testing.T) {
	flat := spots(colour.Lab{L: 60, A: 20, B: -30}).pixels(300, 200)
	all := &analysis.Mask{Areas: []image.Rectangle{flat.Bounds()}}
	for name, f := range map[string]*focus.Found{
		"flat": find(flat), "left out": focus.Find(spots(grey(50), spot{0.5, 0.3, 0.1, grey(90)}).pixels(300, 200), all, focus.DefaultOptions()),
		"none": find(analysis.Pixels{}), "a pixel": find(spots(grey(50)).pixels(1, 1)),
	} {
		a := f.Of([]focus.Mark{{X: 0.5, Y: 0.5}})
		if len(f.Places) > 0 || f.Lightest != nil || f.Darkest != nil || a.There || a.Strongest != -1 || a.Marks[0].Share != 0 {
			t.Errorf("%s: %+v, %+v", name, f.Places, a)
		}
	}
}

// What is left out is neither a place nor an edge.
func TestLeftOut(t *testing.T) {
	p := spots(grey(50), spot{0.25, 0.4, 0.05, grey(95)}, spot{0.75, 0.4, 0.03, grey(65)}).pixels(400, 300)
	left := &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 0, 200, 300)}}
	f := focus.Find(p, left, focus.DefaultOptions())
	if len(f.Places) != 1 || distance(f.Places[0], 0.75, 0.4) > 0.02 {
		t.Errorf("%+v", f.Places)
	}
	if a := f.Of([]focus.Mark{{X: 0.25, Y: 0.53}}); a.There || a.Marks[0].Share > 0 {
		t.Errorf("%+v", a)
	}
}

// Least contrast is about what a border of half a tone has on middle grey, L* 47.5 and 52.5 (our
// choice of what it is to be): half as much is none, twice as much is one.
func TestLeastContrast(t *testing.T) {
	border := func(step float64) scene {
		return func(x, _ float64) colour.Lab {
			if x < 0.5 {
				return grey(50 - step/2)
			}
			return grey(50 + step/2)
		}
	}
	if f := find(border(2.5).pixels(400, 300)); len(f.Places) > 0 {
		t.Errorf("a quarter of a tone: %+v", f.Places)
	}
	if f := find(border(10).pixels(400, 300)); len(f.Places) == 0 {
		t.Error("a tone is none")
	}
}

// Black on middle grey weighs about as much as white on it: what the veil is for.
func TestVeil(t *testing.T) {
	f := find(spots(grey(50), spot{0.25, 0.4, 0.04, grey(0)}, spot{0.75, 0.4, 0.04, grey(100)}).pixels(400, 300))
	if len(f.Places) != 2 || f.Places[1].Contrast < 0.8*f.Places[0].Contrast {
		t.Errorf("%+v", f.Places)
	}
}

// Marks: the strongest contrast lies there, or it doesn't, and how much there is.
func TestMarks(t *testing.T) {
	f := find(spots(grey(50), spot{0.2, 0.2, 0.03, grey(70)}, spot{0.8, 0.6, 0.03, grey(90)}).pixels(400, 300))
	weak, strong, empty := focus.Mark{X: 0.2, Y: 0.2 / 0.75}, focus.Mark{X: 0.83, Y: 0.6 / 0.75}, focus.Mark{X: 0.5, Y: 0.5}
	for name, tt := range map[string]struct {
		marks []focus.Mark
		at    int
	}{
		"none": {nil, -1}, "elsewhere": {[]focus.Mark{weak, empty}, -1}, "near it": {[]focus.Mark{strong}, 0}, "one of them": {[]focus.Mark{weak, empty, strong}, 2},
		"outside": {[]focus.Mark{{X: -3, Y: 7}}, -1},
	} {
		a := f.Of(tt.marks)
		if a.Strongest != tt.at || a.There != (tt.at >= 0) || len(a.Marks) != len(tt.marks) {
			t.Errorf("%s: %+v", name, a)
		}
	}
	a := f.Of([]focus.Mark{weak, empty, strong})
	if s := a.Marks[0].Share; s < 0.1 || s > 0.6 {
		t.Errorf("the weak one has %g of it", s)
	}
	if a.Marks[1].Share > 0.01 || a.Marks[2].Share != 1 {
		t.Errorf("%+v", a.Marks)
	}
}

// The width of an edge is that which it was painted with: twice the width of the Gaussian whose
// integral it is, between the two lightnesses.
func TestEdgeWidth(t *testing.T) {
	soft := func(width float64) scene {
		return func(x, _ float64) colour.Lab { return grey(50 + 20*math.Erf((x-0.5)/(width/2*math.Sqrt2))) }
	}
	for _, tt := range []struct{ width, within float64 }{{0.0001, 0.003}, {0.01, 0.002}, {0.02, 0.002}, {0.04, 0.004}} {
		f := find(soft(tt.width).pixels(1024, 700))
		if len(f.Places) == 0 || f.Places[0].EdgeWidth == nil || math.Abs(*f.Places[0].EdgeWidth-tt.width) > tt.within {
			t.Errorf("%g wide: %+v", tt.width, f.Places)
			if len(f.Places) > 0 && f.Places[0].EdgeWidth != nil {
				t.Log(*f.Places[0].EdgeWidth)
			}
		}
	}
	// one lightness has no edge of it
	f := find(spots(colour.Lab{L: 60, A: -40, B: 20}, spot{0.3, 0.5, 0.03, colour.Lab{L: 60, A: 40, B: 20}}).pixels(400, 300))
	if len(f.Places) == 0 || f.Places[0].EdgeWidth != nil {
		t.Errorf("%+v", f.Places)
	}
}

// The lightest light and the darkest dark: where, of which colour, how alone, and how many tones
// from what is around (value of L* 50 is 4.9, of 95 is 9.5 and of 10 is 1.1 by ASTM D1535).
func TestExtremes(t *testing.T) {
	alone := find(spots(grey(50), spot{0.2, 0.2, 0.03, grey(95)}, spot{0.8, 0.6, 0.03, grey(10)}).pixels(400, 300))
	for name, tt := range map[string]struct {
		is          *focus.Extreme
		x, y, l     float64
		alone, tone float64
	}{
		"lightest": {alone.Lightest, 0.2, 0.2, 95, 1, colour.Value(95) - colour.Value(50)},
		"darkest":  {alone.Darkest, 0.8, 0.6, 10, 1, colour.Value(50) - colour.Value(10)},
	} {
		e := tt.is
		if e == nil || distance(focus.Place{X: e.X, Y: e.Y}, tt.x, tt.y) > 0.02 || e.Alone < 0.99 || math.Abs(e.Tones-tt.tone) > 0.4 ||
			math.Abs(analysis.SpotOf(e.Colour).Lightness-tt.l) > 3 {
			t.Errorf("%s: %+v", name, e)
		}
	}
	spread := find(spots(grey(50), spot{0.2, 0.2, 0.03, grey(95)}, spot{0.8, 0.2, 0.03, grey(95)}, spot{0.5, 0.6, 0.04, grey(95)}).pixels(400, 300))
	if e := spread.Lightest; e == nil || distance(focus.Place{X: e.X, Y: e.Y}, 0.5, 0.6) > 0.02 || e.Alone < 0.4 || e.Alone > 0.6 {
		t.Errorf("of three, the largest has 16/34 of the area: %+v", e)
	}
}

// What lies on either side is told, and a picture is read as it says it is.
func TestSides(t *testing.T) {
	red, green := colour.Lab{L: 40, A: 30, B: 20}, colour.Lab{L: 75, A: -30, B: 20}
	f := find(scene(func(x, _ float64) colour.Lab {
		if x < 0.5 {
			return red
		}
		return green
	}).pixels(512, 384))
	if len(f.Places) == 0 || f.Places[0].Darker != code(red) || f.Places[0].Lighter != code(green) {
		t.Errorf("%+v", f.Places)
	}
}
