package families

import (
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/colour"
)

// Budget on two cores: the families of 1920x1080, 60 ms; taking a frame over, a few.
func BenchmarkFamilies(b *testing.B) {
	benchmarkFamilies(b, analysistest.Painting(1920, 1080, analysis.BGRX))
}
func BenchmarkFamiliesOfNoise(b *testing.B) {
	benchmarkFamilies(b, analysistest.Noise(1920, 1080, analysis.BGRX))
}
func BenchmarkFamiliesOfBlocks(b *testing.B) { benchmarkFamilies(b, blocks(1920, 1080)) }

func benchmarkFamilies(b *testing.B, p analysis.Pixels) {
	f := NewFinder()
	defer f.Close()
	b.ReportAllocs()
	for b.Loop() {
		f.Take(p, nil)
		f.Find(DefaultRules())
	}
}

func BenchmarkFamiliesTake(b *testing.B) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	f := NewFinder()
	defer f.Close()
	b.ReportAllocs()
	for b.Loop() {
		f.Take(p, nil)
	}
}

// blocks paints squares of 40 pixels, each of a lightness of its own: as many areas as the
// finder has to look at.
func blocks(width, height int) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, analysis.PixelBytes*width*height), Stride: analysis.PixelBytes * width, Width: width, Height: height}
	for y := range height {
		for x := range width {
			c := uint8((x/40*97 + y/40*61) % 200)
			analysistest.Set(p, x, y, colour.RGB{R: c + 50, G: c + 30, B: c}, 255)
		}
	}
	return p
}
