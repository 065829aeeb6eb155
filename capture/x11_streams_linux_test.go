package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// grabOn grabs until stop says so of a frame, or an error comes, and reports that. It
// says once on ready that it is at work.
func grabOn(ctx context.Context, s Stream, ready chan<- bool, stop func(Frame) bool) error {
	var f Frame
	for n := 0; ; n++ {
		if _, err := s.Grab(ctx, &f); err != nil {
			return err
		}
		if n == 0 {
			ready <- true
		}
		if stop(f) {
			return nil
		}
	}
}

// twoReaders opens two streams and has both grab without a pause. It returns when both
// are at work; what each ends with comes over the channel.
func twoReaders(t *testing.T, b Backend, areas [2]image.Rectangle, stop func(i int, f Frame) bool) <-chan error {
	t.Helper()
	ctx, ends, ready := bounded(t), make(chan error, 2), make(chan bool, 2)
	for i, area := range areas {
		s, err := b.Open(ctx, area)
		if err != nil {
			t.Fatal(err)
		}
		go func() {
			err := grabOn(ctx, s, ready, func(f Frame) bool { return stop(i, f) })
			ends <- errors.Join(err, s.Close())
		}()
	}
	for range areas {
		select {
		case <-ready:
		case err := <-ends:
			t.Fatalf("a stream ended before it began: %v", err)
		}
	}
	return ends
}

var halves = [2]image.Rectangle{image.Rect(0, 0, 320, 480), image.Rect(320, 0, 640, 480)}

func never(int, Frame) bool { return false }

// Two streams read at once, each its own part, while others open.
func TestX11TwoStreams(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	b := openTest(t, server)
	colours := [2][3]byte{{0x12, 0x34, 0x56}, {0x65, 0x43, 0x21}}
	last := [2][3]byte{{0xff, 0x01, 0x02}, {0x03, 0xff, 0x04}}
	fill := func(i int, c [3]byte) {
		painter.Fill(halves[i], uint32(c[0])<<16|uint32(c[1])<<8|uint32(c[2]))
	}
	fill(0, colours[0])
	fill(1, colours[1])
	strange := make(chan string, 2)
	ends := twoReaders(t, b, halves, func(i int, f Frame) bool {
		first, end := at(f, 0, 0), at(f, 319, 479)
		known := func(c [3]byte) bool { return c == colours[i] || c == last[i] }
		if f.Origin != halves[i].Min || !known(first) || !known(end) {
			strange <- fmt.Sprintf("stream %d at %v shows %v and %v", i, f.Origin, first, end)
			return true
		}
		return first == last[i] && end == last[i]
	})
	for range 20 {
		var f Frame
		third := openRegion(t, b, image.Rect(310, 0, 330, 10)) // over both
		grab(t, third, &f, true)
		if at(f, 9, 9) != colours[0] || at(f, 10, 9) != colours[1] {
			t.Errorf("across the middle: %v %v", at(f, 9, 9), at(f, 10, 9))
		}
		third.Close()
	}
	fill(0, last[0])
	fill(1, last[1])
	for range halves {
		if err := <-ends; err != nil {
			t.Error(err)
		}
	}
	select {
	case s := <-strange:
		t.Error(s)
	default:
	}
}

// A change in one stream's region is none in another's.
func TestX11StreamsChangeApart(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	painter.Fill(image.Rect(0, 0, 640, 480), 0x808080)
	b := openTest(t, server)
	left, right := openRegion(t, b, halves[0]), openRegion(t, b, halves[1])
	var f Frame
	grab(t, left, &f, true)
	grab(t, right, &f, true)
	painter.Fill(image.Rect(319, 479, 320, 480), 0x808081) // one pixel, one step of blue
	grab(t, right, &f, false)
	grab(t, left, &f, true)
	if got := at(f, 319, 479); got != [3]byte{0x80, 0x80, 0x81} {
		t.Errorf("the last pixel reads %v", got)
	}
}

// The server dies under two streams at work: both say so, and nothing hangs.
func TestX11KilledAtWork(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	ends := twoReaders(t, openTest(t, server), halves, never)
	server.Kill()
	for range halves {
		if err := <-ends; !errors.Is(err, ErrDisconnected) || errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("killed at work: %v, want ErrDisconnected", err)
		}
	}
}

// The backend is closed under two streams at work: that is no lost connection.
func TestX11ClosedAtWork(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1920, Height: 1080})
	for range 10 {
		b := openTest(t, server)
		ends := twoReaders(t, b, [2]image.Rectangle{{}, {}}, never)
		b.Close()
		for range halves {
			if err := <-ends; !errors.Is(err, ErrClosed) {
				t.Errorf("closed at work: %v, want ErrClosed", err)
			}
		}
	}
}

// A question under way when the backend is closed was closed too.
func TestX11ClosedWhileAsked(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	b := openTest(t, server).(*x11Backend)
	asked, end, done := make(chan bool), make(chan error, 1), b.session.conn.Done()
	go func() {
		end <- b.do(bounded(t), &b.line, func() error {
			close(asked)
			<-done // as a reply that never comes
			return io.EOF
		})
	}()
	<-asked
	b.Close()
	if err := <-end; !errors.Is(err, ErrClosed) {
		t.Errorf("closed while asked: %v, want ErrClosed", err)
	}
}
