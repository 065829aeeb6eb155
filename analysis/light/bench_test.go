//go:build unix

package light_test

import (
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/scenetest"
)

// Budget: a quarter of the search for local colours, which is 60 ms. In turns with it: "x-find" is which
// part of its time of the processor taking the cells and reading the light take, for a machine that is
// busy with other work.
func BenchmarkLight(b *testing.B) {
	for _, of := range []struct {
		name string
		p    analysis.Pixels
	}{
		{"forms", scenetest.OneLight(scenetest.FirstOpen, false).Pixels()}, // a painted scene with several
		{"painting", analysistest.Painting(1920, 1080, analysis.BGRX)},
	} {
		b.Run(of.name, func(b *testing.B) {
			f := families.NewFinder()
			defer f.Close()
			var find, take, read time.Duration
			b.ReportAllocs()
			for b.Loop() {
				start := analysistest.Processor()
				f.Take(of.p, nil)
				found := f.Find(families.DefaultRules())
				searched := analysistest.Processor()
				cells := light.Take(of.p, nil)
				taken := analysistest.Processor()
				light.OfPicture(found, cells, func(int) bool { return true }, light.DefaultOptions())
				find, take, read = find+searched-start, take+taken-searched, read+analysistest.Processor()-taken
			}
			b.ReportMetric(float64(take)/float64(find), "take-x-find")
			b.ReportMetric(float64(read)/float64(find), "read-x-find")
			b.ReportMetric(float64(read)/1e6/float64(b.N), "read-processor-ms")
		})
	}
}
