package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"time"

	"app.tonedesk/capture/xconn"
	"github.com/jezek/xgb/xproto"
)

// x11Stream reads a region of the root window. Two pictures take turns: the server
// fills the back one while the front one is what the last change handed out.
type x11Stream struct {
	conn   *xconn.Conn
	root   *x11Root
	format *x11Format
	wanted image.Rectangle // root pixels; empty: the whole root
	line   xconn.Line      // makes the requests; what follows is the running one's
	fetch  func() error    // s.look, bound once so that a grab allocates nothing for it
	shared bool            // shared memory works
	images [2]x11Image
	back   int // index of the picture to be filled

	plain  [2][]byte // the pictures as BGRX, where the format needs it
	next   Frame     // what the last request found new, but for Seq; Pix nil: nothing
	region image.Rectangle
	seq    uint64
	forget func() // tells the backend that the stream is closed; nil while it opens
}

// openX11Stream attaches the memory and checks that region can be read. It makes
// requests, so it may hang.
func openX11Stream(c *xconn.Conn, root *x11Root, f *x11Format, region image.Rectangle) (*x11Stream, error) {
	s := &x11Stream{conn: c, root: root, format: f, wanted: region, shared: c.Has(xconn.SHM)}
	s.fetch = s.look
	bounds, err := root.ask()
	if err != nil {
		return nil, err
	}
	if s.region = s.clip(bounds); s.region.Empty() {
		return nil, fmt.Errorf("region %v on a desktop of %v: %w", region, bounds, ErrOutside)
	}
	for i := range s.images {
		if err := s.prepare(&s.images[i], bounds); err != nil {
			s.release()
			return nil, err
		}
	}
	return s, nil
}

// prepare attaches memory for img, or finds that there is none to share.
func (s *x11Stream) prepare(img *x11Image, bounds image.Rectangle) error {
	if !s.shared {
		return nil
	}
	err := img.attach(s.conn, s.room(bounds))
	if errors.Is(err, errNoSharing) {
		s.shared, err = false, nil
	}
	return err
}

// clip returns the part of the region that lies on the root.
func (s *x11Stream) clip(bounds image.Rectangle) image.Rectangle {
	if s.wanted.Empty() {
		return bounds
	}
	return s.wanted.Intersect(bounds)
}

// room returns the bytes of a picture of the whole root, which no region exceeds.
func (s *x11Stream) room(bounds image.Rectangle) int {
	return s.format.stride(bounds.Dx()) * bounds.Dy()
}

// Grab implements Stream. Errors wrap ErrGone, ErrNotAnswering, ErrDisconnected or
// ErrClosed.
func (s *x11Stream) Grab(ctx context.Context, f *Frame) (bool, error) {
	if err := ctx.Err(); err != nil {
		return false, fmt.Errorf("grab: %w", err)
	}
	if err := s.line.Do(ctx, s.fetch); err != nil {
		return false, fmt.Errorf("grab %v: %w", s.wanted, x11Error(err))
	}
	if s.next.Pix == nil {
		return false, nil
	}
	s.seq++
	s.region = image.Rectangle{Max: s.next.Size}.Add(s.next.Origin)
	*f = s.next
	f.Seq = s.seq
	s.back = 1 - s.back
	return true, nil
}

// look reads the region, and puts what is new into next. It runs on the line to its
// end: who closes the line takes the memory, and must not do so under our eyes.
func (s *x11Stream) look() error {
	s.next = Frame{}
	if err := s.fill(); err != nil {
		return err
	}
	front, back := &s.images[1-s.back], &s.images[s.back]
	rect := back.rect
	if front.raw != nil && front.rect == rect && s.format.same(front.raw, back.raw, rect.Dx(), rect.Dy()) {
		return nil
	}
	at := time.Now()
	s.next = Frame{Pix: s.bgrx(back), Stride: 4 * rect.Dx(), Size: rect.Size(), Layout: BGRX, Origin: rect.Min, At: at}
	return nil
}

// bgrx returns the back picture's pixels as BGRX rows without gaps.
func (s *x11Stream) bgrx(back *x11Image) []byte {
	w, h := back.rect.Dx(), back.rect.Dy()
	if s.format.direct {
		return back.raw // four bytes a pixel: no gaps, whatever the padding
	}
	buf := s.plain[s.back]
	if cap(buf) < 4*w*h {
		buf = make([]byte, 4*w*h)
	}
	buf = buf[:4*w*h]
	s.plain[s.back] = buf
	s.format.convert(buf, back.raw, w, h)
	return buf
}

// fill reads the region into the back picture. It runs on the line.
func (s *x11Stream) fill() error {
	back := &s.images[s.back]
	for try := 0; ; try++ {
		bounds, err := s.root.bounds()
		if err != nil {
			return err
		}
		rect := s.clip(bounds)
		if rect.Empty() {
			return fmt.Errorf("%w: nothing of it is on the desktop of %v", ErrGone, bounds)
		}
		err = back.read(s.conn, s.format, rect, s.room(bounds), s.shared)
		if err == nil {
			return nil
		}
		var mismatch xproto.MatchError
		switch {
		case errors.As(err, &mismatch) && try == 0:
			s.root.changed() // the desktop has shrunk and the notice is still under way
		case errors.As(err, &mismatch):
			return fmt.Errorf("%w: %w", ErrGone, err)
		case s.shared && s.conn.Alive() && !errors.Is(err, xconn.ErrBroken):
			s.shared = false // from now on over the wire
		default:
			return err
		}
	}
}

// Region implements Stream.
func (s *x11Stream) Region() image.Rectangle { return s.region }

// Close implements Stream. It doesn't wait: a request that hangs keeps its memory
// until it has returned.
func (s *x11Stream) Close() error {
	if s.forget != nil {
		s.forget()
	}
	s.line.Close(s.release)
	return nil
}

// release gives the memory back. No request is running.
func (s *x11Stream) release() {
	for i := range s.images {
		s.images[i].detach(s.conn)
	}
}
