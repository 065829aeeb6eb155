package analysis

import "testing"

// budget: 60 ms for a frame of 1920x1080, beside the mirror and at most twice a second
func BenchmarkFamiliesPainting(b *testing.B) { benchmarkFamilies(b, painting(1920, 1080, BGRX)) }
func BenchmarkFamiliesNoise(b *testing.B)    { benchmarkFamilies(b, noise(1920, 1080, BGRX)) }

func benchmarkFamilies(b *testing.B, p Pixels) {
	f := NewFamilyFinder()
	defer f.Close()
	b.ReportAllocs()
	for b.Loop() {
		f.Take(p, nil)
		f.Find(DefaultFamilyRules())
	}
}
