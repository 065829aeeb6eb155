package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
	"app.tonedesk/capture/xvfbtest"
)

// portableServer starts a virtual X server of the given depth, makes it the display of
// this process (the portable reader knows no other way) and returns its name.
func portableServer(t *testing.T, depth int) string {
	t.Helper()
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 64, Height: 48, Depth: depth})
	t.Setenv("DISPLAY", server.Display)
	t.Setenv("XDG_SESSION_TYPE", "x11")
	return server.Display
}

// white stands for the server's own white pixel.
const white = 0xffffffff

// paintRoot fills the root window with a pixel of the server's own format, and ends the
// connection: the reader makes its own.
func paintRoot(t *testing.T, display string, pixel uint32) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	c, err := xconn.Acquire(ctx, display)
	if err != nil {
		t.Fatal(err)
	}
	root := c.Screen.Root
	if pixel == white {
		pixel = c.Screen.WhitePixel
	}
	err = errors.Join(
		xproto.ChangeWindowAttributesChecked(c.X, root, xproto.CwBackPixel, []uint32{pixel}).Check(),
		xproto.ClearAreaChecked(c.X, false, root, 0, 0, 0, 0).Check())
	c.Release()
	<-c.Done()
	if err != nil {
		t.Fatal(err)
	}
}

// The evidence for pick: our own backend reads or refuses every format rightly; the
// portable one is right at depth 24 alone, and at the others gives wrong colours
// without an error, or breaks down.
func TestPortableColoursOnX11(t *testing.T) {
	red, paper := [3]byte{255, 0, 0}, [3]byte{255, 255, 255}
	tests := []struct {
		depth int
		pixel uint32 // X11, chapter 8: pure red is the visual's red mask
		want  [3]byte
		own   error // of our own backend
		right bool  // the portable backend's colour
	}{
		{24, 0xff0000, red, nil, true},
		{30, 0x3ff00000, red, nil, false},
		{16, 0xf800, red, nil, false},
		{15, 0x7c00, red, nil, false},
		{8, white, paper, ErrFormat, false}, // a palette
	}
	for _, tt := range tests {
		t.Run(fmt.Sprint("depth ", tt.depth), func(t *testing.T) {
			display := portableServer(t, tt.depth)
			paintRoot(t, display, tt.pixel)
			own, err := Pick(func(name string) string {
				if name == DisplayVariable {
					return display
				}
				return ""
			})
			got, err := firstPixel(own, err)
			if !errors.Is(err, tt.own) || err == nil && got != tt.want {
				t.Errorf("our own backend reads %v, error %v", got, err)
			}
			if own != nil {
				own.Close()
			}
			paintRoot(t, display, tt.pixel) // and the connection has ended
			b, err := openPortable(bounded(t))
			c, err := firstPixel(b, err)
			if right := err == nil && c == tt.want; right != tt.right {
				t.Errorf("the portable backend reads %v as %v, error %v", tt.want, c, err)
			}
			t.Logf("portable: %v is %v, error %v", tt.want, c, err)
		})
	}
}

// firstPixel reads the middle of the desktop and returns its top left colour.
func firstPixel(b Backend, err error) (c [3]byte, _ error) {
	if err != nil {
		return c, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	s, err := b.Open(ctx, image.Rect(8, 8, 40, 40))
	if err != nil {
		return c, err
	}
	defer s.Close()
	var f Frame
	if _, err := s.Grab(ctx, &f); err != nil {
		return c, err
	}
	c = [3]byte{f.Pix[0], f.Pix[1], f.Pix[2]}
	if f.Layout == BGRX {
		c[0], c[2] = c[2], c[0]
	}
	return c, nil
}

// The portable backend against a real screen.
func TestPortable(t *testing.T) {
	display := portableServer(t, 24)
	paintRoot(t, display, 0x336699)
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	b, err := openPortable(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if r, err := portableDesktop(ctx); r != image.Rect(0, 0, 64, 48) || err != nil {
		t.Errorf("desktop %v, %v", r, err)
	}
	if _, err := b.Open(ctx, image.Rect(100, 0, 110, 10)); !errors.Is(err, ErrOutside) {
		t.Errorf("outside: %v", err)
	}
	if _, err := b.Open(ctx, image.Rectangle{Min: image.Pt(5, 5), Max: image.Pt(5, 9)}); !errors.Is(err, ErrEmpty) {
		t.Errorf("empty: %v", err)
	}
	s, err := b.Open(ctx, image.Rect(-10, 40, 4, 60)) // partly outside
	if err != nil {
		t.Fatal(err)
	}
	part := image.Rect(0, 40, 4, 48)
	var f Frame
	changed, err := s.Grab(ctx, &f)
	if !changed || err != nil || f.Origin != part.Min || f.Size != part.Size() {
		t.Fatalf("first: %v, %v, %+v", changed, err, f)
	}
	for i := 0; i < len(f.Pix); i += 4 {
		if p := [4]byte(f.Pix[i:]); p != [4]byte{0x33, 0x66, 0x99, 255} {
			t.Fatalf("pixel %d is %v", i/4, p)
		}
	}
	if changed, err := s.Grab(ctx, &f); changed || err != nil {
		t.Errorf("nothing new: %v, %v", changed, err)
	}
	paintRoot(t, display, 0)
	old := f.Pix
	if changed, err := s.Grab(ctx, &f); !changed || err != nil || f.Pix[0] != 0 || old[0] != 0x33 {
		t.Errorf("changed: %v, %v, %d, old %d", changed, err, f.Pix[0], old[0])
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

func TestPortableWithoutDisplay(t *testing.T) {
	t.Setenv("DISPLAY", ":59999")
	if _, err := openPortable(context.Background()); !errors.Is(err, ErrNoDisplay) {
		t.Errorf("no server: %v", err)
	}
}
