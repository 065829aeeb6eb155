//go:build unix

package families_test

import (
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/scenetest"
)

// Budget at 1920x1080: a few ms on top of the search. In turns with it, by the processor's time:
// "x-find" is which part of the search it takes, for a machine that is busy with other work.
func BenchmarkForms(b *testing.B) {
	for name, p := range map[string]analysis.Pixels{
		"painting": analysistest.Painting(1920, 1080, analysis.BGRX),
		"forms":    large(),
	} {
		b.Run(name, func(b *testing.B) {
			f := families.NewFinder()
			defer f.Close()
			var find, forms time.Duration
			n := 0
			b.ReportAllocs()
			for b.Loop() {
				start := analysistest.Processor()
				f.Take(p, nil)
				f.Find(families.DefaultRules())
				mid := analysistest.Processor()
				n = len(f.Forms())
				find, forms = find+mid-start, forms+analysistest.Processor()-mid
			}
			b.ReportMetric(float64(forms)/1e6/float64(b.N), "forms-ms")
			b.ReportMetric(float64(find)/1e6/float64(b.N), "find-ms")
			b.ReportMetric(float64(forms)/float64(find), "x-find")
			b.ReportMetric(float64(n), "forms")
		})
	}
}

// large is a painted scene of 1920x1080 with several forms, their accents and lines.
func large() analysis.Pixels {
	for seed := scenetest.FirstOpen; ; seed++ {
		if s := scenetest.Edges(seed); s.Image.Rect.Dx() >= 1280 {
			return s.Pixels()
		}
	}
}
