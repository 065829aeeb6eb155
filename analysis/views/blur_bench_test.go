package views

import (
	"fmt"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/reduce"
)

// Budget on two cores: the mirror's pixels squinted at, without their reduction, 4 ms at
// every strength; as many as 1920x1080, 8 ms at the strength it starts with; 0 allocs/op.
func BenchmarkSquint(b *testing.B) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	for _, size := range [][2]int{{364, 282}, {760, 590}, {1920, 1080}} {
		r := reduce.New()
		src, dst := r.Reduce(p, size[0], size[1], nil), make([]byte, analysis.PixelBytes*size[0]*size[1])
		for _, percent := range []float64{squintKnob.From, squintKnob.Start, squintKnob.To} {
			look := Look{Knob: percent}
			b.Run(fmt.Sprintf("%dx%d by %g percent", size[0], size[1], percent), func(b *testing.B) {
				paintSquint(dst, src, look)
				b.ReportAllocs()
				for b.Loop() {
					paintSquint(dst, src, look)
				}
			})
		}
		r.Close()
	}
}
