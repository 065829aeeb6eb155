//go:build unix

package movement_test

import (
	"math/rand/v2"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/movement"
	"app.tonedesk/analysis/scenetest"
)

// Budget at 1920 x 1080, of one core: a quarter of a millisecond if nothing has changed, six
// where the picture was moved; 0 allocs/op. An operation is two frames.
func BenchmarkFinder(b *testing.B) {
	canvas := painted{"demo", func() analysis.Pixels { return demo(b) }}.reading()
	another := painted{"", func() analysis.Pixels { return scenetest.Named(scenetest.Names()[3]).Pixels() }}.reading()
	const w, h = wide, high
	at := movement.ZoomBy(1.2, 0, 0).Compose(movement.Shift(200, 0))
	before := show(canvas, w, h, at, area)
	moved := func(t movement.Transform) *analysis.Reading {
		r := show(canvas, w, h, at.Compose(t), area)
		strokes(r, rand.New(rand.NewPCG(1, 2)), 0.05)
		return r
	}
	for _, bb := range []struct {
		name string
		next *analysis.Reading
	}{
		{"nothing", before},
		{"pan", moved(movement.Shift(309, 100))},
		{"turned and zoomed", moved(movement.Turn(77, w/2, h/2).Compose(movement.ZoomBy(0.7, 700, 300)))},
		{"mirrored", moved(movement.Mirror(w / 2))},
		{"dab", dabbed(before)},
		{"other", show(another, w, h, at, area)},
	} {
		b.Run(bb.name, func(b *testing.B) {
			var f movement.Finder
			f.Next(before)
			b.ReportAllocs()
			start := processor()
			for b.Loop() {
				f.Next(bb.next)
				f.Next(before)
			}
			b.ReportMetric((processor()-start).Seconds()*1e6/float64(2*b.N), "µs/frame")
		})
	}
}

// processor is the time of the processor that the program took: others use the machine too.
func processor() time.Duration {
	var r syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

func dabbed(r *analysis.Reading) *analysis.Reading {
	d := *r
	d.Grey = append([]uint8(nil), r.Grey...)
	for y := 400; y < 700; y++ {
		for x := 800; x < 1100; x++ {
			d.Grey[y*r.Width+x] = 60
		}
	}
	return &d
}
