package xvfbtest

import (
	"image"
	"image/draw"
	"net/rpc"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"
)

// Painter is a client of a server, in a process of its own. Every call returns when
// the server has done it. Colours are pixels in the server's own format.
type Painter struct {
	t      testing.TB
	client *rpc.Client
}

// Painter starts a painter on the server; it ends with the test.
func (s *Server) Painter() *Painter {
	s.t.Helper()
	self, err := os.Executable()
	if err != nil {
		s.t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(s.Env(), painterVariable+"=1")
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	s.start(cmd)
	p := &Painter{t: s.t, client: rpc.NewClient(duplex{out, in})}
	s.t.Cleanup(func() { p.client.Close() })
	p.do("Begin", Order{})
	return p
}

// do sends an order, waits until it has been carried out and returns the number that
// comes of it.
func (p *Painter) do(name string, o Order) (number uint32) {
	p.t.Helper()
	call := p.client.Go("artist."+name, o, &number, nil)
	select {
	case <-call.Done:
	case <-time.After(startTime):
		p.t.Fatalf("painter, %s %+v: no answer", name, o)
	}
	if call.Error != nil {
		p.t.Fatalf("painter, %s: %v", name, call.Error)
	}
	return number
}

// Leave ends the painter, as a program that is closed.
func (p *Painter) Leave() { p.client.Close() }

// about is an order about a window.
func about(window uint32) Order { return Order{Window: xproto.Window(window)} }

// Fill paints r of the root window, and of what lies over it.
func (p *Painter) Fill(r image.Rectangle, pixel uint32) {
	p.t.Helper()
	p.do("Fill", Order{Box: r, Pixel: pixel})
}

// Point moves the pointer to a place of the screen, with whatever is held down.
func (p *Painter) Point(at image.Point) {
	p.t.Helper()
	p.do("Point", Order{Box: image.Rectangle{Min: at, Max: at}})
}

// Window shows a window that is pixel all over, with its inside at r if nobody manages
// windows, and returns its id.
func (p *Painter) Window(r image.Rectangle, pixel uint32) uint32 {
	p.t.Helper()
	return p.do("Show", Order{Box: r, Pixel: pixel, Title: "window"})
}

// Open shows the window that an order describes: a box of one colour, by whom, inside which.
func (p *Painter) Open(o Order) uint32 {
	p.t.Helper()
	return p.do("Show", o)
}

// Paint paints a box of a window, counted from its inside's top left, but not its children.
func (p *Painter) Paint(window uint32, box image.Rectangle, pixel uint32) {
	p.t.Helper()
	p.do("Paint", Order{Window: xproto.Window(window), Box: box, Pixel: pixel})
}

// Resize asks for a window's inside to be of a size.
func (p *Painter) Resize(window uint32, size image.Point) {
	p.t.Helper()
	p.do("Resize", Order{Window: xproto.Window(window), Box: image.Rectangle{Max: size}})
}

// Hide takes a window off the screen without a word to its manager.
func (p *Painter) Hide(window uint32) { p.t.Helper(); p.do("Hide", about(window)) }

// Rename gives a window another title and class.
func (p *Painter) Rename(window uint32, title, class string) {
	p.t.Helper()
	p.do("Rename", Order{Window: xproto.Window(window), Title: title, Class: class})
}

// Bare shows a window that asks its manager for no frame.
func (p *Painter) Bare(r image.Rectangle, pixel uint32) uint32 {
	p.t.Helper()
	return p.do("Show", Order{Box: r, Pixel: pixel, Title: "bare window", Bare: true})
}

// Picture shows a window with img in it, which the server paints again by itself when
// it is uncovered, and returns its id. Only for servers of depth 24.
func (p *Painter) Picture(at image.Point, img image.Image, title string) uint32 {
	p.t.Helper()
	copied := rgba(img)
	return p.do("Show", Order{Box: copied.Rect.Add(at), Picture: copied, Title: title})
}

// Repaint changes the picture in a window that Picture made.
func (p *Painter) Repaint(window uint32, img image.Image) {
	p.t.Helper()
	p.do("Repaint", Order{Window: xproto.Window(window), Picture: rgba(img)})
}

// rgba copies img to the origin.
func rgba(img image.Image) *image.RGBA {
	b := img.Bounds()
	copied := image.NewRGBA(image.Rectangle{Max: b.Size()})
	draw.Draw(copied, copied.Rect, img, b.Min, draw.Src)
	return copied
}

// Move asks for a window's inside to be at a point.
func (p *Painter) Move(window uint32, at image.Point) {
	p.t.Helper()
	p.do("Move", Order{Window: xproto.Window(window), Box: image.Rectangle{Min: at}})
}

// Raise asks for a window to be above the others.
func (p *Painter) Raise(window uint32) { p.t.Helper(); p.do("Raise", about(window)) }

// Iconify minimises a window.
func (p *Painter) Iconify(window uint32) { p.t.Helper(); p.do("Iconify", about(window)) }

// Show maps a window again.
func (p *Painter) Show(window uint32) { p.t.Helper(); p.do("Map", about(window)) }

// Close asks the program that a window belongs to to close it.
func (p *Painter) Close(window uint32) { p.t.Helper(); p.do("Close", about(window)) }

// Destroy ends a window.
func (p *Painter) Destroy(window uint32) { p.t.Helper(); p.do("Destroy", about(window)) }

// Grab keeps the server for this painter: others get no answer until Ungrab.
func (p *Painter) Grab() { p.t.Helper(); p.do("Grab", Order{}) }

// Ungrab ends a Grab.
func (p *Painter) Ungrab() { p.t.Helper(); p.do("Ungrab", Order{}) }

// Flood sends n events about the root window to everybody who watches it.
func (p *Painter) Flood(n int) { p.t.Helper(); p.do("Flood", Order{Times: n}) }

// Ping asks the program that a window belongs to for a sign of life, and returns how long it
// took, at most so long. A window that is gone is an error, not the test's failure.
func (p *Painter) Ping(window uint32, most time.Duration) (time.Duration, error) {
	var took uint32
	call := p.client.Go("artist.Ping", Order{Window: xproto.Window(window), Times: int(most.Milliseconds())}, &took, nil)
	select {
	case <-call.Done:
	case <-time.After(startTime):
		p.t.Fatal("painter, Ping: no answer")
	}
	return time.Duration(took) * time.Millisecond, call.Error
}
