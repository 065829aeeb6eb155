package wayland

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland/waylandtest"
)

// painted is a picture every pixel of which tells where it is.
func painted(size image.Point, blue uint8) *image.RGBA {
	img := image.NewRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			img.SetRGBA(x, y, color.RGBA{uint8(x), uint8(y), blue + uint8(x>>8)*16 + uint8(y>>8), 255})
		}
	}
	return img
}

// shows reports whether a frame is a part of a picture, pixel by pixel.
func shows(f capture.Frame, img *image.RGBA, part image.Rectangle) bool {
	if part == (image.Rectangle{}) {
		part = img.Bounds()
	}
	if f.Size != part.Size() || f.Origin != part.Min {
		return false
	}
	for y := range f.Size.Y {
		for x := range f.Size.X {
			p, c := f.Pix[y*f.Stride+4*x:], img.RGBAAt(part.Min.X+x, part.Min.Y+y)
			if [3]byte(p) != [3]byte{c.B, c.G, c.R} {
				return false
			}
		}
	}
	return true
}

func compositor(s *waylandtest.Sway) Compositor { return Compositor{s.Socket, 20e9} }

func openScreen(t *testing.T, s *waylandtest.Sway, name string, part image.Rectangle) *Stream {
	t.Helper()
	stream, err := compositor(s).Open(t.Context(), name, part)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { stream.Close() })
	return stream
}

// until grabs until ok.
func until(t *testing.T, what string, s *Stream, ok func(f capture.Frame) bool) {
	t.Helper()
	var f capture.Frame
	waylandtest.WaitFor(t, what, func() bool {
		if _, err := s.Grab(t.Context(), &f); err != nil {
			t.Fatalf("waiting for %s: %v", what, err)
		}
		return f.Pix != nil && ok(f)
	})
}

// However a screen of a real compositor is turned and scaled, the picture is upright and its own pixels,
// one by one.
func TestSwayShowsItself(t *testing.T) {
	s := waylandtest.StartSway(t, 1, "output HEADLESS-1 mode 320x200")
	for i, tt := range []struct {
		turn, scale string
		size        image.Point
		part        image.Rectangle
	}{
		{"normal", "1", image.Pt(320, 200), image.Rectangle{}},
		{"normal", "1", image.Pt(320, 200), image.Rect(300, 150, 999, 999)},
		{"90", "1", image.Pt(200, 320), image.Rectangle{}},
		{"90", "1", image.Pt(200, 320), image.Rect(20, 290, 40, 300)},
		{"180", "1", image.Pt(320, 200), image.Rectangle{}},
		{"270", "1", image.Pt(200, 320), image.Rectangle{}},
		{"flipped", "1", image.Pt(320, 200), image.Rectangle{}},
		{"flipped-90", "1", image.Pt(200, 320), image.Rectangle{}},
		{"flipped-180", "1", image.Pt(320, 200), image.Rectangle{}},
		{"flipped-270", "1", image.Pt(200, 320), image.Rectangle{}},
		{"normal", "2", image.Pt(320, 200), image.Rectangle{}},
	} {
		t.Run(fmt.Sprintf("%s, scale %s, part %v", tt.turn, tt.scale, tt.part), func(t *testing.T) {
			s.Do("output HEADLESS-1 transform " + tt.turn + " scale " + tt.scale)
			img := painted(tt.size, uint8(i*16))
			s.Show("HEADLESS-1", img)
			part := tt.part
			if part != (image.Rectangle{}) {
				part = part.Intersect(img.Bounds())
			}
			stream := openScreen(t, s, "HEADLESS-1", tt.part)
			until(t, "the picture", stream, func(f capture.Frame) bool { return shows(f, img, part) })
			whole := image.Rectangle{Max: tt.size} // in the compositor's own measure
			if tt.scale == "2" {
				whole.Max = whole.Max.Div(2)
			}
			if at := stream.Place(); at.Whole != whole || tt.scale == "1" && at.Part != img.Bounds().Intersect(tt.part) && tt.part != (image.Rectangle{}) {
				t.Errorf("it lies at %+v, want %v", at, whole)
			}
			screens, err := compositor(s).Screens(t.Context())
			if err != nil || len(screens) != 1 || screens[0].Name != "HEADLESS-1" || screens[0].Size != tt.size {
				t.Errorf("the screens are %+v, %v", screens, err)
			}
		})
	}
}

// Of several screens each shows its own picture, and another one when its size changes.
func TestSwayChanges(t *testing.T) {
	s := waylandtest.StartSway(t, 2, "output HEADLESS-1 mode 320x200 position 320 0", "output HEADLESS-2 mode 240x160 position 0 0")
	screens, err := compositor(s).Screens(t.Context())
	if err != nil || len(screens) != 2 || screens[0].Name != "HEADLESS-2" || screens[1].Name != "HEADLESS-1" {
		t.Fatalf("from left to right: %+v, %v", screens, err)
	}
	one, two := openScreen(t, s, "HEADLESS-1", image.Rectangle{}), openScreen(t, s, "HEADLESS-2", image.Rectangle{})
	first := painted(image.Pt(320, 200), 0)
	s.Show("HEADLESS-1", first)
	until(t, "the first picture", one, func(f capture.Frame) bool { return shows(f, first, image.Rectangle{}) })
	second := painted(image.Pt(240, 160), 100)
	s.Show("HEADLESS-2", second)
	until(t, "the other screen's", two, func(f capture.Frame) bool { return shows(f, second, image.Rectangle{}) })
	s.Do("output HEADLESS-1 mode 400x300")
	larger := painted(image.Pt(400, 300), 50)
	s.Show("HEADLESS-1", larger)
	until(t, "the new size", one, func(f capture.Frame) bool { return shows(f, larger, image.Rectangle{}) })
}

// A screen that is switched off shows what it showed; on again it goes on.
func TestSwayOffAndOn(t *testing.T) {
	s := waylandtest.StartSway(t, 2, "output * mode 320x200")
	stream := openScreen(t, s, "HEADLESS-2", image.Rectangle{})
	until(t, "a picture", stream, func(capture.Frame) bool { return true })
	s.Do("output HEADLESS-2 disable")
	if _, err := stream.Grab(t.Context(), new(capture.Frame)); err != nil {
		t.Errorf("switched off: %v", err)
	}
	s.Do("output HEADLESS-2 enable")
	img := painted(image.Pt(320, 200), 77)
	s.Show("HEADLESS-2", img)
	until(t, "the picture", stream, func(f capture.Frame) bool { return shows(f, img, image.Rectangle{}) })
}

// Where the compositor goes that is said.
func TestSwayGoes(t *testing.T) {
	s := waylandtest.StartSway(t, 1, "output * mode 320x200")
	stream := openScreen(t, s, "HEADLESS-1", image.Rectangle{})
	until(t, "a picture", stream, func(capture.Frame) bool { return true })
	s.Kill()
	waylandtest.WaitFor(t, "the end", func() bool {
		_, err := stream.Grab(t.Context(), new(capture.Frame))
		if err != nil && !errors.Is(err, capture.ErrDisconnected) {
			t.Fatalf("the error is %v, want ErrDisconnected", err)
		}
		return err != nil
	})
	waylandtest.WaitFor(t, "its socket to be nobody's", func() bool {
		_, err := compositor(s).Screens(t.Context())
		if !errors.Is(err, capture.ErrNoDisplay) && !errors.Is(err, capture.ErrDisconnected) { // the second while it dies
			t.Fatalf("afterwards: %v", err)
		}
		return errors.Is(err, capture.ErrNoDisplay)
	})
}

// What was handed out stays as it is while the next is read.
func TestSwayFramesStay(t *testing.T) {
	s := waylandtest.StartSway(t, 1, "output HEADLESS-1 mode 320x200")
	stream := openScreen(t, s, "HEADLESS-1", image.Rectangle{})
	var held capture.Frame
	var copied []byte
	for i := range 4 {
		img := painted(image.Pt(320, 200), uint8(i*40))
		s.Show("HEADLESS-1", img)
		until(t, "a picture", stream, func(f capture.Frame) bool {
			if !bytes.Equal(held.Pix, copied) {
				t.Fatal("what was handed out has changed")
			}
			held, copied = f, bytes.Clone(f.Pix)
			return shows(f, img, image.Rectangle{})
		})
	}
}
