package analysis

import "testing"

// Budget on two cores: the families of 1920x1080, 60 ms; taking a frame over, a few.
func BenchmarkFamilies(b *testing.B)         { benchmarkFamilies(b, painting(1920, 1080, BGRX)) }
func BenchmarkFamiliesOfNoise(b *testing.B)  { benchmarkFamilies(b, noise(1920, 1080, BGRX)) }
func BenchmarkFamiliesOfBlocks(b *testing.B) { benchmarkFamilies(b, blocks(1920, 1080)) }

func benchmarkFamilies(b *testing.B, p Pixels) {
	f := NewFamilyFinder()
	defer f.Close()
	b.ReportAllocs()
	for b.Loop() {
		f.Take(p, nil)
		f.Find(DefaultFamilyRules())
	}
}

func BenchmarkFamiliesTake(b *testing.B) {
	p := painting(1920, 1080, BGRX)
	f := NewFamilyFinder()
	defer f.Close()
	b.ReportAllocs()
	for b.Loop() {
		f.Take(p, nil)
	}
}

// blocks paints squares of 40 pixels, each of a lightness of its own: as many areas as the
// finder has to look at.
func blocks(width, height int) Pixels {
	p := Pixels{Pix: make([]byte, pixelBytes*width*height), Stride: pixelBytes * width, Width: width, Height: height}
	for y := range height {
		for x := range width {
			c := uint8((x/40*97 + y/40*61) % 200)
			set(p, x, y, RGB{c + 50, c + 30, c}, 255)
		}
	}
	return p
}
