//go:build unix

package edges_test

import (
	"image"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/reduce"
)

// Budget on two cores, 1920x1080: reducing and finding 12 ms, 0 allocs/op. In turns with the Read of
// the same picture: "x-read" is how much more of the processor's time it takes, for a machine that is
// busy with other work; "find-x-read" is without reducing. "ms" is by the clock, reducing and finding alone.
func BenchmarkEdges(b *testing.B) {
	for _, of := range []struct {
		name string
		p    analysis.Pixels
	}{
		{"painting", analysistest.Painting(1920, 1080, analysis.BGRX)},
		{"noise", analysistest.Noise(1920, 1080, analysis.BGRX)},
		{"disc", disc(rose, moss).pixels(1920, 1080)},
	} {
		b.Run(of.name, func(b *testing.B) {
			reducer, reader, finder := reduce.New(), analysis.NewReader(), new(edges.Finder)
			defer reducer.Close()
			defer reader.Close()
			size := edges.SizeOf(image.Pt(of.p.Width, of.p.Height))
			src := reducer.Reduce(of.p, size.X, size.Y, nil)
			finder.Find(src, edges.DefaultOptions())
			reader.Read(of.p, analysis.Options{})
			var read, reduced, found, clock time.Duration
			b.ReportAllocs()
			for b.Loop() {
				began, start := time.Now(), analysistest.Processor()
				src = reducer.Reduce(of.p, size.X, size.Y, nil)
				mid := analysistest.Processor()
				finder.Find(src, edges.DefaultOptions())
				end := analysistest.Processor()
				clock += time.Since(began)
				reader.Read(of.p, analysis.Options{})
				reduced, found, read = reduced+mid-start, found+end-mid, read+analysistest.Processor()-end
			}
			b.ReportMetric(float64(reduced+found)/float64(read), "x-read")
			b.ReportMetric(float64(found)/float64(read), "find-x-read")
			b.ReportMetric(float64(reduced+found)/1e6/float64(b.N), "processor-ms")
			b.ReportMetric(float64(read)/1e6/float64(b.N), "read-processor-ms")
			b.ReportMetric(float64(clock)/1e6/float64(b.N), "ms")
		})
	}
}
