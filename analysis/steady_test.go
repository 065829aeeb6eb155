package analysis

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// sample draws pixels from a histogram, as a picture with a grain does from frame to frame.
func sample(rng *rand.Rand, from [256]int, pixels int) (h [256]int) {
	total := 0
	for _, n := range from {
		total += n
	}
	for range pixels {
		at := rng.IntN(total)
		for bin, n := range from {
			if at -= n; at < 0 {
				h[bin]++
				break
			}
		}
	}
	return h
}

// frames splits one histogram after another and returns how often a border or the number of
// groups moved.
func frames(r *Reader, histograms [][256]int) (moves int) {
	var last [4][]int
	for i, h := range histograms {
		r.reading.Histogram = h
		r.split(0, nil)
		now := [4][]int{{len(r.reading.Chosen().Groups())}}
		for k := 2; k <= 4; k++ {
			now[k-1] = slices.Clone(r.reading.Split(k).Thresholds())
		}
		if i > 0 && !slices.EqualFunc(last[:], now[:], slices.Equal) {
			moves++
		}
		last = now
	}
	return moves
}

// Grain makes the borders of a picture without clear groups wander; a steady Reader's stay.
func TestSteadyStaysInGrain(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	var histograms [][256]int
	for range 60 {
		histograms = append(histograms, sample(rng, evenHistogram(), 60000)) // as of 300 by 200 pixels
	}
	if free := frames(new(Reader), histograms); free < 30 {
		t.Errorf("the exact borders moved in %d of 59 frames: no grain to resist", free)
	}
	if held := frames(&Reader{Steady: true}, histograms); held > 0 {
		t.Errorf("steady borders moved %d times", held)
	}
}

// A border that is kept is never worse than the best by more than the margin; when the
// picture changes, the borders become the best at once.
func TestSteadyFollows(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	fixtures := otsuFixtures(t)
	steady := &Reader{Steady: true}
	for range 300 {
		h := fixtures[rng.IntN(len(fixtures))].Hist
		for range rng.IntN(3) {
			h[rng.IntN(256)] += rng.IntN(900)
		}
		exact := splitOf(h, 0)
		steady.reading.Histogram = h
		steady.split(0, nil)
		for k := 2; k <= 4; k++ {
			got, best := steady.reading.Split(k), exact.Split(k)
			if len(got.Groups()) != len(best.Groups()) {
				t.Fatalf("%d groups, want %d", len(got.Groups()), len(best.Groups()))
			}
			if got.Separability < best.Separability-steadyMargin-1e-12 {
				t.Errorf("separability %g kept beside %g", got.Separability, best.Separability)
			}
			for _, g := range got.Groups() {
				if !(g.Share > 0) {
					t.Errorf("an empty group is kept: %+v", g)
				}
			}
		}
	}
	steady.Forget()
	steady.reading.Histogram = fixtures[0].Hist
	steady.split(0, nil)
	if got, want := steady.reading.Split(3).Thresholds(), splitOf(fixtures[0].Hist, 0).Split(3).Thresholds(); !slices.Equal(got, want) {
		t.Errorf("after Forget %v, want %v", got, want)
	}
}

// Whatever was seen before, a border lies within 0.1 value of the best one of this frame alone, and
// groups whose number is automatic are 0.8 tones apart.
func TestSteadyHistoryLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steady := &Reader{Steady: true}
		h := drawHistogram(t)
		for range rapid.IntRange(1, 12).Draw(t, "frames") {
			if rapid.IntRange(0, 4).Draw(t, "another") == 0 {
				h = drawHistogram(t)
			}
			for range rapid.IntRange(0, 30).Draw(t, "changes") { // as of a brush
				bin := rapid.IntRange(0, 255).Draw(t, "bin")
				h[bin] = max(0, h[bin]+rapid.IntRange(-40, 40).Draw(t, "more"))
			}
			alone := splitOf(h, 0)
			steady.reading.Histogram, steady.reading.Counted = h, alone.Counted
			steady.split(0, nil)
			for k := 2; k <= MaxGroups; k++ {
				got, best := steady.reading.Split(k).Thresholds(), alone.Split(k).Thresholds()
				if len(got) != len(best) {
					t.Fatalf("%d groups: borders at %v, of this frame alone %v", k, got, best)
				}
				for i := range got {
					if d := colour.Value(borderOf(got[i])) - colour.Value(borderOf(best[i])); !(math.Abs(d) <= 0.1+1e-9) {
						t.Fatalf("%d groups: a border lies %g from the best one", k, d)
					}
				}
			}
			for _, r := range []*Reading{alone, &steady.reading} {
				for _, gap := range r.Chosen().Gaps() {
					if !(gap >= 0.8) {
						t.Fatalf("groups %g tones apart", gap)
					}
				}
			}
		}
	})
}

// A group that is new is clearly apart from the next, one that is there stays until it must go.
func TestSteadyGap(t *testing.T) {
	for _, tt := range []struct {
		gap  float64
		held int
		want int
	}{{0.85, 0, 2}, {0.79, 0, 1}, {0.85, 2, 2}, {0.79, 2, 1}, {0.85, 1, 1}, {0.91, 1, 2}} {
		one := [3]Split{{Separability: 0.95, count: 2, gaps: [3]float64{tt.gap}}}
		if got := automatic(&one, tt.held); got != tt.want {
			t.Errorf("%g tones apart, %d groups before: %d, want %d", tt.gap, tt.held, got, tt.want)
		}
	}
}

// The number of groups: within the margin it stays, beyond it changes.
func TestSteadyNumberOfGroups(t *testing.T) {
	at := func(separability ...float64) *[3]Split {
		s := new([3]Split)
		for i := range s {
			s[i] = Split{Separability: separability[i], count: i + 2, gaps: [3]float64{1, 1, 1}}
		}
		return s
	}
	tests := []struct {
		name   string
		splits *[3]Split
		held   int // groups, 0 for none
		want   int
	}{
		{"the limit itself is enough", at(0.90, 0.95, 0.97), 0, 2},
		{"just under", at(0.8999, 0.95, 0.97), 0, 3},
		{"none is enough", at(0.5, 0.6, 0.7), 0, 4},
		{"fewer, but barely", at(0.905, 0.95, 0.97), 3, 3},
		{"fewer, clearly", at(0.911, 0.95, 0.97), 3, 2},
		{"more, but barely needed", at(0.895, 0.95, 0.97), 2, 2},
		{"more, clearly", at(0.889, 0.95, 0.97), 2, 3},
		{"down to the one that is clear", at(0.905, 0.95, 0.97), 4, 3},
	}
	for _, tt := range tests {
		if got := automatic(tt.splits, tt.held); got != tt.want {
			t.Errorf("%s: %d groups, want %d", tt.name, got, tt.want)
		}
	}
}
