package analysis

import (
	"encoding/json"
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"app.tonedesk/analysis/colour"
)

// splitOf splits a histogram, without a picture.
func splitOf(histogram [256]int, groups int) *Reading {
	r := new(Reader)
	r.reading.Histogram = histogram
	for _, n := range histogram {
		r.reading.Counted += n
	}
	r.reading.measure()
	r.split(groups, nil)
	return &r.reading
}

// otsuOptimum is what the fixture file publishes for one number of groups.
type otsuOptimum struct {
	Threshold  *int     `json:"threshold"` // two groups
	TieRange   [2]int   `json:"tie_range"`
	Thresholds []int    `json:"thresholds"` // three and four
	TieRanges  [][2]int `json:"tie_ranges"`
	Optima     int      `json:"n_optima"`
	Between    float64  `json:"between_class_variance"`
	Other      [][]int  `json:"other_optima"`
}

type otsuFixture struct {
	Name  string       `json:"name"`
	Two   *otsuOptimum `json:"otsu2"`
	Three *otsuOptimum `json:"otsu3"`
	Four  *otsuOptimum `json:"otsu4"`
	Hist  [256]int     `json:"hist"`
}

func otsuFixtures(t *testing.T) []otsuFixture {
	t.Helper()
	bytes, err := os.ReadFile("../testdata/otsu_histograms.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Fixtures []otsuFixture `json:"fixtures"`
	}
	if err := json.Unmarshal(bytes, &file); err != nil || len(file.Fixtures) == 0 {
		t.Fatalf("%d fixtures, %v", len(file.Fixtures), err)
	}
	return file.Fixtures
}

// Thresholds as published in testdata/otsu_histograms.json: Otsu 1979, Liao, Chen and Chung
// 2001, found by exhaustive search in exact fractions.
func TestSplitFixtures(t *testing.T) {
	for _, f := range otsuFixtures(t) {
		for i, want := range []*otsuOptimum{f.Two, f.Three, f.Four} {
			if want == nil {
				continue // fewer filled bins than groups
			}
			t.Run(f.Name, func(t *testing.T) {
				split := splitOf(f.Hist, 0).Split(i + 2)
				checkThresholds(t, split.Thresholds(), want)
				total := variance(f.Hist) // the variance between is published with 6 decimals
				if d := split.Separability - want.Between/total; !(math.Abs(d) < 1e-6/total) {
					t.Errorf("separability %g, want %g", split.Separability, want.Between/total)
				}
			})
		}
	}
}

func checkThresholds(t *testing.T, got []int, want *otsuOptimum) {
	t.Helper()
	ranges := want.TieRanges
	if want.Threshold != nil {
		ranges = [][2]int{want.TieRange}
	}
	if len(got) != len(ranges) {
		t.Fatalf("%d thresholds, want %d", len(got), len(ranges))
	}
	var middles []int
	for _, r := range ranges {
		middles = append(middles, (r[0]+r[1])/2)
	}
	if slices.Equal(got, middles) {
		return
	}
	for _, other := range want.Other { // listed by their first bins
		if slices.EqualFunc(got, other, func(a, b int) bool { return a >= b && a < b+64 }) {
			return
		}
	}
	t.Errorf("thresholds %v, want %v or the middle of %v", got, middles, want.Other)
}

func variance(histogram [256]int) float64 {
	n, sum, squares := 0.0, 0.0, 0.0
	for bin, count := range histogram {
		n, sum = n+float64(count), sum+float64(bin*count)
		squares += float64(bin * bin * count)
	}
	return squares/n - sum/n*sum/n
}

// betweenOf is the sum over the groups of (their bins' sum)²/pixels: between-class
// variance but for a constant, as an exact fraction.
func betweenOf(histogram *[256]int, thresholds []int) *big.Rat {
	total, sum, n := new(big.Rat), int64(0), int64(0)
	for bin, count := range histogram {
		sum, n = sum+int64(bin*count), n+int64(count)
		if bin == 255 || slices.Contains(thresholds, bin) {
			if n > 0 {
				total.Add(total, big.NewRat(sum*sum, n))
			}
			sum, n = 0, 0
		}
	}
	return total
}

// Groups that are added by themselves are 0.8 tones apart: by hand, L* 40 and 47 are values 3.9 and
// 4.6 (D1535), L* 40 and 49 values 3.9 and 4.8; what grain does to one lightness is no group.
func TestOneTone(t *testing.T) {
	tests := []struct {
		name string
		hist map[int]int
		want int
	}{
		{"two that are one mass", map[int]int{102: 5, 120: 5}, 1}, // L* 40 and 47.06
		{"two that are two", map[int]int{102: 5, 125: 5}, 2},      // L* 40 and 49.02
		{"paper with grain", map[int]int{236: 1, 237: 8, 238: 30, 239: 60, 240: 30, 241: 8, 242: 1}, 1},
		{"two, and one that is near the second", map[int]int{20: 10, 160: 5, 175: 5}, 2},
		{"one lightness", map[int]int{200: 3}, 1},
		{"nothing", nil, 0},
	}
	for _, tt := range tests {
		var h [256]int
		for bin, n := range tt.hist {
			h[bin] = n
		}
		r := splitOf(h, 0)
		got := r.Chosen()
		if len(got.Groups()) != tt.want || len(got.Gaps()) != max(0, tt.want-1) {
			t.Errorf("%s: %+v", tt.name, got.Groups())
		}
		if tt.want == 1 && (got.Groups()[0].Share != 1 || got.Groups()[0].Mean != r.Mean || got.Groups()[0].To != 100) {
			t.Errorf("%s: %+v", tt.name, got.Groups())
		}
		if by := splitOf(h, 2).Chosen(); len(tt.hist) > 1 && len(by.Groups()) != 2 {
			t.Errorf("%s: asked for, there are %d groups", tt.name, len(by.Groups()))
		}
	}
}

// Every split of small histograms, exhaustively and in exact fractions: none is better than
// ours, and our borders stand in the middle of the empty bins.
func TestSplitAgainstAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for range 150 {
		var histogram [256]int
		var filled []int
		for range 1 + rng.IntN(9) {
			bin := rng.IntN(256)
			if rng.IntN(2) == 0 {
				bin = rng.IntN(12) * 5 // evenly spaced: ties
			}
			histogram[bin] = 1 + rng.IntN(6)
		}
		for bin, n := range histogram {
			if n > 0 {
				filled = append(filled, bin)
			}
		}
		r := splitOf(histogram, 0)
		for k := 2; k <= 4; k++ {
			got := r.Split(k).Thresholds()
			if want := min(k, len(filled)) - 1; len(got) != want {
				t.Fatalf("%v into %d groups: %d borders, want %d", filled, k, len(got), want)
			}
			best := new(big.Rat)
			eachCut(filled[:len(filled)-1], len(got), nil, func(cut []int) {
				if b := betweenOf(&histogram, cut); b.Cmp(best) > 0 {
					best = b
				}
			})
			if ours := betweenOf(&histogram, got); ours.Cmp(best) != 0 {
				t.Errorf("%v into %d groups at %v: %v, best is %v", filled, k, got, ours, best)
			}
			for _, border := range got {
				i, found := slices.BinarySearch(filled, border)
				if !found {
					i-- // the filled bin below
				}
				if want := (filled[i] + filled[i+1] - 1) / 2; border != want {
					t.Errorf("border at %d between %d and %d, want %d", border, filled[i], filled[i+1], want)
				}
			}
		}
	}
}

// eachCut calls do with every choice of n of the bins, in order.
func eachCut(bins []int, n int, chosen []int, do func([]int)) {
	if n == 0 {
		do(chosen)
		return
	}
	for i := range bins {
		eachCut(bins[i+1:], n-1, append(chosen[:len(chosen):len(chosen)], bins[i]), do)
	}
}

// A picture turned into its negative is as separable, murk and gaps aside.
func TestSplitOfNegative(t *testing.T) {
	for _, f := range otsuFixtures(t) {
		negative := f.Hist
		slices.Reverse(negative[:])
		a, b := splitOf(f.Hist, 0), splitOf(negative, 0)
		for k := 2; k <= 4; k++ {
			if d := a.Split(k).Separability - b.Split(k).Separability; !(math.Abs(d) < 1e-12) {
				t.Errorf("%s, %d groups: %g apart", f.Name, k, d)
			}
		}
	}
}

// Figures counted by hand: bins 0, 51, 102, 204 and 255 are L* 0, 20, 40, 80 and 100.
func TestGroups(t *testing.T) {
	tests := []struct {
		name   string
		hist   map[int]int
		groups int
		want   []Group
	}{
		{"one lightness, dark", map[int]int{51: 9}, 3, []Group{{"dark", 0, 100, 1, 20}}},
		{"one lightness, middle", map[int]int{128: 9}, 4, []Group{{"middle", 0, 100, 1, 128 / 2.55}}},
		{"one lightness, light", map[int]int{204: 9}, 0, []Group{{"light", 0, 100, 1, 80}}},
		{"two, though three are asked for", map[int]int{0: 1, 255: 3}, 3,
			[]Group{{"dark", 0, 50, 0.25, 0}, {"light", 50, 100, 0.75, 100}}},
		{"three", map[int]int{51: 2, 102: 1, 204: 1}, 3, []Group{
			{"dark", 0, 76.5 / 2.55, 0.5, 20}, {"middle", 76.5 / 2.55, 153 / 2.55, 0.25, 40}, {"light", 153 / 2.55, 100, 0.25, 80}}},
		{"four", map[int]int{0: 4, 51: 3, 204: 2, 255: 1}, 4, []Group{
			{"dark", 0, 10, 0.4, 0}, {"dark middle", 10, 50, 0.3, 20}, {"light middle", 50, 90, 0.2, 80}, {"light", 90, 100, 0.1, 100}}},
		{"two of four bins", map[int]int{0: 1, 51: 1, 204: 1, 255: 1}, 2, []Group{
			{"dark", 0, 50, 0.5, 10}, {"light", 50, 100, 0.5, 90}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var histogram [256]int
			for bin, n := range tt.hist {
				histogram[bin] = n
			}
			split := splitOf(histogram, tt.groups).Chosen()
			near := func(a, b float64) bool { return math.Abs(a-b) <= 0.5/2.55 } // borders stand on half bins
			if !slices.EqualFunc(split.Groups(), tt.want, func(a, b Group) bool {
				return a.Name == b.Name && near(a.From, b.From) && near(a.To, b.To) &&
					math.Abs(a.Share-b.Share) < 1e-12 && math.Abs(a.Mean-b.Mean) < 1e-9
			}) {
				t.Errorf("got  %+v\nwant %+v", split.Groups(), tt.want)
			}
		})
	}
}

// Gaps are value steps between means, and murk counts what lies near any border, once.
func TestGapsAndMurk(t *testing.T) {
	for _, f := range otsuFixtures(t) {
		r := splitOf(f.Hist, 0)
		for k := 2; k <= 4; k++ {
			s, groups := r.Split(k), r.Split(k).Groups()
			for i, gap := range s.Gaps() {
				if want := colour.Value(groups[i+1].Mean) - colour.Value(groups[i].Mean); gap != want || !(gap > 0) {
					t.Errorf("%s: gap %g, want %g", f.Name, gap, want)
				}
			}
			murky := 0
			for bin, n := range f.Hist {
				near := false
				for _, border := range s.Thresholds() {
					d := colour.Value((float64(border)+0.5)/2.55) - colour.Value(float64(bin)/2.55)
					near = near || math.Abs(d) <= 0.25
				}
				if near {
					murky += n
				}
			}
			if want := float64(murky) / float64(r.Counted); math.Abs(s.Murk-want) > 1e-12 {
				t.Errorf("%s, %d groups: murk %g, want %g", f.Name, k, s.Murk, want)
			}
		}
	}
}

// Black and white: ten tones apart (ASTM D1535: values 0 and 10), nothing between.
func TestBlackAndWhite(t *testing.T) {
	s := splitOf([256]int{0: 5, 255: 5}, 2).Chosen()
	if gap := s.Gaps()[0]; math.Abs(gap-10) > 1e-4 || s.Murk != 0 || s.Separability != 1 {
		t.Errorf("gap %g, murk %g, separability %g", gap, s.Murk, s.Separability)
	}
}

func TestAutomaticGroups(t *testing.T) {
	for _, f := range otsuFixtures(t) {
		r, want := splitOf(f.Hist, 0), 1
		for k := 2; k <= 4; k++ {
			s := r.Split(k)
			if len(s.Groups()) < k || slices.Min(s.Gaps()) < 0.8 {
				continue
			}
			if want = k; s.Separability >= 0.90 {
				break
			}
		}
		if got := len(r.Chosen().Groups()); got != want {
			t.Errorf("%s: chose %d groups, want %d", f.Name, got, want)
		}
	}
	// testdata, flat_uniform: 4096, 4854.46 and 5120 between, of (256² - 1)/12 = 5461.25.
	if got := len(splitOf(evenHistogram(), 0).Chosen().Groups()); got != 4 {
		t.Errorf("an even spread, separability 0.75, 0.889, 0.938: %d groups, want 4", got)
	}
}

func evenHistogram() (h [256]int) {
	for bin := range h {
		h[bin] = 40
	}
	return h
}

// The JSON names are those the command line promises.
func TestGroupJSON(t *testing.T) {
	got, err := json.Marshal(Group{"dark", 0, 25, 0.5, 12})
	if want := `{"name":"dark","from":0,"to":25,"share":0.5,"mean":12}`; string(got) != want || err != nil {
		t.Errorf("%s, %v, want %s", got, err, want)
	}
}

func TestSplitOfOtherNumbers(t *testing.T) {
	r := splitOf([256]int{1: 1, 200: 1}, 7)
	if r.Split(1) != nil || r.Split(5) != nil || r.Chosen() != r.Split(2) {
		t.Error("splits other than into 2, 3 and 4")
	}
}

// Budget: with the other figures of a Reading, 1 ms a frame.
func BenchmarkSplit(b *testing.B) {
	r := new(Reader)
	r.reading.Histogram = evenHistogram()
	b.ReportAllocs()
	for b.Loop() {
		r.split(0, nil)
	}
}
