package analysis

import (
	"encoding/binary"
	"fmt"
	"image"
	"slices"
	"testing"
	"time"
)

// The sizes that a picture is read at.
var benchSizes = []struct {
	name string
	size image.Point
}{
	{"480p", image.Pt(854, 480)}, {"720p", image.Pt(1280, 720)}, {"1080p", image.Pt(1920, 1080)},
	{"1440p", image.Pt(2560, 1440)}, {"2160p", image.Pt(3840, 2160)},
}

// dabAt returns where the nth dab of 64 x 64 lies in a picture.
func dabAt(p Pixels, n int) image.Rectangle {
	at := image.Pt(n*97%(p.Width-64), n*61%(p.Height-64))
	return image.Rectangle{Min: at, Max: at.Add(image.Pt(64, 64))}
}

// A painting read whole and, in turns, after a dab of 64 x 64: with all that a Reading says, its
// groups too, which cost the same at all sizes. 0 allocs/op.
func BenchmarkReadChanged(b *testing.B) {
	for _, tt := range benchSizes {
		b.Run(tt.name, func(b *testing.B) {
			p, r := painting(tt.size.X, tt.size.Y, BGRX), NewReader()
			defer r.Close()
			var whole, dab []time.Duration
			r.Read(p, Options{})
			b.ReportAllocs()
			for n := 0; b.Loop(); n++ {
				start := time.Now()
				r.Read(p, Options{})
				read := time.Now()
				r.ReadChanged(p, Options{}, dabAt(p, n))
				whole, dab = append(whole, read.Sub(start)), append(dab, time.Since(read))
			}
			b.ReportMetric(middle(whole), "whole-ms")
			b.ReportMetric(middle(dab), "dab-ms")
			b.ReportMetric(middle(whole)/middle(dab), "whole/dab")
		})
	}
}

// Budget: a painting of 3840 x 2160 takes at most 4.3 times as long as one of 1920 x 1080, in
// turns: its pixels, and 0.3 for what caches lose.
func BenchmarkReadLarge(b *testing.B) {
	r, of4K := NewReader(), NewReader()
	defer r.Close()
	defer of4K.Close()
	p, p4K := painting(1920, 1080, BGRX), painting(3840, 2160, BGRX)
	r.Read(p, Options{})
	of4K.Read(p4K, Options{})
	var small, large, bare, bare4K []time.Duration
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		r.Read(p, Options{})
		read := time.Now()
		of4K.Read(p4K, Options{})
		small, large = append(small, read.Sub(start)), append(large, time.Since(read))
		start = time.Now()
		sumBytes(p.Pix)
		read = time.Now()
		sumBytes(p4K.Pix)
		bare, bare4K = append(bare, read.Sub(start)), append(bare4K, time.Since(read))
	}
	b.ReportMetric(middle(bare4K)/middle(bare), "bare-memory-4K/1080p")
	b.ReportMetric(middle(small), "1080p-ms")
	b.ReportMetric(middle(large), "4K-ms")
	b.ReportMetric(middle(large)/middle(small), "4K/1080p")
}

// sumBytes does no more with memory than to look at it: frames of 3840 x 2160 with their greys are larger
// than the caches of most processors, those of 1920 x 1080 are not.
func sumBytes(pix []byte) (sum uint64) {
	for ; len(pix) >= 32; pix = pix[32:] {
		sum += binary.LittleEndian.Uint64(pix) + binary.LittleEndian.Uint64(pix[8:]) + binary.LittleEndian.Uint64(pix[16:]) + binary.LittleEndian.Uint64(pix[24:])
	}
	return sum
}

// Paper with a figure, whose ground is left out of the groups: read whole, and after a dab on it.
func BenchmarkReadChangedGround(b *testing.B) {
	for _, rough := range []int{0, 4} {
		b.Run(fmt.Sprint("rough ", rough), func(b *testing.B) {
			p, r := canvas(1920, 1080, BGRX, paperWhite), NewReader()
			defer r.Close()
			fill(p, image.Rect(800, 300, 1100, 900), charcoal)
			if rough > 0 {
				grain(p, rough)
			}
			o := Options{WithoutGround: true}
			r.Read(p, o)
			var whole, dab []time.Duration
			b.ReportAllocs()
			for n := 0; b.Loop(); n++ {
				start := time.Now()
				r.Read(p, o)
				read := time.Now()
				r.ReadChanged(p, o, dabAt(p, n))
				whole, dab = append(whole, read.Sub(start)), append(dab, time.Since(read))
			}
			b.ReportMetric(middle(whole), "whole-ms")
			b.ReportMetric(middle(dab), "dab-ms")
		})
	}
}

// middle returns the median of times, in milliseconds.
func middle(times []time.Duration) float64 {
	slices.Sort(times)
	return float64(times[len(times)/2]) / float64(time.Millisecond)
}
