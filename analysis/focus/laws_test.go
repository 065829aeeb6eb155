package focus_test

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"golang.org/x/image/vector"
	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/scenetest"
)

// Pictures of laws are as many pixels as cells, and a little higher than wide enough.
const wide, high = focus.Longest, focus.Longest * 3 / 4

// drawSpots draws discs, each no larger than a place (along the rim of a larger one all is as strong), of colours that the display has however their lightness is inverted, in the
// middle of a picture; and the ground under them.
func drawSpots(t *rapid.T) (ground colour.Lab, list []spot) {
	of := func(name string) colour.Lab {
		return colour.Lab{L: rapid.Float64Range(30, 70).Draw(t, name+" lightness"), A: rapid.Float64Range(-15, 15).Draw(t, name+" a"), B: rapid.Float64Range(-15, 15).Draw(t, name+" b")}
	}
	ground = of("ground")
	for range rapid.IntRange(1, 4).Draw(t, "spots") {
		list = append(list, spot{rapid.Float64Range(0.3, 0.7).Draw(t, "x"), rapid.Float64Range(0.25, 0.5).Draw(t, "y"), rapid.Float64Range(0.01, 0.04).Draw(t, "radius"), of("spot")})
	}
	return ground, list
}

// alike holds places against those of a picture that was changed: each is carried to another of hardly
// another contrast. Of nearly equal ones any may be the last.
func alike(t *rapid.T, was, is *focus.Found, carry func(x, y float64) (float64, float64)) {
	for i, p := range was.Places {
		if len(is.Places) <= i || math.Abs(is.Places[i].Contrast-p.Contrast) > 0.004*p.Contrast+2e-4 {
			t.Fatalf("place %d of %+v is none of %+v", i, was.Places, is.Places)
		}
	}
	for i, p := range was.Places {
		x, y := carry(p.X, p.Y)
		near, tied := math.Inf(1), i == len(was.Places)-1 && i > 0
		for _, q := range is.Places {
			near = min(near, math.Hypot((q.X-x)*wide, (q.Y-y)*high))
		}
		for j, q := range was.Places {
			tied = tied || j != i && math.Abs(q.Contrast-p.Contrast) < 0.01*p.Contrast
		}
		if near > 2.5 && !tied {
			t.Errorf("place %d of %+v is not among %+v", i, was.Places, is.Places)
		}
	}
}

// few tries a law on some cases: each paints pictures.
func few(t *testing.T, law func(*rapid.T)) {
	cases := lawtest.Times(25, 2000)
	rapid.Check(t, func(t *rapid.T) {
		if cases--; cases >= 0 {
			law(t)
		}
	})
}

// A shift and a mirror carry the places along.
func TestShiftedAndMirrored(t *testing.T) {
	few(t, func(t *rapid.T) {
		ground, list := drawSpots(t)
		p := spots(ground, list...).pixels(wide, high)
		f := find(p)
		alike(t, f, find(mapped(p, wide, high, func(x, y int) (int, int) { return wide - 1 - x, y })), func(x, y float64) (float64, float64) { return 1 - x, y })
		alike(t, f, find(mapped(p, wide, high, func(x, y int) (int, int) { return x, high - 1 - y })), func(x, y float64) (float64, float64) { return x, 1 - y })
		alike(t, f, find(mapped(p, high, wide, func(x, y int) (int, int) { return y, x })), func(x, y float64) (float64, float64) { return y, x })
		by := image.Pt(rapid.IntRange(-15, 15).Draw(t, "right"), rapid.IntRange(-10, 10).Draw(t, "down"))
		shifted := mapped(p, wide, high, func(x, y int) (int, int) {
			return max(0, min(x-by.X, wide-1)), max(0, min(y-by.Y, high-1))
		})
		alike(t, f, find(shifted), func(x, y float64) (float64, float64) {
			return x + float64(by.X)/wide, y + float64(by.Y)/high
		})
	})
}

// Where every lightness becomes 100 minus it, edges are as wide, the contrast of chroma is the same
// everywhere, and the lightest light changes places with the darkest dark. The contrast of lightness
// does not stay: it counts by the light around it.
func TestInverted(t *testing.T) {
	few(t, func(t *rapid.T) {
		levels := rapid.Permutation([]float64{20, 35, 50, 65, 80}).Draw(t, "lightness")
		colourOf := func(l float64) colour.Lab {
			return colour.Lab{L: l, A: rapid.Float64Range(-12, 12).Draw(t, "a"), B: rapid.Float64Range(-12, 12).Draw(t, "b")}
		}
		ground := colourOf(levels[0])
		var list []spot
		var at []focus.Mark
		for i, l := range levels[1:] {
			s := spot{0.25 + 0.5*float64(i%2), 0.2 + 0.35*float64(i/2), rapid.Float64Range(0.04, 0.1).Draw(t, "radius"), colourOf(l)}
			list, at = append(list, s), append(at, focus.Mark{X: s.x, Y: s.y * wide / high})
		}
		s := spots(ground, list...)
		f := find(s.pixels(wide, high))
		g := find(scene(func(x, y float64) colour.Lab {
			c := s(x, y)
			c.L = 100 - c.L
			return c
		}).pixels(wide, high))
		for _, e := range [][2]*focus.Extreme{{f.Lightest, g.Darkest}, {f.Darkest, g.Lightest}} {
			if math.Hypot(e[0].X-e[1].X, e[0].Y-e[1].Y) > 0.02 && e[0].Alone > 0.5 || math.Abs(e[0].Alone-e[1].Alone) > 0.05 {
				t.Errorf("%+v, inverted %+v", e[0], e[1])
			}
		}
		was, is := f.Of(at), g.Of(at)
		for i := range at {
			for k, c := range was.Marks[i].Chroma {
				if d := is.Marks[i].Chroma[k]; math.Abs(c-d) > 0.15*max(c, d)+0.02 {
					t.Errorf("chroma %v, inverted %v", was.Marks[i].Chroma, is.Marks[i].Chroma)
				}
			}
			if a, b := was.Marks[i].EdgeWidth, is.Marks[i].EdgeWidth; a == nil || b == nil || math.Abs(*a-*b) > 0.003 {
				t.Errorf("edges %v, inverted %v", was.Marks[i], is.Marks[i])
			}
		}
	})
}

// Alone on its ground, a disc has the strongest contrast however light it or its ground is.
func TestAlone(t *testing.T) {
	few(t, func(t *rapid.T) {
		ground := rapid.Float64Range(5, 95).Draw(t, "ground")
		l := rapid.Float64Range(5, 95).Filter(func(l float64) bool { return math.Abs(l-ground) > 15 }).Draw(t, "lightness")
		s := spot{rapid.Float64Range(0.1, 0.9).Draw(t, "x"), rapid.Float64Range(0.1, 0.65).Draw(t, "y"), rapid.Float64Range(0.02, 0.04).Draw(t, "radius"), grey(l)}
		f := find(spots(grey(ground), s).pixels(wide, high))
		if len(f.Places) != 1 || distance(f.Places[0], s.x, s.y) > 0.02 {
			t.Errorf("%+v: %+v", s, f.Places)
		}
		e := f.Lightest
		if l < ground {
			e = f.Darkest
		}
		if e == nil || e.Alone < 0.99 {
			t.Errorf("%+v", e)
		}
	})
}

// The same picture gives the same, to the last bit, whoever did which rows; and at twice its size, at
// about the same places.
func TestSameAgain(t *testing.T) {
	s := scenetest.Random(scenetest.FirstOpen)
	if p := s.Pixels(); !reflect.DeepEqual(find(p), find(p)) {
		t.Error("the same picture is another the second time")
	}
	p := spots(grey(50), spot{0.2, 0.2, 0.03, grey(70)}, spot{0.8, 0.6, 0.03, grey(90)}).pixels(512, 384)
	twice := mapped(p, 1024, 768, func(x, y int) (int, int) { return x / 2, y / 2 })
	was, is := find(p), find(twice)
	for i := range was.Places {
		if math.Abs(was.Places[i].Contrast-is.Places[i].Contrast) > 1e-3 || distance(was.Places[i], is.Places[i].X, 0.75*is.Places[i].Y) > 0.01 {
			t.Errorf("%+v, at twice the size %+v", was.Places[i], is.Places[i])
		}
	}
}

// In painted scenes, made paler all over but for what is then drawn into them at places by chance, the
// strongest places are these, in the order of how strongly they are drawn: white on black, then
// light grey on dark grey.
func TestPainted(t *testing.T) {
	if testing.Short() {
		t.Skip("paints scenes")
	}
	lawtest.SkipRaced(t)
	var first, second, of int
	seeds := []int{}
	for seed := scenetest.FirstHeldOut; seed <= scenetest.LastHeldOut; seed++ {
		seeds = append(seeds, seed)
	}
	for _, seed := range lawtest.Some(seeds, 2) {
		p := scenetest.Random(seed).Pixels()
		pale(p)
		rng := rand.New(rand.NewPCG(uint64(seed), 15))
		side, unit := float64(min(p.Width, p.Height)), float64(max(p.Width, p.Height))
		at := func(left bool) (x, y float64) {
			x, y = (0.12+0.28*rng.Float64())*float64(p.Width), (0.15+0.7*rng.Float64())*side
			if !left {
				x = float64(p.Width) - x
			}
			return x, y
		}
		left := rng.IntN(2) == 0
		x, y := at(left)
		drawSign(p, x, y, 0.05*unit, 0, 255)
		u, v := at(!left)
		drawSign(p, u, v, 0.05*unit, 60, 160)
		f := find(p)
		of++
		is := func(i int, x, y float64) bool {
			return i < len(f.Places) && math.Hypot(f.Places[i].X*float64(p.Width)-x, f.Places[i].Y*float64(p.Height)-y) < f.Radius()*unit
		}
		if is(0, x, y) {
			first++
		}
		if is(1, u, v) {
			second++
		}
		if a := f.Of([]focus.Mark{{X: x / float64(p.Width), Y: y / float64(p.Height)}}); a.There != is(0, x, y) {
			t.Errorf("scene %d: %+v, %+v", seed, a, f.Places)
		}
	}
	t.Logf("the first of %d: %d, the second: %d", of, first, second)
	if first*100 < 95*of || second*100 < 90*of {
		t.Errorf("the first of %d is found %d times, the second %d times", of, first, second)
	}
}

// pale brings a picture's codes to a fifth of their distance from middle grey.
func pale(p analysis.Pixels) {
	for i, v := range p.Pix {
		if i%4 != 3 {
			p.Pix[i] = uint8(119 + (int(v)-119)/5)
		}
	}
}

// drawSign draws a star in a disc.
func drawSign(p analysis.Pixels, x, y, radius float64, dark, light uint8) {
	img := &image.RGBA{Pix: p.Pix, Stride: p.Stride, Rect: p.Bounds()}
	shape := func(points int, reach func(i int) float64, c uint8) {
		r := vector.NewRasterizer(p.Width, p.Height)
		for i := range points {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(points))
			px, py := float32(x+reach(i)*cos), float32(y+reach(i)*sin)
			if i == 0 {
				r.MoveTo(px, py)
				continue
			}
			r.LineTo(px, py)
		}
		r.ClosePath()
		r.Draw(img, img.Rect, image.NewUniform(color.Gray{Y: c}), image.Point{})
	}
	shape(64, func(int) float64 { return radius }, dark)
	shape(14, func(i int) float64 { return radius * [2]float64{0.9, 0.3}[i%2] }, light)
}
