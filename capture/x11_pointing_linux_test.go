package capture

import (
	"context"
	"errors"
	"image"
	"strconv"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// pointTest is a painter who points.
type pointTest struct {
	t      *testing.T
	server *xvfbtest.Server
	seen   chan string // the titles under the pointer; "" for no window
	ended  chan error
	taken  Window
	cancel func()
}

// pointOn begins pointing.
func pointOn(t *testing.T, server *xvfbtest.Server, b Backend, own ...uint64) *pointTest {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	p := &pointTest{t: t, server: server, seen: make(chan string, 100), ended: make(chan error, 1), cancel: cancel}
	t.Cleanup(cancel)
	go func() {
		w, err := b.(Pointer).Point(ctx, func(w Window, found bool) {
			if found != (w.ID != 0) {
				t.Errorf("found %v, and the window is %+v", found, w)
			}
			p.seen <- w.Title
		}, own...)
		p.taken = w
		p.ended <- err
	}()
	return p
}

// until waits until a window is under the pointer.
func (p *pointTest) until(title string) {
	p.t.Helper()
	for {
		select {
		case got := <-p.seen:
			if got == title {
				return
			}
		case err := <-p.ended:
			p.t.Fatalf("it ended with %v before %q was under the pointer", err, title)
		case <-time.After(20 * time.Second):
			p.t.Fatalf("waited in vain for %q under the pointer", title)
		}
	}
}

// end waits for the end.
func (p *pointTest) end() error {
	p.t.Helper()
	select {
	case err := <-p.ended:
		return err
	case <-time.After(20 * time.Second):
		p.t.Fatal("it doesn't end")
		return nil
	}
}

func (p *pointTest) do(args ...string) { p.t.Helper(); p.server.Run("xdotool", args...) }

func (p *pointTest) move(to image.Point) {
	p.t.Helper()
	p.do("mousemove", strconv.Itoa(to.X), strconv.Itoa(to.Y))
}

// A window is taken by a click or Enter and given up by Esc or the right button; the painting
// program hears nothing of it, and afterwards pointer and keyboard are free.
func TestPoint(t *testing.T) {
	for _, tt := range []struct {
		name string
		act  []string
		want error
	}{
		{"click", []string{"click", "1"}, nil},
		{"enter", []string{"key", "Return"}, nil},
		{"enter of the number pad", []string{"key", "KP_Enter"}, nil},
		{"escape", []string{"key", "Escape"}, ErrGivenUp},
		{"right button", []string{"click", "3"}, ErrGivenUp},
		{"other buttons and keys come first", []string{"click", "2", "click", "4", "key", "a", "key", "Return"}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
				painter, b := server.Painter(), openTest(t, server)
				id, w := openLeaf(t, server, painter, b)
				painter.Listen(id)
				p := pointOn(t, server, b)
				p.move(w.Rect.Min.Add(image.Pt(50, 50)))
				p.until("leaf")
				before := painter.Heard()
				p.do(tt.act...)
				if err := p.end(); !errors.Is(err, tt.want) || err == nil && p.taken.ID != uint64(id) {
					t.Errorf("it ends with %v and takes %+v, want %v and window %d", err, p.taken, tt.want, id)
				}
				if heard := painter.Heard() - before; heard != 0 {
					t.Errorf("the painting program hears %d of the buttons and keys", heard)
				}
				if !painter.Takes() {
					t.Error("pointer or keyboard are not free")
				}
				p.do("click", "1")
				if heard := painter.Heard() - before; heard != 2 {
					t.Errorf("of a click afterwards it hears %d, want 2: press and release", heard)
				}
			})
		})
	}
}

// While the button that takes the window is down nothing is given back: its release would
// reach the painting program.
func TestPointWaitsForTheRelease(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})
	painter, b := server.Painter(), openTest(t, server)
	id, w := openLeaf(t, server, painter, b)
	painter.Listen(id)
	for _, way := range [][2][]string{{{"mousedown", "1"}, {"mouseup", "1"}}, {{"keydown", "Return"}, {"keyup", "Return"}}} {
		p := pointOn(t, server, b)
		p.move(w.Rect.Min.Add(image.Pt(50, 50)))
		p.until("leaf")
		p.do(way[0]...)
		if painter.Takes() {
			t.Errorf("%v: given back with the button down", way[0])
		}
		p.do(way[1]...)
		if err := p.end(); err != nil || p.taken.ID != uint64(id) {
			t.Errorf("%v: ends with %v, %+v", way, err, p.taken)
		}
		if painter.Heard() != 0 {
			t.Errorf("%v: the painting program hears %d", way, painter.Heard())
		}
	}
}

// The window below the pointer is outlined, by light and dark lines, and no longer elsewhere.
func TestPointOutlines(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})
	painter, b := server.Painter(), openTest(t, server)
	for i, o := range []xvfbtest.Order{leaf, {Box: image.Rect(400, 300, 900, 700), Pixel: 0xffffff, Title: "bark", Class: "Painter"}} {
		painter.Open(o)
		server.WaitFor("the window", func() bool { return len(listWindows(t, b)) == i+1 })
	}
	screen := openRegion(t, b, image.Rectangle{})
	p := pointOn(t, server, b)
	var f Frame
	dark, light := [3]byte{}, [3]byte{255, 255, 255}
	for _, tt := range []struct {
		title string
		to    image.Point
		seen  image.Rectangle // of the window, on the screen
	}{
		{"leaf", image.Pt(150, 120), image.Rect(100, 80, 300, 230)}, {"bark", image.Pt(700, 500), image.Rect(400, 300, 800, 600)},
	} {
		p.move(tt.to)
		p.until(tt.title)
		for _, corner := range []image.Point{tt.seen.Min, tt.seen.Max.Sub(image.Pt(1, 1))} {
			in := 1
			if corner != tt.seen.Min {
				in = -1
			}
			until(t, screen, &f, "the outline", func(err error) bool {
				return err == nil && at(f, corner.X, corner.Y) == dark && at(f, corner.X+outlineDark*in, corner.Y+outlineDark*in) == light && at(f, corner.X+(outlineDark+outlineLight)*in, corner.Y+20*in) == dark
			})
			if got := at(f, corner.X+12*in, corner.Y+12*in); got == dark {
				t.Errorf("%s: inside of the outline it shows %v", tt.title, got)
			}
		}
	}
	if got := at(f, 100, 80); got == dark {
		t.Error("the window before is still outlined")
	}
	p.move(image.Pt(20, 500))
	p.until("")
	until(t, screen, &f, "no outline on the ground", func(err error) bool { return err == nil && at(f, 400, 300) == light })
	p.do("click", "1", "key", "Return") // there is nothing to take
	p.do("key", "Escape")
	if err := p.end(); !errors.Is(err, ErrGivenUp) {
		t.Errorf("on the ground a click and Enter take %+v, %v", p.taken, err)
	}
}

// Our own window can't be taken, nor what lies below it.
func TestPointNeverTakesOurs(t *testing.T) {
	onBoth(t, func(t *testing.T, server *xvfbtest.Server) {
		painter, b := server.Painter(), openTest(t, server)
		openLeaf(t, server, painter, b)
		ours := leaf
		ours.Title = "ours"
		id := painter.Open(ours)
		painter.Raise(id)
		var at image.Point
		server.WaitFor("our window", func() bool {
			for _, w := range listWindows(t, b) {
				if w.ID == uint64(id) {
					at = w.Rect.Min.Add(image.Pt(100, 75))
				}
			}
			return at != image.Point{}
		})
		p := pointOn(t, server, b, uint64(id))
		p.move(at)
		p.until("")
		p.do("key", "Return")
		p.do("key", "Escape")
		if err := p.end(); !errors.Is(err, ErrGivenUp) {
			t.Errorf("it takes %+v, %v", p.taken, err)
		}
	})
}

// Pointer and keyboard are free again however it ends: given up by who asked, with the backend,
// or with the connection.
func TestPointEnds(t *testing.T) {
	for _, tt := range []struct {
		name string
		end  func(p *pointTest, b Backend)
		want error
	}{
		{"given up", func(p *pointTest, _ Backend) { p.cancel() }, ErrGivenUp},
		{"backend closed", func(_ *pointTest, b Backend) { b.Close() }, ErrClosed},
		{"display lost", func(p *pointTest, _ Backend) { p.server.Kill() }, ErrDisconnected},
	} {
		t.Run(tt.name, func(t *testing.T) {
			server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})
			painter, b := server.Painter(), openTest(t, server)
			_, w := openLeaf(t, server, painter, b)
			p := pointOn(t, server, b)
			p.move(w.Rect.Min.Add(image.Pt(50, 50)))
			p.until("leaf")
			if painter.Takes() {
				t.Error("pointer and keyboard are free while the painter points")
			}
			tt.end(p, b)
			if err := p.end(); !errors.Is(err, tt.want) {
				t.Errorf("it ends with %v, want %v", err, tt.want)
			}
			if tt.want != ErrDisconnected {
				server.WaitFor("pointer and keyboard", painter.Takes)
			}
		})
	}
}

// Another program that holds the pointer is waited for a moment, as long as a menu closes, and
// then told.
func TestPointerTaken(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})
	painter, b := server.Painter(), openTest(t, server)
	_, w := openLeaf(t, server, painter, b)
	painter.Hold()
	p := pointOn(t, server, b)
	if err := p.end(); !errors.Is(err, ErrPointerTaken) {
		t.Errorf("it ends with %v", err)
	}
	painter.Drop()
	p = pointOn(t, server, b)
	p.move(w.Rect.Min.Add(image.Pt(50, 50)))
	p.until("leaf")
	p.cancel()
	_ = p.end()
}

// A server that stands still holds up nobody who gives up.
func TestPointOnAServerThatStandsStill(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})
	painter, b := server.Painter(), openTest(t, server)
	_, w := openLeaf(t, server, painter, b)
	p := pointOn(t, server, b)
	p.move(w.Rect.Min.Add(image.Pt(50, 50)))
	p.until("leaf")
	server.Stop()
	p.cancel()
	if err := p.end(); !errors.Is(err, ErrGivenUp) {
		t.Errorf("it ends with %v", err)
	}
	server.Continue()
	server.WaitFor("pointer and keyboard", painter.Takes)
}
