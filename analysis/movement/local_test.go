package movement_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/movement"
)

// localEdit changes a part of a picture, at most a quarter of it, as painters do.
func localEdit(r, other *analysis.Reading, rng *rand.Rand) (what string) {
	w, h := 60+rng.IntN(r.Width/2-60), 60+rng.IntN(r.Height/2-60)
	left, top := rng.IntN(r.Width-w), rng.IntN(r.Height-h)
	was := append([]uint8(nil), r.Grey...)
	tone, shift := float64(rng.IntN(256)), 5+rng.IntN(50)
	at := func(x, y int) float64 {
		return float64(was[min(max(y, 0), r.Height-1)*r.Width+min(max(x, 0), r.Width-1)])
	}
	edits := []struct {
		what string
		of   func(x, y int) float64
	}{
		{"filled", func(int, int) float64 { return tone }},
		{"lighter", func(x, y int) float64 { return at(x, y) + 40 }},
		{"turned to its negative", func(x, y int) float64 { return 255 - at(x, y) }},
		{"blurred", func(x, y int) (sum float64) {
			for d := -6; d <= 6; d += 3 {
				sum += at(x+d, y) + at(x, y+d)
			}
			return sum / 10
		}},
		{"with another layer", func(x, y int) float64 { return float64(other.Grey[y*r.Width+x]) }},
		{"moved", func(x, y int) float64 { return at(x-shift, y) }},
		{"mirrored", func(x, y int) float64 { return at(2*left+w-1-x, y) }},
	}
	kind := rng.IntN(len(edits) + 1)
	if kind == len(edits) {
		strokes(r, rng, 0.02+0.06*rng.Float64())
		return "painted on"
	}
	round := rng.IntN(2) == 0
	for y := top; y < top+h; y++ {
		for x := left; x < left+w; x++ {
			u, v := 2*float64(x-left)/float64(w)-1, 2*float64(y-top)/float64(h)-1
			if !round || math.Hypot(u, v) < 1 {
				r.Grey[y*r.Width+x] = uint8(min(max(edits[kind].of(x, y), 0), 255))
			}
		}
	}
	return edits[kind].what
}

// No local edit is a movement, neither done nor undone.
func TestLocalEditsAreStill(t *testing.T) {
	lawtest.SkipRaced(t)
	all := paintings(t, false)
	var f movement.Finder
	for i := range lawtest.Times(20, 200) {
		rng := rand.New(rand.NewPCG(72, uint64(i)))
		p, q := all[rng.IntN(len(all))], all[rng.IntN(len(all))]
		fitted := func(p painted) *analysis.Reading {
			canvas := p.reading()
			fit := min(wide/float64(canvas.Width), high/float64(canvas.Height)) * (0.7 + 0.9*rng.Float64())
			return show(canvas, wide, high, movement.ZoomBy(fit, 0, 0).Compose(movement.Shift((wide-fit*float64(canvas.Width))/2, (high-fit*float64(canvas.Height))/2)), bilinear)
		}
		before, other := fitted(p), fitted(q)
		after := *before
		after.Grey = append([]uint8(nil), before.Grey...)
		what := localEdit(&after, other, rng)
		f.Forget()
		f.Next(before)
		if m := f.Next(&after); m.Kind != movement.Still {
			t.Errorf("%d: %s, %s: %+v", i, p.name, what, m)
		}
		if m := f.Next(before); m.Kind != movement.Still {
			t.Errorf("%d: %s, no longer %s: %+v", i, p.name, what, m)
		}
	}
}
