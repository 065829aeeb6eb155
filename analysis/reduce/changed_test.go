package reduce

import (
	"image"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/internal/testkit"
)

// boxIn is somewhere in a picture, mostly small.
func boxIn(rng *rand.Rand, p analysis.Pixels) image.Rectangle {
	w, h := 1+rng.IntN(p.Width), 1+rng.IntN(p.Height)
	if rng.IntN(4) > 0 {
		w, h = min(w, 9), min(h, 9)
	}
	at := image.Pt(rng.IntN(p.Width-w+1), rng.IntN(p.Height-h+1))
	return image.Rectangle{Min: at, Max: at.Add(image.Pt(w, h))}
}

// Over a long chain of changes, what is reduced by difference is exactly what is reduced as a
// whole: whatever is transparent or left out, and whatever else changes in between.
func TestReduceChangedIsReduce(t *testing.T) {
	partly := 0
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 82))
		one, all := New(), New()
		defer one.Close()
		defer all.Close()
		var p analysis.Pixels
		var to image.Point
		var mask *analysis.Mask
		anew := func() {
			random := testkit.Random(rng, 60)
			p = analysis.Pixels{Pix: random.Pix, Stride: random.Stride, Width: random.Width, Height: random.Height}
			if random.BGRX {
				p.Layout = analysis.BGRX
			}
		}
		leaveOut := func() {
			mask = nil
			if rng.IntN(2) == 0 {
				mask = &analysis.Mask{}
				mask.Areas, mask.Lightness = testkit.RandomMask(rng, p.Width, p.Height)
			}
		}
		anew()
		leaveOut()
		to, changed := image.Pt(1+rng.IntN(70), 1+rng.IntN(70)), p.Bounds()
		for i := range rapid.IntRange(1, 40).Draw(t, "changes") {
			got, want := one.ReduceChanged(p, to.X, to.Y, mask, changed), all.Reduce(p, to.X, to.Y, mask)
			if got.Width != want.Width || !slices.Equal(got.Linear, want.Linear) || !slices.Equal(got.Left, want.Left) {
				t.Fatalf("after %d changes, the last in %v of %v to %v, reduced by difference it is another", i, changed, p.Bounds(), to)
			}
			if one.aims[0].box.Dx()*one.aims[0].box.Dy() < got.Width*got.Height {
				partly++
			}
			switch rng.IntN(12) {
			case 0:
				anew()
				changed = p.Bounds()
			case 1:
				leaveOut()
				changed = image.Rectangle{}
			case 2:
				to, changed = image.Pt(1+rng.IntN(70), 1+rng.IntN(70)), image.Rectangle{}
			default:
				changed = boxIn(rng, p)
				alpha := [...]uint8{255, 0, 128}[rng.IntN(3)]
				for y := changed.Min.Y; y < changed.Max.Y; y++ {
					for x := changed.Min.X; x < changed.Max.X; x++ {
						if rng.IntN(3) > 0 {
							c := rng.Uint32()
							copy(p.Pix[y*p.Stride+4*x:], []byte{byte(c), byte(c >> 8), byte(c >> 16), alpha})
						}
					}
				}
			}
		}
	})
	if partly < 100 {
		t.Errorf("hardly anything was reduced by difference: %d times", partly)
	}
}

// Budget: a picture after a dab of 64 x 64 costs a tenth of the whole; 0 allocs/op.
func BenchmarkReduceChanged(b *testing.B) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	r := New()
	defer r.Close()
	var whole, dab []time.Duration
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		start := time.Now()
		r.Reduce(p, 760, 428, nil)
		reduced := time.Now()
		at := image.Pt(n*97%1800, n*61%1000)
		r.ReduceChanged(p, 760, 428, nil, image.Rectangle{Min: at, Max: at.Add(image.Pt(64, 64))})
		whole, dab = append(whole, reduced.Sub(start)), append(dab, time.Since(reduced))
	}
	slices.Sort(whole)
	slices.Sort(dab)
	b.ReportMetric(float64(whole[len(whole)/2])/1e6, "whole-ms")
	b.ReportMetric(float64(dab[len(dab)/2])/1e6, "dab-ms")
}
