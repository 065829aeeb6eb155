package capture

import (
	"errors"
	"image"
	"os"
	"testing"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xvfbtest"
)

// leaf is the window that the tests follow.
var leaf = xvfbtest.Order{Box: image.Rect(100, 80, 300, 230), Pixel: 0x204060, Title: "leaf", Class: "Painter"}

// followTest follows a window.
func followTest(t testing.TB, b Backend, w Window, part image.Rectangle) *x11WindowStream {
	t.Helper()
	s, err := b.(Follower).Follow(bounded(t), w, part)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s.(*x11WindowStream)
}

// onBoth runs a test without a window manager, and with one.
func onBoth(t *testing.T, f func(t *testing.T, server *xvfbtest.Server)) {
	t.Run("alone", func(t *testing.T) { f(t, xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})) })
	t.Run("managed", func(t *testing.T) {
		f(t, xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600, WindowManager: true}))
	})
}

// open opens leaf, and returns it as it is listed.
func openLeaf(t *testing.T, server *xvfbtest.Server, painter *xvfbtest.Painter, b Backend) (uint32, Window) {
	t.Helper()
	id := painter.Open(leaf)
	var found Window
	server.WaitFor("the window in the list", func() bool {
		for _, w := range listWindows(t, b) {
			if w.ID == uint64(id) {
				found = w
			}
		}
		return found.ID != 0
	})
	return id, found
}

func listWindows(t *testing.T, b Backend, own ...uint64) []Window {
	t.Helper()
	windows, err := b.(Follower).Windows(bounded(t), own...)
	if err != nil {
		t.Fatal(err)
	}
	return windows
}

var (
	ground = [3]byte{0x20, 0x40, 0x60}
	red    = [3]byte{0xff, 0, 0}
)

// mustBe waits until a pixel is of a colour.
func mustBe(t *testing.T, s *x11WindowStream, f *Frame, x, y int, want [3]byte) {
	t.Helper()
	until(t, s, f, "a colour", func(err error) bool {
		return err == nil && x < f.Size.X && y < f.Size.Y && at(*f, x, y) == want
	})
}

// A window is read while it is covered, moved, and half off the screen, without its frame.
func TestFollowCoveredAndMoved(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		s := followTest(t, b, w, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 199, 149, ground)
		if f.Size != image.Pt(200, 150) || at(f, 0, 0) != ground || f.Layout != BGRX {
			t.Errorf("a picture of %v, corner %v", f.Size, at(f, 0, 0))
		}
		cover := painter.Window(image.Rect(0, 0, 790, 590), 0xffffff)
		painter.Raise(cover)
		painter.Paint(id, image.Rect(20, 30, 40, 50), 0xff0000)
		mustBe(t, s, &f, 20, 30, red)
		if at(f, 19, 30) != ground || at(f, 40, 49) != ground || at(f, 39, 49) != red {
			t.Error("the dab is not where it was painted")
		}
		for _, to := range []image.Point{{300, 200}, {-120, 90}, {700, 500}} {
			painter.Move(id, to)
			until(t, s, &f, "the move", func(err error) bool {
				return err == nil && s.Window().Rect == image.Rectangle{Min: to, Max: to.Add(image.Pt(200, 150))}
			})
			painter.Paint(id, image.Rect(0, 0, 200, 150), 0x00ff00|uint32(byte(to.Y)))
			mustBe(t, s, &f, 0, 0, [3]byte{0, 255, byte(to.Y)})
			if at(f, 199, 149) != [3]byte{0, 255, byte(to.Y)} || f.Origin != to {
				t.Errorf("at %v: the far corner reads %v; told %v", to, at(f, 199, 149), f.Origin)
			}
		}
	})
}

func TestFollowResized(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		s := followTest(t, b, w, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 0, 0, ground)
		for _, size := range []image.Point{{500, 400}, {63, 41}, {64, 41}, {200, 150}} {
			painter.Resize(id, size)
			until(t, s, &f, "the size", func(err error) bool { return err == nil && f.Size == size })
			painter.Paint(id, image.Rectangle{Max: size}, 0xff0000)
			mustBe(t, s, &f, size.X-1, size.Y-1, red)
			if at(f, 0, 0) != red || !f.Changed.In(image.Rectangle{Max: size}) {
				t.Errorf("at %v: %v, changed %v", size, at(f, 0, 0), f.Changed)
			}
			painter.Paint(id, image.Rectangle{Max: size}, 0x204060)
			mustBe(t, s, &f, size.X-1, size.Y-1, ground)
		}
	})
}

// A part is read where it meets the inside.
func TestFollowPart(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		s := followTest(t, b, w, image.Rect(150, 100, 250, 200))
		var f Frame
		until(t, s, &f, "the part", func(err error) bool { return err == nil })
		if f.Size != image.Pt(50, 50) || f.Origin != s.Window().Rect.Min.Add(image.Pt(150, 100)) {
			t.Errorf("a part of %v at %v", f.Size, f.Origin)
		}
		painter.Paint(id, image.Rect(149, 99, 151, 101), 0xff0000)
		mustBe(t, s, &f, 0, 0, red)
		if at(f, 1, 0) != ground || at(f, 0, 1) != ground {
			t.Error("the part lies elsewhere")
		}
		painter.Resize(id, image.Pt(140, 140))
		until(t, s, &f, "too small a window", func(err error) bool { return errors.Is(err, ErrPart) })
		painter.Resize(id, image.Pt(300, 300))
		until(t, s, &f, "the part again", func(err error) bool { return err == nil && f.Size == image.Pt(100, 100) })
		if _, err := b.(Follower).Follow(bounded(t), w, image.Rect(5, 5, 5, 9)); !errors.Is(err, ErrEmpty) {
			t.Errorf("a part of no width: %v", err)
		}
	})
}

// What windows inside the window show is in the picture.
func TestFollowChildren(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		child := painter.Open(xvfbtest.Order{Box: image.Rect(10, 10, 60, 60), Pixel: 0xff0000, Parent: xproto.Window(id)})
		s := followTest(t, b, w, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 10, 10, red)
		grandchild := painter.Open(xvfbtest.Order{Box: image.Rect(5, 5, 9, 9), Pixel: 0x00ff00, Parent: xproto.Window(child)})
		mustBe(t, s, &f, 15, 15, [3]byte{0, 255, 0})
		painter.Paint(grandchild, image.Rect(1, 1, 2, 2), 0x0000ff)
		mustBe(t, s, &f, 16, 16, [3]byte{0, 0, 255})
		painter.Move(child, image.Pt(100, 100))
		mustBe(t, s, &f, 149, 149, red)
		mustBe(t, s, &f, 10, 10, ground)
		// A child with alpha is painted by the server into the picture.
		painter.Open(xvfbtest.Order{Box: image.Rect(150, 0, 160, 10), Pixel: 0xff112233, Parent: xproto.Window(id), Alpha: true})
		mustBe(t, s, &f, 155, 5, [3]byte{0x11, 0x22, 0x33})
	})
}

// Of a window with alpha the colours are read as they are stored, whatever the alpha.
func TestFollowAlpha(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		order := leaf
		order.Alpha, order.Pixel = true, 0x80402010
		id := painter.Open(order)
		s := followTest(t, b, Window{Title: "leaf", Class: "Painter"}, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 199, 149, [3]byte{0x40, 0x20, 0x10})
		painter.Paint(id, image.Rect(0, 0, 200, 150), 0x10402010) // another alpha
		painter.Paint(id, image.Rect(7, 8, 9, 10), 0x00ff0000)
		mustBe(t, s, &f, 7, 8, red)
		if want := image.Rect(0, 8, 200, 10); !f.Changed.In(want) || f.Changed.Empty() {
			t.Errorf("changed %v, and alpha is no change", f.Changed)
		}
	})
}

// A border that the server draws is no part of the inside.
func TestFollowBorder(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter, b := server.Painter(), openTest(t, server)
	order := leaf
	order.Border = 7
	id := painter.Open(order)
	s := followTest(t, b, Window{Title: "leaf", Class: "Painter"}, image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	for _, p := range []image.Point{{0, 0}, {199, 0}, {0, 149}, {199, 149}} {
		painter.Paint(id, image.Rectangle{Min: p, Max: p.Add(image.Pt(1, 1))}, 0xff0000)
		grab(t, s, &f, true)
		if at(f, p.X, p.Y) != red {
			t.Errorf("the corner %v reads %v", p, at(f, p.X, p.Y))
		}
	}
	if s.Window().Rect != image.Rect(107, 87, 307, 237) {
		t.Errorf("the inside is at %v", s.Window().Rect)
	}
}

func TestFollowMinimised(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600, WindowManager: true})
	painter, b := server.Painter(), openTest(t, server)
	id, w := openLeaf(t, server, painter, b)
	s := followTest(t, b, w, image.Rectangle{})
	var f Frame
	mustBe(t, s, &f, 0, 0, ground)
	for range 5 {
		painter.Iconify(id)
		until(t, s, &f, "minimised", func(err error) bool { return errors.Is(err, ErrMinimised) })
		if !s.Window().Minimised || at(f, 0, 0) != ground {
			t.Error("not told as minimised, or the last picture has gone")
		}
		if again := followTest(t, b, w, image.Rectangle{}); true { // begun while it is minimised
			if _, err := again.Grab(bounded(t), &f); !errors.Is(err, ErrMinimised) {
				t.Errorf("begun while minimised: %v", err)
			}
		}
		painter.Show(id)
		until(t, s, &f, "the picture again", func(err error) bool { return err == nil && at(f, 100, 100) == ground })
		painter.Paint(id, image.Rect(0, 0, 200, 150), 0xff0000)
		mustBe(t, s, &f, 0, 0, red)
		painter.Paint(id, image.Rect(0, 0, 200, 150), 0x204060)
		mustBe(t, s, &f, 0, 0, ground)
	}
}

// A window that is closed is waited for: the next of its title and class is read.
func TestFollowClosed(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		s := followTest(t, b, w, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 0, 0, ground)
		for _, pixel := range []uint32{0x010203, 0x040506, 0x070809} {
			painter.Destroy(id)
			until(t, s, &f, "closed", func(err error) bool { return errors.Is(err, ErrNoWindow) })
			other := leaf
			other.Title, other.Pixel = "another leaf", 0xffffff
			strange := leaf
			strange.Class, strange.Pixel = "Stranger", 0xfefefe
			unwanted := []uint32{painter.Open(other), painter.Open(strange)}
			again := leaf
			again.Pixel = pixel
			id = painter.Open(again)
			until(t, s, &f, "the window opened again", func(err error) bool { return err == nil })
			if want := [3]byte{byte(pixel >> 16), byte(pixel >> 8), byte(pixel)}; at(f, 50, 50) != want || s.Window().ID != uint64(id) {
				t.Errorf("opened again as %v: reads %v of window %d, want %d", want, at(f, 50, 50), s.Window().ID, id)
			}
			painter.Paint(id, image.Rect(3, 3, 4, 4), 0xff0000)
			mustBe(t, s, &f, 3, 3, red)
			for _, u := range unwanted {
				painter.Destroy(u)
			}
		}
	})
}

// A title that changes while it is followed is the one that is looked for afterwards.
func TestFollowRenamed(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		s := followTest(t, b, w, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 0, 0, ground)
		painter.Rename(id, "oak leaf", "Painter")
		until(t, s, &f, "the title", func(err error) bool { return err == nil && s.Window().Title == "oak leaf" })
		painter.Destroy(id)
		until(t, s, &f, "closed", func(err error) bool { return errors.Is(err, ErrNoWindow) })
		oak := leaf
		oak.Title, oak.Pixel = "oak leaf", 0xff0000
		painter.Open(oak)
		mustBe(t, s, &f, 0, 0, red)
	})
}

// The program ends with its window, and begins again with the same numbers.
func TestFollowProgramStartedAgain(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{WindowManager: true})
	b := openTest(t, server)
	painter := server.Painter()
	_, w := openLeaf(t, server, painter, b)
	s := followTest(t, b, w, image.Rectangle{})
	var f Frame
	mustBe(t, s, &f, 0, 0, ground)
	painter.Leave()
	until(t, s, &f, "closed", func(err error) bool { return errors.Is(err, ErrNoWindow) })
	second := server.Painter()
	id := second.Open(leaf)
	mustBe(t, s, &f, 0, 0, ground)
	second.Paint(id, image.Rect(0, 0, 1, 1), 0xff0000)
	mustBe(t, s, &f, 0, 0, red)
}

// The topmost first, each as it is; neither ours nor what is no window to a painter.
func TestWindows(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		if w.Title != "leaf" || w.Class != "Painter" || w.Rect.Size() != image.Pt(200, 150) || w.Minimised {
			t.Errorf("listed as %+v", w)
		}
		ours := leaf
		ours.PID, ours.Title = os.Getpid(), "ours"
		painter.Open(ours)
		second := leaf
		second.Title = "line\nfeed \x1b[31m"
		third := painter.Open(second)
		server.WaitFor("two windows", func() bool { return len(listWindows(t, b)) == 2 })
		painter.Raise(third)
		server.WaitFor("the topmost first", func() bool { return listWindows(t, b)[0].ID == uint64(third) })
		if got := listWindows(t, b)[0].Title; got != "line feed [31m" {
			t.Errorf("a title of %q", got)
		}
		painter.Raise(id)
		server.WaitFor("the other first", func() bool { return listWindows(t, b)[0].ID == uint64(id) })
		if got := listWindows(t, b, uint64(id)); len(got) != 1 || got[0].ID != uint64(third) {
			t.Errorf("without ours: %+v", got)
		}
	})
}

// The window at a point is found through its frame and under our own, not under others.
func TestWindowAt(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		atPoint := func(p image.Point, own ...uint64) uint64 {
			t.Helper()
			found, ok, err := b.(Follower).WindowAt(bounded(t), p, own...)
			if err != nil || ok != (found.ID != 0) {
				t.Fatal(found, ok, err)
			}
			return found.ID
		}
		inside := w.Rect.Min.Add(image.Pt(5, 5))
		if got := atPoint(inside); got != uint64(id) {
			t.Errorf("inside: %d, want %d", got, id)
		}
		if got := atPoint(w.Rect.Min.Sub(image.Pt(-20, 8))); server.Managed != (got == uint64(id)) {
			t.Errorf("just above the inside: %d; window %d, managed %v", got, id, server.Managed)
		}
		if got := atPoint(image.Pt(790, 590)); got != 0 {
			t.Errorf("on nothing: %d", got)
		}
		order := leaf
		order.Title = "over it"
		over := painter.Open(order)
		painter.Raise(over)
		server.WaitFor("the window over it", func() bool { return atPoint(inside.Add(image.Pt(60, 60))) == uint64(over) })
		if got := atPoint(inside.Add(image.Pt(60, 60)), uint64(over)); got != uint64(id) {
			t.Errorf("under our own: %d, want %d", got, id)
		}
	})
}

// Windows whose pixels we can't read are refused with a reason.
func TestFormatOfOtherDepths(t *testing.T) {
	setup := &xproto.SetupInfo{PixmapFormats: []xproto.Format{{Depth: 8, BitsPerPixel: 8, ScanlinePad: 32}, {Depth: 4, BitsPerPixel: 8, ScanlinePad: 32}}}
	screen := &xproto.ScreenInfo{AllowedDepths: []xproto.DepthInfo{
		{Depth: 8, Visuals: []xproto.VisualInfo{{VisualId: 1, Class: xproto.VisualClassPseudoColor}}},
		{Depth: 4, Visuals: []xproto.VisualInfo{{VisualId: 2, Class: xproto.VisualClassTrueColor, RedMask: 8, GreenMask: 6, BlueMask: 1}}},
	}}
	for visual, depth := range map[xproto.Visualid]byte{1: 8, 2: 4, 3: 24} {
		if f, err := x11FormatOf(setup, screen, depth, visual); !errors.Is(err, ErrFormat) {
			t.Errorf("depth %d: %v, %v", depth, f, err)
		}
	}
}

// Two read one window, and one of them ends: the other still has it whole.
func TestFollowTwice(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter, b := server.Painter(), openTest(t, server)
	id, w := openLeaf(t, server, painter, b)
	first, s := followTest(t, b, w, image.Rectangle{}), followTest(t, b, w, image.Rect(0, 0, 50, 50))
	var f Frame
	mustBe(t, first, &f, 199, 149, ground)
	mustBe(t, s, &f, 49, 49, ground)
	first.Close()
	painter.Raise(painter.Window(image.Rect(0, 0, 640, 480), 0xffffff))
	painter.Paint(id, image.Rect(0, 0, 200, 150), 0xff0000)
	mustBe(t, s, &f, 49, 49, red)
	if _, err := first.Grab(bounded(t), &f); !errors.Is(err, ErrClosed) {
		t.Errorf("after Close: %v", err)
	}
}

// The server dies under it, or the backend is closed: that is told, and by a token too.
func TestFollowEnds(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter, b := server.Painter(), openTest(t, server)
	_, w := openLeaf(t, server, painter, b)
	s := followTest(t, b, w, image.Rectangle{})
	var f Frame
	mustBe(t, s, &f, 0, 0, ground)
	server.Kill()
	until(t, s, &f, "the end", func(err error) bool { return errors.Is(err, ErrDisconnected) })
	b.Close()
	if _, err := s.Grab(bounded(t), &f); !errors.Is(err, ErrClosed) {
		t.Errorf("after the backend's Close: %v", err)
	}
	if at(f, 0, 0) != ground {
		t.Error("the last picture has gone")
	}
}
