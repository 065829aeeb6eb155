package capture

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"os/exec"
	"slices"
	"testing"
	"time"

	"github.com/jezek/xgb/shm"
	"github.com/jezek/xgb/xproto"
	"github.com/kbinani/screenshot"

	"app.tonedesk/capture/xvfbtest"
)

var fullHD = image.Rect(0, 0, 1920, 1080)

// median returns the middle of the times, in milliseconds.
func median(times []time.Duration) float64 {
	slices.Sort(times)
	return float64(times[len(times)/2]) / float64(time.Millisecond)
}

// Budget: a grab at most 1.3 times a bare GetImage into shared memory, taken in turns
// with it into the same memory, which an untimed call has warmed for both. grab-ms
// leaves out the check for "unchanged", as the bare call has none; checked-ms, a full read
// that finds nothing new, has all of it. unchanged-ms is a grab that the server needs not be
// asked for a picture, changed-ms one where the last pixel alone is another.
func BenchmarkX11Grab(b *testing.B) {
	server := xvfbtest.Start(b, xvfbtest.Options{Width: 1920, Height: 1080})
	painter := server.Painter()
	s := openRegion(b, openTest(b, server), fullHD).(*x11Stream)
	var f Frame
	grab(b, s, &f, true)
	s.unsure = true
	grab(b, s, &f, false) // every page of both segments has been touched
	timed := func(wantChanged bool) time.Duration {
		start := time.Now()
		changed, err := s.Grab(b.Context(), &f)
		took := time.Since(start)
		if err != nil || changed != wantChanged {
			b.Fatal(changed, err)
		}
		return took
	}
	var bare, whole, checked, unchanged, changed []time.Duration
	pixel := uint32(0)
	b.ReportAllocs()
	for b.Loop() {
		bareCall(b, s)
		bare = append(bare, bareCall(b, s))
		s.unsure = true // as when the last full read was long ago
		checked = append(checked, timed(false))
		unchanged = append(unchanged, timed(false))
		s.images[1-s.back].rect = image.Rectangle{} // as if the region had moved: no check
		s.unsure = true
		whole = append(whole, timed(true))
		pixel++
		painter.Fill(image.Rect(1919, 1079, 1920, 1080), pixel)
		bareCall(b, s)
		changed = append(changed, timed(true))
	}
	b.ReportMetric(median(bare), "bare-ms")
	b.ReportMetric(median(whole), "grab-ms")
	b.ReportMetric(median(whole)/median(bare), "grab/bare")
	b.ReportMetric(median(checked), "checked-ms")
	b.ReportMetric(median(unchanged), "unchanged-ms")
	b.ReportMetric(median(changed), "changed-ms")
}

// bareCall has the server fill the stream's back picture, and nothing more.
func bareCall(b *testing.B, s *x11Stream) time.Duration {
	start := time.Now()
	_, err := shm.GetImage(s.conn.X, xproto.Drawable(s.conn.Screen.Root), 0, 0, 1920, 1080, allPlanes,
		xproto.ImageFormatZPixmap, s.images[s.back].id, 0).Reply()
	took := time.Since(start)
	if err != nil {
		b.Fatal(err)
	}
	return took
}

// What a grab allocates beside the client library: nothing that a bare call doesn't.
func BenchmarkX11Allocations(b *testing.B) {
	server := xvfbtest.Start(b, xvfbtest.Options{Width: 64, Height: 64})
	s := openRegion(b, openTest(b, server), image.Rectangle{}).(*x11Stream)
	var f Frame
	grab(b, s, &f, true)
	s.unsure = true
	grab(b, s, &f, false)
	ctx := b.Context()
	b.Run("bare", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = shm.GetImage(s.conn.X, xproto.Drawable(s.conn.Screen.Root), 0, 0, 64, 64, allPlanes,
				xproto.ImageFormatZPixmap, s.images[s.back].id, 0).Cookie.Reply()
		}
	})
	b.Run("grab", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			s.unsure = true // else no picture is asked for
			if _, err := s.Grab(ctx, &f); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Budget: 2 ms for 1920x1080, also where the server leaves other garbage in every X byte.
func BenchmarkX11Unchanged(b *testing.B) {
	f := format24(b)
	front := bytes.Repeat([]byte{10, 20, 30, 0}, 1920*1080)
	for _, tt := range []struct {
		name string
		x    byte
	}{{"same bytes", 0}, {"other X bytes", 0xff}} {
		b.Run(tt.name, func(b *testing.B) {
			back := bytes.Repeat([]byte{10, 20, 30, tt.x}, 1920*1080)
			var times []time.Duration
			b.ReportAllocs()
			for b.Loop() {
				start := time.Now()
				if !f.same(front, back, 1920, 1080) {
					b.Fatal("changed")
				}
				times = append(times, time.Since(start))
			}
			b.ReportMetric(median(times), "median-ms")
		})
	}
}

// Budget: our grab at least 25 times as fast as a call of the portable module, which
// runs in a process of its own: it makes its own connections.
func BenchmarkX11AgainstPortable(b *testing.B) {
	server := xvfbtest.Start(b, xvfbtest.Options{Width: 1920, Height: 1080})
	portable := portableTime(b, server)
	s := openRegion(b, openTest(b, server), fullHD).(*x11Stream)
	var f Frame
	grab(b, s, &f, true)
	grab(b, s, &f, false)
	ctx := b.Context()
	var own []time.Duration
	for b.Loop() {
		s.images[1-s.back].rect, s.unsure = image.Rectangle{}, true
		start := time.Now()
		if _, err := s.Grab(ctx, &f); err != nil {
			b.Fatal(err)
		}
		own = append(own, time.Since(start))
	}
	b.ReportMetric(portable, "portable-ms")
	b.ReportMetric(median(own), "grab-ms")
	b.ReportMetric(portable/median(own), "portable/grab")
}

// portableTime returns the median time of a call, measured in a child.
func portableTime(b *testing.B, server *xvfbtest.Server) float64 {
	b.Helper()
	self, err := os.Executable()
	if err != nil {
		b.Fatal(err)
	}
	cmd := exec.Command(self, "-test.run=^TestChildPortable$", "-test.timeout=60s")
	cmd.Env = append(server.Env(), childVariable+"="+server.Display)
	out, err := cmd.Output()
	var ms float64
	if _, scan := fmt.Sscanf(string(out), "portable %f", &ms); err != nil || scan != nil {
		b.Fatalf("portable: %v, %s", err, out)
	}
	return ms
}

// TestChildPortable is a child of BenchmarkX11AgainstPortable.
func TestChildPortable(t *testing.T) {
	if os.Getenv(childVariable) == "" {
		t.Skip("runs as a child of a benchmark")
	}
	var times []time.Duration
	for range 25 {
		start := time.Now()
		if _, err := screenshot.CaptureRect(fullHD); err != nil {
			t.Fatal(err)
		}
		times = append(times, time.Since(start))
	}
	fmt.Println("portable", median(times))
}
