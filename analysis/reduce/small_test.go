package reduce

import (
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
)

func TestSmallSize(t *testing.T) {
	for _, tt := range [][5]int{ // width, height, longer side, and what they become
		{760, 590, 128, 128, 99}, {590, 760, 64, 50, 64}, {100, 50, 128, 100, 50}, {128, 3, 128, 128, 3}, {1000, 2, 64, 64, 1}, {0, 0, 64, 0, 0},
	} {
		if width, height := analysis.SmallSize(tt[0], tt[1], tt[2]); width != tt[3] || height != tt[4] {
			t.Errorf("%v: %d x %d", tt, width, height)
		}
	}
}

// smallGapsOf paints a picture of 256 x 256 pixels and makes it small.
func smallGapsOf(longer int, o analysis.Options, at func(x, y int) uint8) []analysis.GapChange {
	const side = 256
	p := analysis.Pixels{Pix: make([]byte, 4*side*side), Stride: 4 * side, Width: side, Height: side}
	for i := range side * side {
		v := at(i%side, i/side)
		analysistest.Set(p, i%side, i/side, colour.RGB{R: v, G: v, B: v}, 255)
	}
	r := New()
	defer r.Close()
	histogram := r.Reduce(p, longer, longer, o.Mask).Histogram()
	return new(analysis.GapMeter).Changes(nil, &histogram, analysis.Read(p, o))
}

// Masses keep their gap; a pattern finer than the small picture's pixels loses it.
func TestSmallGaps(t *testing.T) {
	masses := func(x, _ int) uint8 { return uint8(60 + 140*(x/128)) }
	for _, g := range smallGapsOf(64, analysis.Options{Groups: 2}, masses) {
		if !(math.Abs(g.Small-g.Whole) < 1e-9) || !(g.Whole > 4) {
			t.Errorf("two masses: %+v", g)
		}
	}
	chequers := func(x, y int) uint8 { return uint8(60 + 140*((x+y)%2)) }
	got := smallGapsOf(128, analysis.Options{Groups: 2}, chequers)
	if len(got) != 1 || !math.IsNaN(got[0].Small) || !(got[0].Whole > 4) {
		t.Errorf("chequers that melt: %+v", got)
	}
	// By hand: hatching of black, one pixel in four, in light of 1 becomes light of 3/4; the
	// other half stays black.
	hatched := func(x, y int) uint8 {
		if x < 128 || y%4 == 0 {
			return 0
		}
		return 255
	}
	for _, o := range []analysis.Options{{Groups: 2}, {Borders: []float64{50}}} {
		got := smallGapsOf(64, o, hatched)
		if want := colour.ValueOfY(0.75) - 10; len(got) != 1 || math.Abs(got[0].Whole-10) > 1e-9 || !(math.Abs(got[0].Small-got[0].Whole-want) < 0.03) { // a bin is 0.04
			t.Errorf("hatched light: %+v, want a change of %g", got, want)
		}
	}
	// Edges set by hand stay: with one at L* 95 the small picture has nothing above it.
	if got := smallGapsOf(64, analysis.Options{Borders: []float64{95}}, hatched); len(got) != 1 || !math.IsNaN(got[0].Small) {
		t.Errorf("an edge above all that is left: %+v", got)
	}
	// At its own size nothing changes.
	for _, g := range smallGapsOf(256, analysis.Options{Groups: 4}, func(x, y int) uint8 { return uint8(x) }) {
		if !(math.Abs(g.Small-g.Whole) < 1e-9) {
			t.Errorf("at its own size: %+v", g)
		}
	}
	if got := smallGapsOf(64, analysis.Options{Mask: &analysis.Mask{Lightness: [256]bool{0: true}}, Groups: 2}, func(int, int) uint8 { return 0 }); len(got) != 0 {
		t.Errorf("of nothing: %+v", got)
	}
}

func TestSmallGapsAllocateNothing(t *testing.T) {
	p := analysistest.Painting(300, 200, analysis.BGRX)
	r := New()
	defer r.Close()
	src, reading := r.Reduce(p, 64, 43, nil), analysis.Read(p, analysis.Options{})
	var meter analysis.GapMeter
	histogram := src.Histogram()
	gaps := meter.Changes(nil, &histogram, reading)
	if n := testkit.LeastAllocs(10, func() {
		histogram = src.Histogram()
		gaps = meter.Changes(gaps[:0], &histogram, reading)
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// Making a picture small and measuring its gaps. Budget: beside a view, with which it shares
// the 8 ms of a view, 4 ms; 0 allocs/op.
func BenchmarkSmallGaps(b *testing.B) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	r := New()
	defer r.Close()
	reading := analysis.Read(p, analysis.Options{})
	width, height := analysis.SmallSize(p.Width, p.Height, 256)
	var meter analysis.GapMeter
	var gaps []analysis.GapChange
	b.ReportAllocs()
	for b.Loop() {
		histogram := r.Reduce(p, width, height, nil).Histogram()
		gaps = meter.Changes(gaps[:0], &histogram, reading)
	}
}
