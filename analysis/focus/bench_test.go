//go:build unix

package focus_test

import (
	"image"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/reduce"
)

// Budget on two cores: reducing 1920x1080 and measuring takes 30 ms. In turns with the Read of the same
// picture: "x-read" is how much more of the processor's time it takes, for a machine that is busy with
// other work. "ms" is by the clock, reducing and measuring alone.
func BenchmarkFind(b *testing.B) {
	for _, of := range []struct {
		name string
		p    analysis.Pixels
	}{{"painting", analysistest.Painting(1920, 1080, analysis.BGRX)}, {"noise", analysistest.Noise(1920, 1080, analysis.BGRX)}} {
		b.Run(of.name, func(b *testing.B) {
			reducer, reader, finder := reduce.New(), analysis.NewReader(), new(focus.Finder)
			defer reducer.Close()
			defer reader.Close()
			size := focus.SizeOf(image.Pt(of.p.Width, of.p.Height))
			reader.Read(of.p, analysis.Options{})
			var read, found, clock time.Duration
			b.ReportAllocs()
			for b.Loop() {
				began, start := time.Now(), analysistest.Processor()
				finder.Find(reducer.Reduce(of.p, size.X, size.Y, nil), focus.DefaultOptions())
				end := analysistest.Processor()
				clock += time.Since(began)
				reader.Read(of.p, analysis.Options{})
				found, read = found+end-start, read+analysistest.Processor()-end
			}
			b.ReportMetric(float64(found)/float64(read), "x-read")
			b.ReportMetric(float64(found)/1e6/float64(b.N), "processor-ms")
			b.ReportMetric(float64(clock)/1e6/float64(b.N), "ms")
		})
	}
}
