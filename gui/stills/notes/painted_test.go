package notes

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/stills/ink"
)

// halves is light grey on the left, dark grey on the right, w wide.
func halves(w, h int) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := range w * h {
		grey := uint8(200)
		if i%w >= w/2 {
			grey = 80
		}
		copy(p.Pix[4*i:], []byte{grey, grey, grey, 255})
	}
	return p
}

// Two strokes, one on each half, read as the two colours do.
func TestPaintedReadsBothSides(t *testing.T) {
	m := NewPainted(halves(200, 100))
	m.Set([]Note{
		New(Area{Light, []ink.Point{ink.Pt(20, 20), ink.Pt(60, 80)}, 20}, ""),
		New(Area{Shadow, []ink.Point{ink.Pt(150, 50)}, 30}, ""),
	})
	light := analysis.SpotOf(colour.RGB{R: 200, G: 200, B: 200})
	shadow := analysis.SpotOf(colour.RGB{R: 80, G: 80, B: 80})
	got := m.Measure()
	if got.Light == nil || got.Shadow == nil || got.Light.Colour != light.Colour || got.Shadow.Colour != shadow.Colour {
		t.Fatalf("%+v", got)
	}
	if math.Abs(got.Tones-(light.Value-shadow.Value)) > 1e-6 || got.Overlap >= 0 {
		t.Errorf("tones %g, overlap %g", got.Tones, got.Overlap)
	}
	if got.Light.Spread > 0.01 {
		t.Errorf("spread %g", got.Light.Spread)
	}
	// A disc of radius 15: π 15² pixels (Archimedes), but for its rim.
	if n := got.Shadow.Pixels; math.Abs(float64(n)-math.Pi*15*15) > 20 {
		t.Errorf("the shadow has %d pixels", n)
	}
}

// Nothing painted, and one side alone, have no difference.
func TestPaintedOneSide(t *testing.T) {
	m := NewPainted(halves(50, 50))
	for range 2 {
		got := m.Measure()
		if got.Shadow != nil || !math.IsNaN(got.Tones) || !math.IsNaN(got.Overlap) {
			t.Errorf("%+v", got)
		}
		m.Paint(Light, ink.Pt(10, 10), ink.Pt(10, 10), 6)
	}
}

// As it is painted or all at once, in whatever order: the figures are the same.
func TestPaintedOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []Note
		for range rapid.IntRange(0, 5).Draw(t, "areas") {
			side := rapid.SampledFrom([]Side{Light, Shadow}).Draw(t, "side")
			points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) ink.Point {
				return ink.Pt(float64(rapid.IntRange(-20, 120).Draw(t, "x")), float64(rapid.IntRange(-20, 80).Draw(t, "y")))
			}), 1, 4).Draw(t, "points")
			list = append(list, New(Area{side, points, float64(rapid.IntRange(1, 40).Draw(t, "width"))}, ""))
		}
		p := halves(100, 60)
		once, steps := NewPainted(p), NewPainted(p)
		once.Set(list)
		for i := range list {
			a := list[len(list)-1-i].Shape.(Area)
			for k := range a.Points {
				steps.Paint(a.Side, a.Points[max(k-1, 0)], a.Points[k], a.Width)
			}
		}
		if once.patches != steps.patches {
			t.Fatal("the order matters")
		}
	})
}

// The next stretch of a wide brush, with the figures that go with it. Budget: 5 ms.
func BenchmarkPaintStretch(b *testing.B) {
	m := NewPainted(halves(1920, 1080))
	x := 0.0
	for b.Loop() {
		m.Paint(Light, ink.Pt(x, 500), ink.Pt(x+12, 505), 120)
		m.Measure()
		if x += 12; x > 1900 {
			x = 0
			m.Set(nil)
		}
	}
}
