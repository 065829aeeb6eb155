package analysis

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// What is said of the whole picture has nothing to do with where its pixels lie: shuffled,
// they have the same histogram, groups, gaps, murk, key, shares beyond the limits, distance
// from a target and matching with it.
func TestShufflingChangesNothingOfTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 71))
		p := randomPixels(rng, 50)
		shuffled := shuffledPixels(p, rng)
		o := Options{Groups: rapid.IntRange(0, 4).Draw(t, "groups"), Mask: &Mask{}}
		o.Mask.Lightness[rapid.IntRange(0, 255).Draw(t, "left out")] = true
		if rapid.Bool().Draw(t, "by hand") {
			o.Borders = []float64{rapid.Float64Range(0, 100).Draw(t, "border")}
		}
		a, b := Read(p, o), Read(shuffled, o)
		if a.Histogram != b.Histogram || a.Counted != b.Counted || a.Key != b.Key {
			t.Fatal("the histogram is another")
		}
		target := NewTarget(Read(randomPixels(rng, 50), Options{}))
		if one, other := wholeFigures(a, target), wholeFigures(b, target); !slices.EqualFunc(one, other, sameFigure) {
			t.Fatalf("figures %v, shuffled %v", one, other)
		}
	})
}

func sameFigure(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

// wholeFigures are the figures of a whole picture, beside its histogram.
func wholeFigures(r *Reading, target *Target) []float64 {
	split, match := r.Chosen(), target.Match(r)
	dark, light := r.Limits(DefaultLimits)
	figures := []float64{r.Mean, r.P1, r.P50, r.P99, split.Separability, split.Murk, dark, light, match.Distance}
	figures = append(figures, split.Gaps()...)
	for _, g := range split.Groups() {
		figures = append(figures, g.From, g.To, g.Share, g.Mean)
	}
	for _, g := range match.Groups() {
		figures = append(figures, g.Share, g.Target, g.More)
	}
	return figures
}

// shuffledPixels returns p with its pixels elsewhere, in a picture of its own.
func shuffledPixels(p Pixels, rng *rand.Rand) Pixels {
	q := p
	q.Stride = PixelBytes * p.Width
	q.Pix = make([]byte, q.Stride*p.Height)
	for to, from := range rng.Perm(p.Width * p.Height) {
		copy(q.Pix[PixelBytes*to:][:PixelBytes], p.Pix[from/p.Width*p.Stride+PixelBytes*(from%p.Width):])
	}
	return q
}
