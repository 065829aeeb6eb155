package capture

import (
	"image"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/jezek/xgb/shm"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xvfbtest"
)

// timedGrab returns how long a grab takes that has to be a change, or not.
func timedGrab(b *testing.B, s Stream, f *Frame, wantChanged bool) time.Duration {
	start := time.Now()
	changed, err := s.Grab(b.Context(), f)
	took := time.Since(start)
	if err != nil || changed != wantChanged {
		b.Fatal(changed, err)
	}
	return took
}

// Budget: 0.1 ms for a dab of 64 x 64 somewhere in a region of 1920 x 1080, where bare-ms, a
// bare call for 64 x 64 pixels in turns with it, is a third of that or less. still-ms is a grab
// that finds nothing.
func BenchmarkX11Dab(b *testing.B) {
	server := xvfbtest.Start(b, xvfbtest.Options{Width: 1920, Height: 1080})
	painter := server.Painter()
	s := openRegion(b, openTest(b, server), fullHD).(*x11Stream)
	benchmarkDabs(b, s, painter.Fill)
}

// As BenchmarkX11Dab, in a window of that size.
func BenchmarkFollowDab(b *testing.B) {
	server := xvfbtest.Start(b, xvfbtest.Options{Width: 1920, Height: 1080})
	painter := server.Painter()
	order := leaf
	order.Box = fullHD
	id := painter.Open(order)
	s := followTest(b, openTest(b, server), Window{Title: leaf.Title, Class: leaf.Class}, image.Rectangle{})
	benchmarkDabs(b, s.x11Stream, func(box image.Rectangle, pixel uint32) { painter.Paint(id, box, pixel) })
}

func benchmarkDabs(b *testing.B, s *x11Stream, paint func(image.Rectangle, uint32)) {
	chance := rand.New(rand.NewPCG(1, 2))
	var f Frame
	grab(b, s, &f, true)
	var bare, dab, still []time.Duration
	pixel := uint32(0)
	dabs := func() {
		pixel++
		paint(image.Rect(0, 0, 64, 64).Add(image.Pt(chance.IntN(1920-64), chance.IntN(1080-64))), pixel)
		s.checked = time.Now() // the full look is apart
		dab = append(dab, timedGrab(b, s, &f, true))
	}
	dabs()
	dabs()
	dab = nil
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		_, err := shm.GetImage(s.conn.X, xproto.Drawable(s.conn.Screen.Root), 0, 0, 64, 64, allPlanes, xproto.ImageFormatZPixmap, s.images[s.back].id, 8<<20).Reply()
		bare = append(bare, time.Since(start))
		if err != nil {
			b.Fatal(err)
		}
		dabs()
		still = append(still, timedGrab(b, s, &f, false))
	}
	b.ReportMetric(median(bare), "bare-ms")
	b.ReportMetric(median(dab), "dab-ms")
	b.ReportMetric(median(still), "still-ms")
}

// Budget: a whole window at most 1.1 times a region of its size, in turns.
func BenchmarkFollowWhole(b *testing.B) {
	server := xvfbtest.Start(b, xvfbtest.Options{Width: 1920, Height: 1080})
	painter := server.Painter()
	order := leaf
	order.Box = fullHD
	id := painter.Open(order)
	backend := openTest(b, server)
	region := openRegion(b, backend, fullHD).(*x11Stream)
	window := followTest(b, backend, Window{Title: leaf.Title, Class: leaf.Class}, image.Rectangle{}).x11Stream
	var f, g Frame
	var ofRegion, ofWindow []time.Duration
	round := func(pixel uint32) {
		painter.Paint(id, fullHD, pixel)
		ofRegion = append(ofRegion, timedGrab(b, region, &f, true))
		ofWindow = append(ofWindow, timedGrab(b, window, &g, true))
	}
	round(1)
	round(2)
	ofRegion, ofWindow = nil, nil
	pixel := uint32(2)
	for b.Loop() {
		pixel++
		round(pixel)
	}
	b.ReportMetric(median(ofRegion), "region-ms")
	b.ReportMetric(median(ofWindow), "window-ms")
	b.ReportMetric(median(ofWindow)/median(ofRegion), "window/region")
}
