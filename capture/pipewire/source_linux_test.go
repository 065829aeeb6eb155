//go:build cgo

package pipewire

import (
	"errors"
	"image"
	"testing"
	"time"

	"app.tonedesk/capture/pipewire/pipewiretest"
)

// watched is a source of a test's.
type watched struct {
	*Source
	t    *testing.T
	told chan struct{}
	seen uint64
}

// open opens a screen as a source.
func open(t *testing.T, server *pipewiretest.Server, node uint32) *watched {
	t.Helper()
	w := &watched{t: t, told: make(chan struct{}, 1)}
	s, err := Open(server.Socket(), node, func() {
		select {
		case w.told <- struct{}{}:
		default:
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	w.Source = s
	return w
}

// streams waits until the screen's pictures would come: one that is sent before is lost.
func (w *watched) streams(server *pipewiretest.Server, screen *pipewiretest.Screen) {
	w.t.Helper()
	screen.Streams()
	server.WaitFor("the source", func() bool {
		if _, err := w.Read(image.Rectangle{}, 0, nil); err != nil {
			w.t.Fatal(err)
		}
		return w.ran
	})
}

// next waits for the next picture, or for an error.
func (w *watched) next(part image.Rectangle) (Picture, error) {
	w.t.Helper()
	late := time.After(20 * time.Second)
	for {
		p, err := w.Read(part, w.seen, nil)
		if err != nil || p.Number != 0 {
			w.seen = max(w.seen, p.Number)
			return p, err
		}
		select {
		case <-w.told:
		case <-late:
			w.t.Fatal("no picture came")
		}
	}
}

// Every format that is offered is read, with gaps between its rows, from where it begins, and the part
// of it that counts alone; a picture that failed is none.
func TestPictures(t *testing.T) {
	server := pipewiretest.Start(t)
	bgr := [3]byte{10, 200, 90} // of the colour #5ac80a
	for _, tt := range []struct {
		name       string
		kind       pipewiretest.Kind
		pixel      [4]byte
		crop, part image.Rectangle
		size       image.Point // 0: as the screen
	}{
		{name: "BGRx", kind: pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(64, 48)}, pixel: [4]byte{10, 200, 90, 7}},
		{name: "RGBx", kind: pipewiretest.Kind{Pixels: pipewiretest.RGBx, Size: image.Pt(64, 48)}, pixel: [4]byte{90, 200, 10, 7}},
		{name: "BGRA", kind: pipewiretest.Kind{Pixels: pipewiretest.BGRA, Size: image.Pt(64, 48)}, pixel: [4]byte{10, 200, 90, 255}},
		{name: "RGBA", kind: pipewiretest.Kind{Pixels: pipewiretest.RGBA, Size: image.Pt(64, 48)}, pixel: [4]byte{90, 200, 10, 255}},
		{name: "an odd width with gaps between rows", kind: pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(61, 33), Stride: 256}, pixel: [4]byte{10, 200, 90, 0}},
		{name: "beginning later", kind: pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(61, 33), Offset: 512}, pixel: [4]byte{10, 200, 90, 0}},
		{name: "a window in a larger picture", kind: pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(64, 48)}, pixel: [4]byte{10, 200, 90, 0}, crop: image.Rect(5, 6, 45, 36), size: image.Pt(40, 30)},
		{name: "a part of that", kind: pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(64, 48)}, pixel: [4]byte{10, 200, 90, 0}, crop: image.Rect(5, 6, 45, 36), part: image.Rect(30, 20, 99, 25), size: image.Pt(10, 5)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			screen := server.Screen(tt.kind)
			source := open(t, server, screen.Node)
			source.streams(server, screen)
			screen.Show(pipewiretest.Shows{Pixel: tt.pixel, Crop: tt.crop})
			p, err := source.next(tt.part)
			if err != nil {
				t.Fatal(err)
			}
			if tt.size == (image.Point{}) {
				tt.size = tt.kind.Size
			}
			if p.Size != tt.size || len(p.Pix) != 4*p.Size.X*p.Size.Y {
				t.Fatalf("%v pixels in %d bytes, want %v", p.Size, len(p.Pix), tt.size)
			}
			for i := 0; i < len(p.Pix); i += 4 {
				if [3]byte(p.Pix[i:]) != bgr {
					t.Fatalf("pixel %d is %v, want %v", i/4, p.Pix[i:i+4], bgr)
				}
			}
			source.Close()
			screen.Close()
		})
	}
}

// The newest picture is read, and once; one that failed is none; and the size may change.
func TestPicturesThatFollow(t *testing.T) {
	server := pipewiretest.Start(t)
	screen := server.Screen(pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(40, 30)})
	source := open(t, server, screen.Node)
	source.streams(server, screen)
	for i := range 20 {
		shade := byte(10 * i)
		screen.Show(pipewiretest.Shows{Pixel: [4]byte{shade, shade, shade}})
		p, err := source.next(image.Rectangle{})
		if err != nil || p.Pix[0] != shade {
			t.Fatalf("picture %d: %v, begins with %v, want %d", i, err, p.Pix[:4], shade)
		}
		if again, err := source.Read(image.Rectangle{}, p.Number, nil); err != nil || again.Number != 0 {
			t.Fatalf("the same picture came again: %v, number %d", err, again.Number)
		}
	}
	screen.Show(pipewiretest.Shows{Pixel: [4]byte{1, 1, 1}, Failed: true})
	screen.Show(pipewiretest.Shows{Pixel: [4]byte{250, 250, 250}})
	if p, err := source.next(image.Rectangle{}); err != nil || p.Pix[0] != 250 {
		t.Errorf("after one that failed: %v, %v", err, p.Pix[:4])
	}
	screen.Resize(image.Pt(80, 50))
	server.WaitFor("a picture of the new size", func() bool { // those that are sent meanwhile are lost
		screen.Shown(pipewiretest.Shows{Pixel: [4]byte{60, 60, 60}})
		p, err := source.Read(image.Rectangle{}, 0, nil)
		if err != nil {
			t.Fatal(err)
		}
		return p.Size == image.Pt(80, 50) && p.Pix[len(p.Pix)-4] == 60
	})
	if _, err := source.Read(image.Rect(100, 0, 110, 10), 0, nil); !errors.Is(err, ErrPart) {
		t.Errorf("a part outside: %v, want ErrPart", err)
	}
}

// However a source ends, that is said, and nothing hangs.
func TestEnds(t *testing.T) {
	for _, tt := range []struct {
		name string
		end  func(*pipewiretest.Server, *pipewiretest.Screen)
	}{
		{"the screen goes", func(_ *pipewiretest.Server, s *pipewiretest.Screen) { s.Close() }},
		{"the server goes", func(s *pipewiretest.Server, _ *pipewiretest.Screen) { s.Kill() }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			server := pipewiretest.Start(t)
			screen := server.Screen(pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(40, 30)})
			source := open(t, server, screen.Node)
			source.streams(server, screen)
			screen.Show(pipewiretest.Shows{})
			if _, err := source.next(image.Rectangle{}); err != nil {
				t.Fatal(err)
			}
			tt.end(server, screen)
			server.WaitFor("its end", func() bool {
				_, err := source.Read(image.Rectangle{}, source.seen, nil)
				if err != nil && !errors.Is(err, ErrEnded) {
					t.Fatalf("the error is %v, want ErrEnded", err)
				}
				return err != nil
			})
			source.Close()
			source.Close()
		})
	}
}
