package edges_test

import (
	"fmt"
	"image"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/edges"
)

// What is found in scenes whose truth is known by how they are painted. high is 0.7 of the width,
// in every scene.
func TestPainted(t *testing.T) {
	const high = 0.7
	black, white := paint{}, paint{255, 255, 255}
	for _, tt := range []struct {
		name   string
		scene  scene
		length [3]float64 // lost, lined, by lightness alone; shares of the width
	}{
		{"two hues of one lightness", leftRight(rose, moss), [3]float64{high, 0, 0}},
		{"rose and slate", leftRight(rose, slate), [3]float64{high, 0, 0}},
		{"0.3 tones apart", leftRight(roseOff, moss), [3]float64{high, 0, 0}},
		{"0.7 tones apart: neither lost nor lightness alone", leftRight(roseApart, moss), [3]float64{}},
		{"1.5 tones and another hue: carried by both", leftRight(roseDark, moss), [3]float64{}},
		{"one colour, 1.5 tones apart", leftRight(roseDark, rose), [3]float64{0, 0, high}},
		{"greys", leftRight(of(40, 0, 0), of(70, 0, 0)), [3]float64{0, 0, high}},
		{"hardly two colours", leftRight(pale, pink), [3]float64{}},
		{"nothing", leftRight(rose, rose), [3]float64{}},
		{"a black line between them", withLine(leftRight(rose, moss), black, 0.003), [3]float64{0, high, 0}},
		{"a thin one", withLine(leftRight(rose, moss), black, 0.0015), [3]float64{0, high, 0}},
		{"a broad one", withLine(leftRight(rose, moss), black, 0.006), [3]float64{0, high, 0}},
		{"a dark line", withLine(leftRight(rose, moss), of(35, 8, 8), 0.004), [3]float64{0, high, 0}},
		{"a light line", withLine(leftRight(rose, moss), white, 0.003), [3]float64{0, high, 0}},
		{"a line of their own lightness", withLine(leftRight(rose, moss), of(60, 0, 0), 0.003), [3]float64{high, 0, 0}},
		{"a line in one colour", withLine(leftRight(rose, rose), black, 0.003), [3]float64{}},
		{"a brush's soft edge", softly(rose, moss, 0.012), [3]float64{high, 0, 0}},
		{"a soft gradient", softly(rose, moss, 0.06), [3]float64{}},
		{"a gradient across the picture", softly(rose, moss, 1), [3]float64{}},
		{"a disc", disc(rose, moss), [3]float64{math.Pi / 2, 0, 0}},
		{"a slope of 10 degrees", slanting(rose, moss, 10), [3]float64{high / math.Cos(10*math.Pi/180), 0, 0}},
		{"of 30 degrees", slanting(rose, moss, 30), [3]float64{high / math.Cos(30*math.Pi/180), 0, 0}},
		{"of 45 degrees", slanting(rose, moss, 45), [3]float64{high / math.Cos(45*math.Pi/180), 0, 0}},
		{"of 75 degrees", slanting(rose, moss, 75), [3]float64{1 / math.Sin(75*math.Pi/180), 0, 0}},
		{"saturated hues, whose soft pixels are darker", leftRight(paint{230, 40, 60}, of(51.4, -45, 40)), [3]float64{high, 0, 0}},
	} {
		clean := tt.scene.pixels(1000, 700)
		for name, p := range map[string]analysis.Pixels{"clean": clean, "grain": grainy(clean, 6), "JPEG 80": asJPEG(t, clean, 80)} {
			t.Run(tt.name+"/"+name, func(t *testing.T) {
				f := find(p)
				for k, want := range tt.length {
					// What lies within the reach of the frame isn't seen: a hundredth at either end; corners
					// and turns are cut.
					if got := total(f, edges.Kind(k)); math.Abs(got-want) > 0.01+0.05*want {
						t.Errorf("kind %d is %.3f of the width long, want %.3f", k, got, want)
					}
				}
				if tt.length[0] > 0 && len(f.Of(edges.Lost)) > 1 {
					t.Errorf("%d pieces", len(f.Of(edges.Lost)))
				}
			})
		}
	}
}

// The figures of an edge are those of its two paints, and it lies where they meet.
func TestFigures(t *testing.T) {
	f := find(leftRight(roseOff, moss).pixels(1201, 840))
	lost := f.Of(edges.Lost)
	if len(lost) != 1 {
		t.Fatalf("%d edges", len(lost))
	}
	e := lost[0]
	dark, light := analysis.SpotOf(moss.code()), analysis.SpotOf(roseOff.code())
	if pair := analysis.Compare(dark, light, 2); e.Dark != dark.Colour || e.Light != light.Colour || math.Abs(e.Tones-pair.Tones) > 0.02 || math.Abs(e.CIEDE2000-pair.CIEDE2000) > 0.2 {
		t.Errorf("it is %+v, want %v, %v, %g tones, %g", e, dark.Colour, light.Colour, pair.Tones, pair.CIEDE2000)
	}
	middle, box := f.At(&e, image.Pt(1201, 840))
	if d := middle.Sub(image.Pt(600, 420)); max(d.X, -d.X) > 4 || max(d.Y, -d.Y) > 10 {
		t.Errorf("its middle is %v", middle)
	}
	if box.Min.X < 590 || box.Max.X > 612 || box.Min.Y > 4 || box.Max.Y < 836 || !middle.In(box) {
		t.Errorf("its box is %v", box)
	}
}

// What is left out has no edge, nor has the border to it.
func TestLeftOut(t *testing.T) {
	p := leftRight(rose, moss).pixels(800, 560)
	for name, area := range map[string]image.Rectangle{"one side": image.Rect(0, 0, 400, 560), "the border": image.Rect(380, 0, 420, 560)} {
		if f := edges.Find(p, &analysis.Mask{Areas: []image.Rectangle{area}}, edges.DefaultOptions()); len(f.Edges) != 0 {
			t.Errorf("without %s: %+v", name, f.Edges)
		}
	}
	half := edges.Find(p, &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 0, 800, 280)}}, edges.DefaultOptions())
	if got := total(half, edges.Lost); math.Abs(got-0.35) > 0.02 {
		t.Errorf("without the upper half it is %g long", got)
	}
}

// Noise has no edges, nor have pictures without room for one.
func TestNone(t *testing.T) {
	grey := leftRight(of(50, 0, 0), of(50, 0, 0))
	for _, size := range [][2]int{{0, 0}, {1, 1}, {1, 500}, {500, 1}, {2, 3}, {9, 9}, {640, 2}, {300, 200}} {
		for name, s := range map[string]scene{"blank": grey, "halves": leftRight(rose, moss)} {
			t.Run(fmt.Sprint(name, size), func(t *testing.T) {
				want := 0
				if name == "halves" && size[1] >= edges.LeastCells && size[0] > 8 {
					want = 1
				}
				if f := find(s.pixels(size[0], size[1])); len(f.Edges) != want {
					t.Errorf("%+v, want %d", f.Edges, want)
				}
			})
		}
	}
	for _, deviation := range []float64{5, 20, 60} {
		if f := find(grainy(grey.pixels(480, 320), deviation)); len(f.Edges) != 0 {
			t.Errorf("noise of %g codes: %d edges", deviation, len(f.Edges))
		}
	}
}

// The places beside an edge lie in its two paints, the darker and the lighter, wherever these are:
// round a disc the sides turn.
func TestBeside(t *testing.T) {
	for name, s := range map[string]scene{
		"left and right": leftRight(roseOff, moss), "right and left": leftRight(moss, roseOff),
		"a disc": disc(roseOff, moss), "its ground": disc(moss, roseOff), "a slope": slanting(roseOff, moss, 45),
	} {
		p := s.pixels(1000, 700)
		f := find(p)
		for _, e := range f.Of(edges.Lost) {
			for lighter, want := range map[bool]paint{false: moss, true: roseOff} {
				in, all := 0, 0
				f.Beside(&e, lighter, func(x, y float64) {
					i := int(y*float64(p.Height))*p.Stride + 4*int(x*float64(p.Width))
					c := want.code()
					if all++; p.Pix[i] == c.R && p.Pix[i+1] == c.G && p.Pix[i+2] == c.B {
						in++
					}
				})
				if all == 0 || in < all {
					t.Errorf("%s, lighter %v: %d of %d lie in it", name, lighter, in, all)
				}
			}
		}
		if len(f.Of(edges.Lost)) == 0 {
			t.Errorf("%s: nothing is lost", name)
		}
	}
}

// The lost edge at a place is the one that lies there, within as much as is asked for; none elsewhere,
// and none before anything was found.
func TestLostAt(t *testing.T) {
	f := edges.Find(leftRight(rose, moss).pixels(400, 280), nil, edges.DefaultOptions())
	for _, tt := range []struct {
		x, within float64
		there     bool
	}{{0.5, 0.01, true}, {0.515, 0.02, true}, {0.53, 0.02, false}, {0.1, 0.02, false}} {
		if e := f.LostAt(tt.x, 0.5, tt.within); (e != nil) != tt.there || e != nil && e.Kind != edges.Lost {
			t.Errorf("at %g, within %g: %+v", tt.x, tt.within, e)
		}
	}
	if e := new(edges.Finder).Last().LostAt(0.5, 0.5, 1); e != nil {
		t.Errorf("before anything was found: %+v", e)
	}
}
