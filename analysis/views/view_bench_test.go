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
