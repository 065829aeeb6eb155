//go:build unix

package movement_test

import (
	"image"
	"math/rand/v2"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/analysis/scenetest"
)

// Budget at 1920 x 1080, of one core: next to nothing if nothing has changed, six milliseconds
// where the picture was moved; 0 allocs/op. An operation is two frames. "repainted" is a picture that
// is told to be new all over, and is as it was.
func BenchmarkFinder(b *testing.B) {
	canvas := painted{"demo", func() analysis.Pixels { return demo(b) }}.reading()
	another := painted{"", func() analysis.Pixels { return scenetest.Named(scenetest.Names()[3]).Pixels() }}.reading()
	const w, h = wide, high
	whole := image.Rect(0, 0, w, h)
	at := movement.ZoomBy(1.2, 0, 0).Compose(movement.Shift(200, 0))
	before := show(canvas, w, h, at, area)
	moved := func(t movement.Transform) *analysis.Reading {
		r := show(canvas, w, h, at.Compose(t), area)
		strokes(r, rand.New(rand.NewPCG(1, 2)), 0.05)
		return r
	}
	for _, bb := range []struct {
		name    string
		next    *analysis.Reading
		changed image.Rectangle
	}{
		{"nothing", before, image.Rectangle{}},
		{"repainted", before, whole},
		{"small dab", dabbed(before, smallDab), smallDab},
		{"dab", dabbed(before, largeDab), largeDab},
		{"pan", moved(movement.Shift(309, 100)), whole},
		{"turned and zoomed", moved(movement.Turn(77, w/2, h/2).Compose(movement.ZoomBy(0.7, 700, 300))), whole},
		{"mirrored", moved(movement.Mirror(w / 2)), whole},
		{"other", show(another, w, h, at, area), whole},
	} {
		b.Run(bb.name, func(b *testing.B) {
			var f movement.Finder
			f.Next(before)
			b.ReportAllocs()
			start := analysistest.Processor()
			for b.Loop() {
				f.NextChanged(bb.next, bb.changed)
				f.NextChanged(before, bb.changed)
			}
			b.ReportMetric((analysistest.Processor()-start).Seconds()*1e6/float64(2*b.N), "µs/frame")
		})
	}
}

// smallDab and largeDab are dabs.
var smallDab, largeDab = image.Rect(800, 400, 864, 464), image.Rect(800, 400, 1100, 700)

func dabbed(r *analysis.Reading, dab image.Rectangle) *analysis.Reading {
	d := *r
	d.Grey = append([]uint8(nil), r.Grey...)
	for y := dab.Min.Y; y < dab.Max.Y; y++ {
		for x := dab.Min.X; x < dab.Max.X; x++ {
			d.Grey[y*r.Width+x] = 60
		}
	}
	return &d
}
