package analysis

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/colour"
)

// emdFixture is a pair of the fixture file: counts, or the name of a histogram of the
// thresholds' fixtures.
type emdFixture struct {
	Name  string  `json:"name"`
	Bins  float64 `json:"emd_bins"`
	SciPy float64 `json:"scipy_wasserstein_distance"`
	A     []int   `json:"a"`
	B     []int   `json:"b"`
	ARef  string  `json:"a_ref"` // file#name
	BRef  string  `json:"b_ref"`
}

// Distances as published in testdata/emd_histogram_pairs.json: exact fractions, compared
// with scipy.stats.wasserstein_distance of SciPy 1.10.1.
func TestDistanceFixtures(t *testing.T) {
	data, err := os.ReadFile("../testdata/emd_histogram_pairs.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Fixtures []emdFixture `json:"fixtures"`
	}
	if err := json.Unmarshal(data, &file); err != nil || len(file.Fixtures) != 14 {
		t.Fatalf("%d fixtures, %v", len(file.Fixtures), err)
	}
	named := map[string][256]int{}
	for _, f := range otsuFixtures(t) {
		named["otsu_histograms.json#"+f.Name] = f.Hist
	}
	counts := func(t *testing.T, plain []int, ref string) (counts [256]int) {
		if ref == "" {
			copy(counts[:], plain)
			return counts
		}
		counts, ok := named[ref]
		if !ok {
			t.Fatalf("no histogram %q", ref)
		}
		return counts
	}
	var bins [256]float64
	for bin := range bins {
		bins[bin] = float64(bin)
	}
	for _, f := range file.Fixtures {
		t.Run(f.Name, func(t *testing.T) {
			a, b := counts(t, f.A, f.ARef), counts(t, f.B, f.BRef)
			got, back := distanceAlong(&bins, &a, &b), distanceAlong(&bins, &b, &a)
			for _, want := range []float64{f.Bins, f.SciPy} {
				if !(math.Abs(got-want) <= 1e-6) || got != back {
					t.Errorf("%g, backwards %g, want %g", got, back, want)
				}
			}
		})
	}
}

func TestDistanceOfNothing(t *testing.T) {
	if got := Distance(&threeHeaps, new([256]int)); !math.IsNaN(got) {
		t.Errorf("to nothing: %g", got)
	}
	if got := Distance(new([256]int), &threeHeaps); !math.IsNaN(got) {
		t.Errorf("from nothing: %g", got)
	}
}

// oneBin is a picture of one lightness.
func oneBin(bin, pixels int) (h [256]int) {
	h[bin] = pixels
	return h
}

// From one lightness to another the distance is their difference in value: D1535, by
// testdata/munsell_y_to_value.csv and the L* of bins.
func TestDistanceOfTwoLightnesses(t *testing.T) {
	for a := range 256 {
		for b := range 256 {
			from, to := oneBin(a, 3), oneBin(b, 50)
			want := math.Abs(colour.Value(float64(a)/2.55) - colour.Value(float64(b)/2.55))
			if got := Distance(&from, &to); !(math.Abs(got-want) < 1e-9) {
				t.Fatalf("from bin %d to bin %d: %g, want %g", a, b, got, want)
			}
		}
	}
}

// By hand: half of the picture goes from black to white, which are 10 tones apart, the
// other half stays.
func TestDistanceOfHalves(t *testing.T) {
	var a, b [256]int
	a[0], a[100] = 4, 4
	b[100], b[255] = 7, 7
	if got := Distance(&a, &b); !(math.Abs(got-5) < 1e-9) {
		t.Errorf("%g tones, want 5", got)
	}
}

// For all histograms: a distance is not negative, the same both ways, nought to itself
// however often it is counted, never longer than by way of a third, and never shorter than
// the means' way.
func TestDistanceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawHistogram(t), drawHistogram(t), drawHistogram(t)
		a[9]++
		b[90]++
		c[200]++
		ab, bc, ac := Distance(&a, &b), Distance(&b, &c), Distance(&a, &c)
		if !(ab >= 0 && ab <= 10+1e-9) || Distance(&b, &a) != ab || ac > ab+bc+1e-9 {
			t.Fatalf("distances %g, %g, %g", ab, bc, ac)
		}
		totalA, totalB, means := 0, 0, 0.0 // a mean moves no further than the pixels do
		for bin := range a {
			totalA += a[bin]
			totalB += b[bin]
		}
		for bin, v := range binValues() {
			means += v * (float64(a[bin])/float64(totalA) - float64(b[bin])/float64(totalB))
		}
		if !(math.Abs(means) <= ab+1e-9) {
			t.Fatalf("mean values are %g apart, the pictures %g", means, ab)
		}
		d := a
		for bin := range d {
			d[bin] *= 3
		}
		if got := Distance(&a, &d); got > 1e-12 {
			t.Fatalf("to itself three times over: %g", got)
		}
	})
}

// Budget: with the figures of a Reading, 1 ms a frame.
func BenchmarkDistance(b *testing.B) {
	from, to := evenHistogram(), oneBin(20, 9)
	b.ReportAllocs()
	for b.Loop() {
		Distance(&from, &to)
	}
}
