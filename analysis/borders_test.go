package analysis

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// By hand, from the definitions: four pixels of L* 0, two of 128/2.55, two of 100.
var threeHeaps = func() (h [256]int) {
	h[0], h[128], h[255] = 4, 2, 2
	return h
}()

func byHand(histogram [256]int, borders ...float64) *Split {
	r := splitOf(histogram, 0)
	reader := &Reader{reading: *r}
	reader.split(2, borders)
	return reader.reading.Chosen()
}

func TestBordersByHand(t *testing.T) {
	tests := []struct {
		name    string
		borders []float64
		shares  []float64
	}{
		{"one", []float64{30}, []float64{0.5, 0.5}},
		{"two", []float64{30, 70}, []float64{0.5, 0.25, 0.25}},
		{"three, a group without pixels", []float64{30, 70, 80}, []float64{0.5, 0.25, 0, 0.25}},
		{"on a bin: it belongs to the lighter group", []float64{128 / 2.55}, []float64{0.5, 0.5}},
		{"just above it", []float64{128/2.55 + 0.01}, []float64{0.75, 0.25}},
		{"twice the same", []float64{30, 30}, []float64{0.5, 0, 0.5}},
		{"at the ends", []float64{-1, 100}, []float64{0.5, 0.25, 0.25}},
	}
	for _, tt := range tests {
		s := byHand(threeHeaps, tt.borders...)
		var shares []float64
		for _, g := range s.Groups() {
			shares = append(shares, g.Share)
			if math.IsNaN(g.Mean) != (g.Share == 0) || g.Share > 0 && !(g.From <= g.Mean && g.Mean <= g.To) {
				t.Errorf("%s: %+v", tt.name, g)
			}
		}
		for i, gap := range s.Gaps() {
			if known := shares[i] > 0 && shares[i+1] > 0; known != (gap > 0) || known == math.IsNaN(gap) {
				t.Errorf("%s: shares %v, gaps %v", tt.name, shares, s.Gaps())
			}
		}
		if !slices.Equal(shares, tt.shares) {
			t.Errorf("%s: shares %v, want %v", tt.name, shares, tt.shares)
		}
	}
	for _, borders := range [][]float64{nil, {}, {1, 2, 3, 4}, {50, 40}, {math.NaN()}, {10, math.NaN()}} {
		if got := byHand(threeHeaps, borders...); len(got.Groups()) != 2 || got.Groups()[1].Share != 0.5 {
			t.Errorf("borders %v: %+v", borders, got.Groups())
		}
	}
	if got := byHand([256]int{}, 30); len(got.Groups()) != 0 || !math.IsNaN(got.Murk) {
		t.Errorf("of nothing: %+v", got)
	}
}

// A mean that is not there is null in JSON, any other a number.
func TestEmptyGroupJSON(t *testing.T) {
	data, err := json.Marshal(byHand(threeHeaps, 30, 70, 80).Groups()[1:3])
	if err != nil {
		t.Fatal(err)
	}
	var groups []map[string]any
	if err := json.Unmarshal(data, &groups); err != nil {
		t.Fatal(err)
	}
	if mean, ok := groups[0]["mean"].(float64); !ok || math.Abs(mean-128/2.55) > 1e-9 {
		t.Errorf("mean %v", groups[0]["mean"])
	}
	if mean, ok := groups[1]["mean"]; !ok || mean != nil || len(groups[1]) != 5 {
		t.Errorf("a group without pixels is %v", groups[1])
	}
	if !strings.HasPrefix(string(data), `[{"name":"dark middle","from":`) {
		t.Errorf("%s", data)
	}
}

// For every picture and borders: the groups follow each other from black to white, hold all
// pixels, their borders lie where they were set, and setting them there again changes nothing.
// The automatic splits stay as they are, also of a steady Reader.
func TestBordersLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHistogram(t)
		borders := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 3).Draw(t, "borders")
		slices.Sort(borders)
		free := splitOf(h, 0)
		if free.Counted == 0 {
			return
		}
		r := &Reader{Steady: rapid.Bool().Draw(t, "steady"), reading: *splitOf(h, 0)}
		r.split(0, nil)
		r.split(0, borders)
		hand := r.reading.Chosen()
		from, sum, again := 0.0, 0.0, []float64{}
		for i, g := range hand.Groups() {
			if g.From != from {
				t.Fatalf("group %d begins at %g, not %g", i, g.From, from)
			}
			if from, sum = g.To, sum+g.Share; i < len(borders) {
				again = append(again, g.To)
				if within := borders[i] > 0.2 && borders[i] < 99.8; within && !(math.Abs(g.To-borders[i]) < 0.5/2.55+1e-9) {
					t.Fatalf("border %g lies at %g", borders[i], g.To)
				}
			}
		}
		if from != 100 || !(math.Abs(sum-1) < 1e-9) || len(hand.Groups()) != len(borders)+1 {
			t.Fatalf("%+v", hand.Groups())
		}
		if got := byHand(h, again...); !slices.Equal(got.Thresholds(), hand.Thresholds()) {
			t.Fatalf("thresholds %v, set again %v", hand.Thresholds(), got.Thresholds())
		}
		for k := 2; k <= 4; k++ {
			if !slices.Equal(r.reading.Split(k).Thresholds(), free.Split(k).Thresholds()) {
				t.Fatalf("%d groups moved", k)
			}
		}
		if r.split(0, nil); r.reading.Chosen() != r.reading.Split(len(free.Chosen().Groups())) && len(free.Chosen().Groups()) > 1 {
			t.Fatal("given back to automatic, the groups are not the picture's own")
		}
	})
}
