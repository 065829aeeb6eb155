package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// bounded returns a context for calls that are expected to be answered.
func bounded(t testing.TB) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	t.Cleanup(cancel)
	return ctx
}

// openTest opens our backend on the server.
func openTest(t testing.TB, s *xvfbtest.Server) Backend {
	t.Helper()
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	b, err := openX11(s.Display)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

// openRegion opens a stream.
func openRegion(t testing.TB, b Backend, r image.Rectangle) Stream {
	t.Helper()
	s, err := b.Open(bounded(t), r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// grab reads a frame, and fails if it isn't the expected kind.
func grab(t testing.TB, s Stream, f *Frame, wantChanged bool) {
	t.Helper()
	changed, err := s.Grab(bounded(t), f)
	if err != nil || changed != wantChanged {
		t.Fatalf("Grab: changed %v, error %v; want changed %v", changed, err, wantChanged)
	}
}

// at returns the colour of a frame's pixel, counted from the frame's top left.
func at(f Frame, x, y int) [3]byte {
	p := f.Pix[y*f.Stride+4*x:]
	return [3]byte{p[2], p[1], p[0]}
}

// Every server format gives the colours that were painted. Expected: a channel of n
// bits counts from black (0) to full (2^n - 1) in equal steps (X Window System
// Protocol, X11R7.7, chapter 8, "Connection Setup", visual types), so that 8 bits hold
// the rounded share of 255.
func TestX11Depths(t *testing.T) {
	for _, tt := range []struct{ depth, red, green, blue int }{ // bits a channel
		{24, 8, 8, 8}, {30, 10, 10, 10}, {16, 5, 6, 5}, {15, 5, 5, 5},
	} {
		t.Run(fmt.Sprintf("depth %d", tt.depth), func(t *testing.T) {
			server := xvfbtest.Start(t, xvfbtest.Options{Width: 67, Height: 32, Depth: tt.depth}) // odd: rows are padded
			painter := server.Painter()
			stream := openRegion(t, openTest(t, server), image.Rectangle{})
			var f Frame
			for _, share := range []float64{0, 0.1, 0.25, 0.37, 0.5, 0.81, 1} {
				r, g, b := part(share, tt.red), part(1-share, tt.green), part(share/2, tt.blue)
				pixel := (r<<tt.green|g)<<tt.blue | b
				painter.Fill(image.Rect(0, 0, 67, 32), uint32(pixel))
				grab(t, stream, &f, true)
				want := [3]byte{eight(r, tt.red), eight(g, tt.green), eight(b, tt.blue)}
				if got := at(f, 66, 31); got != want || at(f, 0, 0) != want {
					t.Errorf("pixel %#x reads %v, want %v", pixel, got, want)
				}
				if f.Size != image.Pt(67, 32) || f.Layout != BGRX || f.Stride < 4*67 {
					t.Errorf("frame %+v", f.Size)
				}
				grab(t, stream, &f, false)
			}
		})
	}
}

// Every pixel is in its place, also where rows of an odd width end in a gap: a white
// diagonal on black shows a row that begins too early or too late.
func TestX11Rows(t *testing.T) {
	for _, depth := range []int{24, 30, 16, 15} {
		t.Run(fmt.Sprintf("depth %d", depth), func(t *testing.T) {
			server := xvfbtest.Start(t, xvfbtest.Options{Width: 67, Height: 32, Depth: depth})
			painter := server.Painter()
			full := uint32(1)<<depth - 1
			painter.Fill(image.Rect(0, 0, 67, 32), 0)
			for y := range 32 {
				painter.Fill(image.Rect(2*y, y, 2*y+1, y+1), full)
			}
			b := openTest(t, server)
			for _, r := range []image.Rectangle{{}, image.Rect(1, 2, 66, 31), image.Rect(3, 1, 4, 9)} {
				var f Frame
				grab(t, openRegion(t, b, r), &f, true)
				for y := range f.Size.Y {
					for x := range f.Size.X {
						want := [3]byte{}
						if p := f.Origin.Add(image.Pt(x, y)); p.X == 2*p.Y {
							want = [3]byte{255, 255, 255}
						}
						if got := at(f, x, y); got != want {
							t.Fatalf("region %v, pixel %d,%d reads %v, want %v", r, x, y, got, want)
						}
					}
				}
			}
		})
	}
}

// part returns a share of the greatest value that bits hold.
func part(share float64, bits int) int { return int(math.Round(share * float64(int(1)<<bits-1))) }

// eight brings a value of bits bits to 8.
func eight(v, bits int) byte { return byte(math.Round(float64(v) / float64(int(1)<<bits-1) * 255)) }

func TestX11RefusesColourMaps(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Depth: 8})
	b, err := openX11(server.Display)
	if !errors.Is(err, ErrFormat) {
		t.Errorf("depth 8: backend %v, error %v; want ErrFormat", b, err)
	}
}

func TestX11Regions(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 100, Height: 80})
	painter := server.Painter()
	painter.Fill(image.Rect(0, 0, 100, 80), 0x102030)
	painter.Fill(image.Rect(0, 0, 10, 10), 0xff0000)
	painter.Fill(image.Rect(90, 70, 100, 80), 0x00ff00)
	b := openTest(t, server)
	tests := []struct {
		name         string
		region, want image.Rectangle
		first, last  [3]byte
		err          error
	}{
		{"inside", image.Rect(5, 5, 50, 50), image.Rect(5, 5, 50, 50), [3]byte{255}, [3]byte{16, 32, 48}, nil},
		{"one pixel", image.Rect(9, 9, 10, 10), image.Rect(9, 9, 10, 10), [3]byte{255}, [3]byte{255}, nil},
		{"whole", image.Rectangle{}, image.Rect(0, 0, 100, 80), [3]byte{255}, [3]byte{0, 255}, nil},
		{"over the top left", image.Rect(-30, -20, 20, 20), image.Rect(0, 0, 20, 20), [3]byte{255}, [3]byte{16, 32, 48}, nil},
		{"over the bottom right", image.Rect(95, 75, 500, 500), image.Rect(95, 75, 100, 80), [3]byte{0, 255}, [3]byte{0, 255}, nil},
		{"around all", image.Rect(-9000, -9000, 90000, 90000), image.Rect(0, 0, 100, 80), [3]byte{255}, [3]byte{0, 255}, nil},
		{"off to the right", image.Rect(100, 0, 200, 80), image.Rectangle{}, [3]byte{}, [3]byte{}, ErrOutside},
		{"off to the top", image.Rect(0, -50, 100, 0), image.Rectangle{}, [3]byte{}, [3]byte{}, ErrOutside},
		{"no width", image.Rectangle{Min: image.Pt(5, 5), Max: image.Pt(5, 50)}, image.Rectangle{}, [3]byte{}, [3]byte{}, ErrEmpty},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := b.Open(bounded(t), tt.region)
			if !errors.Is(err, tt.err) || (err != nil) != (tt.err != nil) {
				t.Fatalf("Open: %v, want %v", err, tt.err)
			}
			if err != nil {
				return
			}
			defer s.Close()
			var f Frame
			grab(t, s, &f, true)
			end := f.Size.Sub(image.Pt(1, 1))
			if f.Origin != tt.want.Min || f.Size != tt.want.Size() {
				t.Errorf("frame %v at %v; want %v", f.Size, f.Origin, tt.want)
			}
			if at(f, 0, 0) != tt.first || at(f, end.X, end.Y) != tt.last {
				t.Errorf("corners %v %v, want %v %v", at(f, 0, 0), at(f, end.X, end.Y), tt.first, tt.last)
			}
		})
	}
}

// A frame stays as it was until a later change has been handed out.
func TestX11FrameStays(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	area := image.Rect(0, 0, 64, 64)
	painter.Fill(area, 0x111111)
	s := openRegion(t, openTest(t, server), area)
	var f Frame
	grab(t, s, &f, true)
	for range 3 {
		grab(t, s, &f, false)
	}
	painter.Fill(area, 0x222222)
	if got := at(f, 3, 3); got != [3]byte{0x11, 0x11, 0x11} {
		t.Errorf("painted over: %v", got)
	}
	old := f
	grab(t, s, &f, true)
	if at(f, 3, 3) != [3]byte{0x22, 0x22, 0x22} || at(old, 3, 3) != [3]byte{0x11, 0x11, 0x11} {
		t.Errorf("new %v, old %v", at(f, 3, 3), at(old, 3, 3))
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	if err := s.Close(); err != nil {
		t.Error("closing twice:", err)
	}
	if _, err := s.Grab(bounded(t), &f); !errors.Is(err, ErrClosed) {
		t.Errorf("after Close: %v", err)
	}
}

func TestX11Resize(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1280, Height: 1024})
	b := openTest(t, server)
	server.Painter().Fill(image.Rect(0, 0, 1280, 1024), 0x777777)
	corner := openRegion(t, b, image.Rect(1000, 700, 1100, 1000))
	off := openRegion(t, b, image.Rect(1100, 800, 1200, 900))
	whole := openRegion(t, b, image.Rectangle{})
	var f Frame
	for _, s := range []Stream{corner, off, whole} {
		grab(t, s, &f, true)
	}
	resize := func(want image.Point, args ...string) {
		t.Helper()
		server.Run("xrandr", args...)
		grab(t, openRegion(t, b, image.Rectangle{}), &f, true)
		if f.Size != want {
			t.Fatalf("desktop after xrandr %v, want %v", f.Size, want)
		}
	}
	resize(image.Pt(1024, 768), "--output", "screen", "--off", "--fb", "1024x768") // its only mode is the first size
	for _, tt := range []struct {
		s    Stream
		want image.Rectangle
	}{{corner, image.Rect(1000, 700, 1024, 768)}, {whole, image.Rect(0, 0, 1024, 768)}} {
		grab(t, tt.s, &f, true)
		if f.Origin != tt.want.Min || f.Size != tt.want.Size() {
			t.Errorf("after shrinking: %v at %v, want %v", f.Size, f.Origin, tt.want)
		}
	}
	if _, err := off.Grab(bounded(t), &f); !errors.Is(err, ErrGone) {
		t.Errorf("off the screen: %v, want ErrGone", err)
	}
	resize(image.Pt(1280, 1024), "--output", "screen", "--auto")
	for _, s := range []Stream{corner, whole} {
		grab(t, s, &f, true)
	}
	if _, err := off.Grab(bounded(t), &f); err != nil {
		t.Errorf("back on the screen: %v", err)
	}
}

// A request may go out before the notice of a smaller desktop has come in.
func TestX11ResizeNoticeUnderWay(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 320, Height: 200})
	s := openRegion(t, openTest(t, server), image.Rectangle{}).(*x11Stream)
	for range 2 { // both pictures
		before := image.Rect(0, 0, 640, 480)
		s.size.Store(&before)
		s.stale.Store(false)
		var f Frame
		_, err := s.Grab(bounded(t), &f)
		if got := s.images[1-s.back].rect; err != nil || got != image.Rect(0, 0, 320, 200) {
			t.Errorf("Grab: %v, region %v; want the smaller desktop", err, got)
		}
	}
}

// Xwayland names its outputs XWAYLAND0 and so on; its root window is not the screen, and only
// windows of its own can be read.
func TestXwaylandShowsWindowsAlone(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{WindowManager: true})
	server.Run("xrandr", "--setmonitor", "XWAYLAND0", "640/160x480/120+0+0", "screen")
	painter := server.Painter()
	b, err := openX11(server.Display)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if !InWaylandSession(b) {
		t.Error("it isn't known for a Wayland session's")
	}
	for _, region := range []image.Rectangle{{}, image.Rect(0, 0, 100, 100)} {
		if s, err := b.Open(bounded(t), region); s != nil || !errors.Is(err, ErrUnsupported) || !errors.Is(err, ErrWayland) {
			t.Errorf("region %v: %v, %v, want ErrUnsupported and ErrWayland", region, s, err)
		}
	}
	if _, err := PointerAt(bounded(t), b); !errors.Is(err, ErrWayland) {
		t.Errorf("the pointer: %v, want ErrWayland", err)
	}
	if _, err := ReadSquare(bounded(t), b, image.Pt(9, 9), 5); !errors.Is(err, ErrWayland) {
		t.Errorf("a square of the screen: %v, want ErrWayland", err)
	}
	if _, is := b.(Pointer); is {
		t.Error("the painter could point at a window")
	}
	f := b.(Follower)
	if _, _, err := f.WindowAt(bounded(t), image.Pt(150, 150)); !errors.Is(err, ErrWayland) {
		t.Errorf("the window at a place: %v, want ErrWayland", err)
	}
	_, leaf := openLeaf(t, server, painter, b)
	s, err := f.Follow(bounded(t), leaf, image.Rectangle{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var frame Frame
	if changed, err := s.Grab(bounded(t), &frame); err != nil || !changed || frame.Size != leaf.Rect.Size() {
		t.Errorf("its picture: %v, %v, of %v", changed, err, frame.Size)
	}
}

func TestX11OpenErrors(t *testing.T) {
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	for _, tt := range []struct {
		display string
		want    error
	}{
		{"", ErrNoDisplay}, {"nonsense", ErrNoDisplay}, {":", ErrNoDisplay}, {":59999", ErrNoDisplay},
		{":99999", ErrNoDisplay}, {"127.0.0.1:59000", ErrNoDisplay}, {"/nowhere/socket:0", ErrNoDisplay},
	} {
		if _, err := openX11(tt.display); !errors.Is(err, tt.want) {
			t.Errorf("display %q: %v, want %v", tt.display, err, tt.want)
		}
	}
}

func TestX11Refused(t *testing.T) {
	auth := filepath.Join(t.TempDir(), "auth")
	entry := append([]byte{255, 255, 0, 0, 0, 0, 0, 18}, "MIT-MAGIC-COOKIE-1\x00\x100123456789abcdef"...)
	if err := os.WriteFile(auth, entry, 0o600); err != nil {
		t.Fatal(err)
	}
	server := xvfbtest.Start(t, xvfbtest.Options{Args: []string{"-auth", auth}})
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	if _, err := openX11(server.Display); !errors.Is(err, ErrRefused) {
		t.Errorf("without the secret: %v, want ErrRefused", err)
	}
	t.Setenv("XAUTHORITY", auth)
	b, err := openX11(server.Display)
	if err != nil {
		t.Fatalf("with the secret: %v", err)
	}
	b.Close()
}
