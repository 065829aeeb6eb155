package views

import (
	"image"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/reduce"
)

// BenchmarkHatch hatches a painting of which nothing or a third is covered, at 760x590. Budget: 0
// allocs/op, and well within the 8 ms of reducing and painting on an idle machine.
func BenchmarkHatch(b *testing.B) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	r := reduce.New()
	defer r.Close()
	for name, mask := range map[string]*analysis.Mask{"nothing": nil, "a third": {Areas: []image.Rectangle{image.Rect(1280, 0, 1920, 1080)}}} {
		b.Run(name, func(b *testing.B) {
			src := r.Reduce(p, 760, 590, mask)
			dst := make([]byte, analysis.PixelBytes*src.Width*src.Height)
			paintGrey(dst, src, Look{})
			b.ReportAllocs()
			for b.Loop() {
				HatchMask(dst, src)
				HatchLimits(dst, src, analysis.DefaultLimits)
			}
		})
	}
}
