package command

import (
	"bufio"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
)

// Budget: reading pictures of 3840 x 2160 takes at most 1.15 times as long as decoding them, and 1.6
// times with local colours; each on all cores, in turns.
func BenchmarkReadMany(b *testing.B) {
	const count = 4
	p := analysistest.Painting(3840, 2160, analysis.RGBA)
	path := filepath.Join(b.TempDir(), "painting.png")
	f, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	img := &image.NRGBA{Pix: p.Pix, Stride: p.Stride, Rect: p.Bounds()}
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(f, img); err != nil {
		b.Fatal(err)
	}
	if err := f.Close(); err != nil {
		b.Fatal(err)
	}
	plan := readPlan{size: 3, ground: analysis.White}
	timed := func(work fileWork) time.Duration {
		start := time.Now()
		c := &call{Streams: Streams{Out: io.Discard, Err: io.Discard}, out: bufio.NewWriter(io.Discard)}
		c.operands = slices.Repeat([]string{path}, count)
		if c.eachFile(work); c.code != 0 {
			b.Fatal("a picture was not read")
		}
		return time.Since(start)
	}
	nothing := func() error { return nil }
	decode := func(path string) (func() error, error) { _, err := openPicture(path); return nothing, err }
	read := func(withFamilies bool) fileWork {
		return func(path string) (func() error, error) {
			_, err := plan.read(path, nil, withFamilies)
			return nothing, err
		}
	}
	var decoded, plain, all []time.Duration
	for b.Loop() {
		decoded, plain, all = append(decoded, timed(decode)), append(plain, timed(read(false))), append(all, timed(read(true)))
	}
	middle := func(times []time.Duration) float64 {
		slices.Sort(times)
		return float64(times[len(times)/2])
	}
	b.ReportMetric(middle(decoded)/count/1e6, "decode-ms/picture")
	b.ReportMetric(middle(plain)/middle(decoded), "no-families/decode")
	b.ReportMetric(middle(all)/middle(decoded), "families/decode")
}
