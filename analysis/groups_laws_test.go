package analysis

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawHistogram draws sparse and full histograms, with small and large counts.
func drawHistogram(t *rapid.T) (h [256]int) {
	most := rapid.SampledFrom([]int{1, 3, 50, 1 << 20}).Draw(t, "most")
	for range rapid.IntRange(1, 300).Draw(t, "bins") {
		h[rapid.IntRange(0, 255).Draw(t, "bin")] = rapid.IntRange(0, most).Draw(t, "count")
	}
	return h
}

// For every histogram: groups follow each other without gap from black to white, each holds
// its own mean and some pixels, means rise, more groups are at least as separable, and a
// picture counted seven times over has the same figures.
func TestSplitLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistogram(t)
		r, before := splitOf(h, 0), 0.0
		for bin := range h {
			h[bin] *= 7
		}
		again := splitOf(h, 0)
		for k := 2; k <= 4; k++ {
			s := r.Split(k)
			checkGroups(t, s)
			if len(s.Groups()) < 2 {
				if !math.IsNaN(s.Separability) {
					t.Fatalf("separability of one lightness is %g", s.Separability)
				}
				continue
			}
			if !(s.Separability >= before-1e-12 && s.Separability <= 1) {
				t.Fatalf("%d groups: separability %g after %g", k, s.Separability, before)
			}
			before = s.Separability
			if d := again.Split(k).Separability - s.Separability; !(math.Abs(d) < 1e-10) { // the sums are rounded, and a group may be a millionth of the picture
				t.Fatalf("seven times the picture is %g more separable", d)
			}
		}
	})
}

func checkGroups(t *rapid.T, s *Split) {
	from, mean, shares := 0.0, -1.0, 0.0
	for _, g := range s.Groups() {
		if g.From != from || !(g.From <= g.Mean && g.Mean <= g.To && g.Mean > mean && g.Share > 0) || g.Name == "" {
			t.Fatalf("group %+v after %g with mean %g", g, from, mean)
		}
		from, mean, shares = g.To, g.Mean, shares+g.Share
	}
	if len(s.Groups()) == 0 {
		return // nothing counted
	}
	if from != 100 || !(math.Abs(shares-1) < 1e-9) || !(s.Murk >= 0 && s.Murk <= 1) {
		t.Fatalf("groups end at %g, shares %g, murk %g", from, shares, s.Murk)
	}
}
