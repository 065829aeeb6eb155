package capture

import (
	"errors"
	"fmt"
	"image"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// A window is read on servers of other depths, and so is one with alpha on them, whose pixels have
// 32 bits whatever the screen's. Pixels: full red, full green, and full blue in the server's own
// masks (X11, chapter 8, "Connection Setup", visual types).
func TestFollowOnOtherDepths(t *testing.T) {
	for _, tt := range []struct {
		depth            int
		red, green, blue uint32
	}{
		{15, 0x7c00, 0x3e0, 0x1f}, {16, 0xf800, 0x7e0, 0x1f}, {24, 0xff0000, 0xff00, 0xff}, {30, 0x3ff00000, 0xffc00, 0x3ff},
	} {
		t.Run(fmt.Sprintf("depth %d", tt.depth), func(t *testing.T) {
			server := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480, Depth: tt.depth})
			painter, b := server.Painter(), openTest(t, server)
			order := leaf
			order.Pixel, order.Box = tt.red, image.Rect(101, 80, 300, 230) // odd: rows are padded
			id := painter.Open(order)
			s := followTest(t, b, Window{Title: "leaf", Class: "Painter"}, image.Rectangle{})
			var f Frame
			mustBe(t, s, &f, 198, 149, red)
			painter.Raise(painter.Window(image.Rect(0, 0, 640, 480), 0))
			painter.Paint(id, image.Rect(3, 4, 10, 11), tt.green)
			mustBe(t, s, &f, 9, 10, [3]byte{0, 255, 0})
			painter.Paint(id, image.Rect(0, 0, 1, 1), tt.blue)
			mustBe(t, s, &f, 0, 0, [3]byte{0, 0, 255})
			if at(f, 10, 10) != red || at(f, 1, 0) != red {
				t.Errorf("beside what was painted it reads %v and %v", at(f, 10, 10), at(f, 1, 0))
			}
			order.Title, order.Alpha, order.Pixel = "veil", true, 0x40112233
			painter.Open(order)
			veil := followTest(t, b, Window{Title: "veil", Class: "Painter"}, image.Rectangle{})
			mustBe(t, veil, &f, 50, 50, [3]byte{0x11, 0x22, 0x33})
		})
	}
}

// Of two windows of the same title and class the one that was named is read as long as it lives,
// whichever lies on top; then the other.
func TestFollowOneOfTwo(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		first, w := openLeaf(t, server, painter, b)
		twin := leaf
		twin.Pixel = 0xff0000
		second := painter.Open(twin)
		painter.Raise(second)
		twinOnTop := func() { // a manager does it in its own time
			server.WaitFor("the twin on top", func() bool {
				list := listWindows(t, b)
				return len(list) == 2 && list[0].ID == uint64(second)
			})
		}
		twinOnTop()
		s := followTest(t, b, w, image.Rectangle{})
		var f Frame
		mustBe(t, s, &f, 0, 0, ground)
		for _, other := range []uint32{first, second} {
			painter.Raise(other)
			painter.Paint(first, image.Rect(0, 0, 5, 5), 0x00ff00)
			mustBe(t, s, &f, 4, 4, [3]byte{0, 255, 0})
			painter.Paint(first, image.Rect(0, 0, 5, 5), 0x204060)
			mustBe(t, s, &f, 4, 4, ground)
		}
		twinOnTop()
		topmost := followTest(t, b, Window{Title: "leaf", Class: "Painter"}, image.Rectangle{})
		mustBe(t, topmost, &f, 0, 0, red)
		painter.Destroy(first)
		mustBe(t, s, &f, 0, 0, red)
		if s.Window().ID != uint64(second) {
			t.Errorf("it follows %d, want the twin %d", s.Window().ID, second)
		}
	})
}

// A window that is moved while it is read shows no part of what lies elsewhere: all of a picture is
// of the window.
func TestFollowMovedWhileRead(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		id, w := openLeaf(t, server, painter, b)
		s := followTest(t, b, w, image.Rectangle{})
		moved := make(chan struct{})
		go func() {
			defer close(moved)
			for i := range 200 {
				painter.Move(id, image.Pt(-150+5*i, 300-3*i))
			}
		}()
		var f Frame
		reads := 0
		for going := true; going; reads++ {
			select {
			case <-moved:
				going = false
			default:
			}
			if _, err := s.Grab(bounded(t), &f); err != nil {
				t.Fatal(err)
			}
			s.source.doubt() // look again, and read at once
			for _, p := range []image.Point{{0, 0}, {199, 0}, {0, 149}, {199, 149}, {100, 75}} {
				if f.Size != image.Pt(200, 150) || at(f, p.X, p.Y) != ground {
					t.Fatalf("read %d: %v at %v of %v", reads, at(f, p.X, p.Y), p, f.Size)
				}
			}
		}
	})
}

// While the server stands still, reading, listing and opening end when their context does, and go on
// by themselves.
func TestFollowOnAServerThatStandsStill(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480})
	painter, b := server.Painter(), openTest(t, server)
	id, w := openLeaf(t, server, painter, b)
	s := followTest(t, b, w, image.Rectangle{})
	var f Frame
	mustBe(t, s, &f, 0, 0, ground)
	server.Stop()
	s.source.doubt()
	for what, call := range map[string]func() error{
		"read": func() error { _, err := s.Grab(hurried(t), &f); return err },
		"list": func() error { _, err := b.(Follower).Windows(hurried(t)); return err },
		"open": func() error {
			_, err := b.(Follower).Follow(hurried(t), w, image.Rectangle{})
			return err
		},
		"find": func() error { _, _, err := b.(Follower).WindowAt(hurried(t), image.Pt(150, 100)); return err },
	} {
		begun := time.Now()
		if err := call(); !errors.Is(err, ErrNotAnswering) {
			t.Errorf("%s: %v", what, err)
		}
		if took := time.Since(begun); took > impatient+5*time.Second { // far less than for ever, on a loaded machine too
			t.Errorf("%s: it ended after %v", what, took)
		}
	}
	if at(f, 0, 0) != ground {
		t.Error("the last picture has gone")
	}
	server.Continue()
	painter.Paint(id, image.Rect(0, 0, 9, 9), 0xff0000)
	mustBe(t, s, &f, 8, 8, red)
}
