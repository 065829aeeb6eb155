package reduce

import (
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
)

// Budget on two cores: 1920x1080 reduced to the mirror's pixels and painted in a view,
// 8 ms together; 0 allocs/op.
func BenchmarkReduce364(b *testing.B) { benchmarkReduce(b, 364, 282) }

func BenchmarkReduce760(b *testing.B) { benchmarkReduce(b, 760, 590) }

func benchmarkReduce(b *testing.B, width, height int) {
	p := analysistest.Painting(1920, 1080, analysis.BGRX)
	r := New()
	defer r.Close()
	r.Reduce(p, width, height, nil)
	b.ReportAllocs()
	for b.Loop() {
		r.Reduce(p, width, height, nil)
	}
}
