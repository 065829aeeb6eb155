package edges_test

import (
	"bytes"
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/lawtest"
)

// patches is a scene of discs over a ground, all by chance, most of nearly one lightness.
func patches(t *rapid.T) scene {
	type patch struct {
		x, y, r float64
		of      paint
	}
	draw := func() paint {
		l := 60 + rapid.SampledFrom([]float64{0, 0, 0, 2, -2, 12}).Draw(t, "lightness")
		turn := rapid.Float64Range(0, 2*math.Pi).Draw(t, "hue")
		return of(l, 28*math.Cos(turn), 28*math.Sin(turn))
	}
	ground := draw()
	list := make([]patch, rapid.IntRange(1, 4).Draw(t, "patches"))
	for i := range list {
		at := rapid.Float64Range(0.1, 0.6)
		list[i] = patch{at.Draw(t, "x"), at.Draw(t, "y"), rapid.Float64Range(0.08, 0.3).Draw(t, "r"), draw()}
	}
	return func(x, y float64) paint {
		now := ground
		for _, p := range list {
			if math.Hypot(x-p.x, y-p.y) < p.r {
				now = p.of
			}
		}
		return now
	}
}

// mapped is a picture whose pixel at each place is p's at another.
func mapped(p analysis.Pixels, width, height int, from func(x, y int) (int, int)) analysis.Pixels {
	to := analysis.Pixels{Pix: make([]byte, 4*width*height), Stride: 4 * width, Width: width, Height: height}
	for y := range height {
		for x := range width {
			set(to, x, y, p.Pixel(from(x, y)))
		}
	}
	return to
}

// like reports whether two edges are one, with the length in pixels of their own pictures, and where
// box and its other lie.
func like(a, b *edges.Edge, boxA, boxB image.Rectangle, lengthA, lengthB float64) bool {
	near := func(p, q int) bool { return max(p-q, q-p) <= 6 }
	code := func(p, q colour.RGB) bool {
		return analysis.Compare(analysis.SpotOf(p), analysis.SpotOf(q), 2).CIEDE2000 < 1.5
	}
	colours := code(a.Dark, b.Dark) && code(a.Light, b.Light) || a.Tones < 0.05 && code(a.Dark, b.Light) && code(a.Light, b.Dark)
	return a.Kind == b.Kind && colours && near(boxA.Min.X, boxB.Min.X) && near(boxA.Min.Y, boxB.Min.Y) && near(boxA.Max.X, boxB.Max.X) && near(boxA.Max.Y, boxB.Max.Y) &&
		math.Abs(lengthA-lengthB) <= 0.1*lengthA+6
}

// carried checks that every edge of f that isn't short has its like in g, where turn brings its box.
func carried(t *rapid.T, what string, f, g *edges.Found, size, turned image.Point, turn func(image.Rectangle) image.Rectangle) {
	for i := range f.Edges {
		e := &f.Edges[i]
		_, box := f.At(e, size)
		box = turn(box)
		if e.Length*float64(size.X) < 0.06*float64(max(size.X, size.Y)) {
			continue
		}
		found := false
		for j := range g.Edges {
			_, other := g.At(&g.Edges[j], turned)
			found = found || like(e, &g.Edges[j], box, other, e.Length*float64(size.X), g.Edges[j].Length*float64(turned.X))
		}
		if !found {
			t.Errorf("%s: %+v at %v is not among %+v", what, e, box, g.Edges)
		}
	}
}

// A mirror and a quarter turn carry the edges along.
func TestMirroredAndTurned(t *testing.T) {
	const w, h = 320, 240
	rapid.Check(t, func(t *rapid.T) {
		p := patches(t).pixels(w, h)
		f, size := find(p), image.Pt(w, h)
		mirrored := find(mapped(p, w, h, func(x, y int) (int, int) { return w - 1 - x, y }))
		carried(t, "mirrored", f, mirrored, size, size, func(r image.Rectangle) image.Rectangle { return image.Rect(w-r.Max.X, r.Min.Y, w-r.Min.X, r.Max.Y) })
		turned := find(mapped(p, h, w, func(x, y int) (int, int) { return y, h - 1 - x }))
		carried(t, "turned", f, turned, size, image.Pt(h, w), func(r image.Rectangle) image.Rectangle {
			return image.Rect(h-r.Max.Y, r.Min.X, h-r.Min.Y, r.Max.X)
		})
	})
}

// A picture of greys has no edge that colour carries.
func TestGreysLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := patches(t)
		lightness := rapid.Float64Range(0, 3).Draw(t, "contrast")
		grey := scene(func(x, y float64) paint {
			p := s(x, y)
			v := max(0, min(128+lightness*(p[0]-128), 255))
			return paint{v, v, v}
		})
		f := find(grey.pixels(240, 180))
		if len(f.Of(edges.Lost))+len(f.Of(edges.Lined)) > 0 {
			t.Errorf("%+v", f.Edges)
		}
	})
}

// Enlarged to twice its size a picture of as many pixels as cells, or more, has edges as long as
// before, as shares. (In a smaller one edges nearer to each other than two of its reaches run into
// one, of which there are none among the forms of TestScaledForms.)
func TestScaled(t *testing.T) {
	cases := lawtest.Times(25, 5000)
	rapid.Check(t, func(t *rapid.T) {
		if cases--; cases < 0 {
			return
		}
		s, w := patches(t), rapid.IntRange(edges.Longest, 560).Draw(t, "width")
		h := w * 3 / 4
		small := s.pixels(w, h)
		f, g := find(small), find(mapped(small, 2*w, 2*h, func(x, y int) (int, int) { return x / 2, y / 2 }))
		for _, k := range []edges.Kind{edges.Lost, edges.Lightness} {
			// Each end and corner may differ by some cells, of which there are few.
			if a, b := total(f, k), total(g, k); math.Abs(a-b) > 0.1*max(a, b)+0.06 {
				t.Errorf("kind %d: %.3f of the width, at twice the size %.3f", k, a, b)
			}
		}
	})
}

// Where every colour loses the same part of its chroma, at its own lightness, no edge gets lost.
func TestDesaturatedAddsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := patches(t).pixels(300, 225)
		part := rapid.Float64Range(0, 1).Draw(t, "part")
		less := p
		less.Pix = bytes.Clone(p.Pix)
		dull := map[colour.RGB]colour.RGB{}
		for y := range p.Height {
			for x := range p.Width {
				c := p.Pixel(x, y)
				to, known := dull[c]
				if !known {
					lab := analysis.SpotOf(c).Lab
					to = of(lab.L, part*lab.A, part*lab.B).code()
					dull[c] = to
				}
				set(less, x, y, to)
			}
		}
		if was, is := total(find(p), edges.Lost), total(find(less), edges.Lost); is > was+0.03 {
			t.Errorf("%.3f of the width is lost, desaturated to %.2f it is %.3f", was, part, is)
		}
	})
}

// One form has an edge as long in a picture of any size, as a share.
func TestScaledForms(t *testing.T) {
	for name, s := range map[string]scene{"halves": leftRight(rose, moss), "disc": disc(rose, moss), "slanting": slanting(rose, moss, 30)} {
		want := total(find(s.pixels(800, 560)), edges.Lost)
		for _, w := range []int{120, 200, 300, 400, 600, 1600} {
			if got := total(find(s.pixels(w, w*7/10)), edges.Lost); math.Abs(got-want) > 0.05*want {
				t.Errorf("%s, %d wide: %.3f of the width, 800 wide it is %.3f", name, w, got, want)
			}
		}
	}
}
