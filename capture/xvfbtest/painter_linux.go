package xvfbtest

import (
	"bufio"
	"fmt"
	"image"
	"io"
	"os"
	"os/exec"
	"testing"
	"time"
)

const painterVariable = "TONEDESK_TEST_PAINTER" // 1: this test binary is to be a painter

// A test binary that was started as a painter paints, before it gets to its tests: an
// init needs no line in each package's TestMain that could be forgotten, and forgetting
// it would run the tests again and again.
func init() {
	if os.Getenv(painterVariable) == "1" {
		os.Exit(paintAll(os.Stdin, os.Stdout))
	}
}

// Painter is a client of a server, in a process of its own. Every call returns when
// the server has done it. Colours are pixels in the server's own format.
type Painter struct {
	t      testing.TB
	p      *process
	in     io.WriteCloser
	out    *bufio.Reader
	outEnd *os.File
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
	read, write, err := os.Pipe()
	if err != nil {
		s.t.Fatal(err)
	}
	cmd.Stdout = write
	p, err := run(cmd)
	write.Close()
	if err != nil {
		s.t.Fatalf("start a painter: %v", err)
	}
	painter := &Painter{t: s.t, p: p, in: in, out: bufio.NewReader(read), outEnd: read}
	s.t.Cleanup(func() {
		in.Close()
		p.end()
		read.Close()
	})
	painter.do("hello")
	return painter
}

// do sends an order, waits for the answer and returns its number.
func (p *Painter) do(format string, args ...any) (number uint32) {
	p.t.Helper()
	order := fmt.Sprintf(format, args...)
	if err := p.outEnd.SetReadDeadline(time.Now().Add(startTime)); err != nil {
		p.t.Fatal(err)
	}
	if _, err := fmt.Fprintln(p.in, order); err != nil {
		p.t.Fatalf("painter, %s: %v", order, err)
	}
	answer, err := p.out.ReadString('\n')
	if err != nil {
		p.t.Fatalf("painter, %s: %v", order, err)
	}
	if _, err := fmt.Sscanf(answer, "ok %d", &number); err != nil {
		p.t.Fatalf("painter, %s: %s", order, answer)
	}
	return number
}

// Fill paints r of the root window, and of what lies over it.
func (p *Painter) Fill(r image.Rectangle, pixel uint32) {
	p.t.Helper()
	p.do("fill %d %d %d %d %d", r.Min.X, r.Min.Y, r.Dx(), r.Dy(), pixel)
}

// Window shows a window that is pixel all over, with its inside at r if nobody manages
// windows, and returns its id.
func (p *Painter) Window(r image.Rectangle, pixel uint32) uint32 {
	p.t.Helper()
	return p.do("window %d %d %d %d %d", r.Min.X, r.Min.Y, r.Dx(), r.Dy(), pixel)
}

// Bare shows a window that asks its manager for no frame.
func (p *Painter) Bare(r image.Rectangle, pixel uint32) uint32 {
	p.t.Helper()
	return p.do("bare %d %d %d %d %d", r.Min.X, r.Min.Y, r.Dx(), r.Dy(), pixel)
}

// Picture shows a window with img in it, which the server paints again by itself when
// it is uncovered, and returns its id. Only for servers of depth 24.
func (p *Painter) Picture(at image.Point, img image.Image, title string) uint32 {
	p.t.Helper()
	path := p.t.TempDir() + "/picture.png"
	savePNG(p.t, path, img)
	return p.do("picture %d %d %q %q", at.X, at.Y, path, title)
}

// Repaint changes the picture in a window that Picture made.
func (p *Painter) Repaint(window uint32, img image.Image) {
	p.t.Helper()
	path := p.t.TempDir() + "/picture.png"
	savePNG(p.t, path, img)
	p.do("repaint %d %q", window, path)
}

// Move asks for a window's inside to be at a point.
func (p *Painter) Move(window uint32, at image.Point) {
	p.t.Helper()
	p.do("move %d %d %d", window, at.X, at.Y)
}

// Raise asks for a window to be above the others.
func (p *Painter) Raise(window uint32) { p.t.Helper(); p.do("raise %d", window) }

// Iconify minimises a window; Show brings it back; Destroy ends it.
func (p *Painter) Iconify(window uint32) { p.t.Helper(); p.do("iconify %d", window) }

// Show maps a window again.
func (p *Painter) Show(window uint32) { p.t.Helper(); p.do("show %d", window) }

// Destroy ends a window.
func (p *Painter) Destroy(window uint32) { p.t.Helper(); p.do("destroy %d", window) }

// Grab keeps the server for this painter: others get no answer until Ungrab.
func (p *Painter) Grab() { p.t.Helper(); p.do("grab") }

// Ungrab ends a Grab.
func (p *Painter) Ungrab() { p.t.Helper(); p.do("ungrab") }

// Flood sends n events about the root window to everybody who watches it.
func (p *Painter) Flood(n int) { p.t.Helper(); p.do("flood %d", n) }
