package views

import (
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/reduce"
)

func BenchmarkReduceAndPaint364(b *testing.B) { benchmarkViews(b, 364, 282) }

func BenchmarkReduceAndPaint760(b *testing.B) { benchmarkViews(b, 760, 590) }

func benchmarkViews(b *testing.B, width, height int) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	look := Look{Reading: analysis.Read(p, analysis.Options{})}
	r := reduce.New()
	defer r.Close()
	dst := make([]byte, analysis.PixelBytes*width*height)
	for _, v := range All() {
		b.Run(v.Key, func(b *testing.B) {
			v.Paint(dst, r.Reduce(p, width, height, nil), look)
			b.ReportAllocs()
			for b.Loop() {
				v.Paint(dst, r.Reduce(p, width, height, nil), look)
			}
		})
	}
}

// What a screen of each size costs until its grey picture stands in the mirror. 0 allocs/op.
func BenchmarkReduceAndPaintOf(b *testing.B) {
	for _, tt := range []struct {
		name          string
		width, height int
	}{{"480p", 854, 480}, {"720p", 1280, 720}, {"1080p", 1920, 1080}, {"1440p", 2560, 1440}, {"2160p", 3840, 2160}} {
		b.Run(tt.name, func(b *testing.B) {
			p := analysistest.Painting(tt.width, tt.height, analysis.BGRX)
			look := Look{Reading: analysis.Read(p, analysis.Options{})}
			r := reduce.New()
			defer r.Close()
			const width, height = 364, 205
			dst := make([]byte, analysis.PixelBytes*width*height)
			grey, _ := ByKey("grey")
			b.ReportAllocs()
			for b.Loop() {
				grey.Paint(dst, r.Reduce(p, width, height, nil), look)
			}
		})
	}
}
