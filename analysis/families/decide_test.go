package families

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // how many cases
)

// At most 40 weights are fitted: more would learn the drawings by heart (our choice).
func TestFewWeights(t *testing.T) {
	if n := linkFigures + sureFigures; n > 40 {
		t.Errorf("%d weights", n)
	}
}

// A colour is a side once; of those that share colours and are as large the surest is chosen, of
// those that are as sure the largest, and nothing that could be chosen besides is left.
func TestChoose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(t, "n")
		confidence, part, colours := make([]float64, n), make([]float64, n), make([][]int32, n)
		for i := range n {
			confidence[i] = rapid.Float64Range(0, 1).Draw(t, "confidence")
			part[i] = rapid.Float64Range(0, 1.5).Draw(t, "part")
			colours[i] = rapid.SliceOfNDistinct(rapid.Int32Range(0, 9), 2, 4, rapid.ID[int32]).Draw(t, "colours")
		}
		chosen := Choose(confidence, part, colours)
		rival := func(i, k int) bool {
			return slices.ContainsFunc(colours[i], func(c int32) bool { return slices.Contains(colours[k], c) })
		}
		for i := range n {
			is := slices.Contains(chosen, i)
			kept := slices.ContainsFunc(chosen, func(k int) bool {
				return k != i && rival(i, k) && (confidence[k] >= confidence[i] || part[k] >= part[i])
			})
			if !is && !kept {
				t.Fatalf("%d has no surer or larger rival and isn't chosen", i)
			}
			for _, k := range chosen {
				if is && k != i && rival(i, k) {
					t.Fatalf("%d and %d share a colour", i, k)
				}
			}
		}
	})
}

// Where one link of a chain of steps is weak its halves are local colours, and the whole may be one;
// where it speaks clearly against that, it may not.
func TestJoinGoesOnAlongChains(t *testing.T) {
	for _, test := range []struct {
		weak  float64
		wider [][]int32
	}{
		{-0.9, [][]int32{{0, 1, 2, 3}}},
		{-lenience - widest - 0.1, nil},
	} {
		groups, wider := join([]link{
			{light: 0, shadow: 1, logit: 1.2}, {light: 1, shadow: 2, logit: test.weak}, {light: 2, shadow: 3, logit: 0.3},
		}, 5)
		if want := [][]int32{{0, 1}, {2, 3}}; !equal(groups, want) {
			t.Errorf("%g: joined %v, want %v", test.weak, groups, want)
		}
		if !equal(wider, test.wider) {
			t.Errorf("%g: wider %v, want %v", test.weak, wider, test.wider)
		}
	}
}

func equal(p, q [][]int32) bool { return slices.EqualFunc(p, q, slices.Equal[[]int32]) }
