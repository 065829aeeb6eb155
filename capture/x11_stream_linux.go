package capture

import (
	"context"
	"errors"
	"fmt"
	"image"
	"slices"
	"time"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// x11CheckTime is how long a stream believes the server that nothing else has changed: then
// the whole picture is read, in case a driver painted something and didn't tell. Our choice: a
// painter who misses a stroke looks again after about that time.
const x11CheckTime = 2 * time.Second

// x11Stream reads a source. Two pictures take turns: the server fills the back one while the
// front one is what the last change handed out. Only what has changed is read.
type x11Stream struct {
	*x11Session
	backend *x11Backend
	source  x11Source
	tokens  <-chan struct{}
	line    xconn.Line   // makes the requests; what follows is the running one's
	fetch   func() error // s.look, bound once so that a grab allocates nothing for it
	shared  bool         // shared memory works
	images  [2]x11Image
	back    int             // index of the picture to be filled
	behind  image.Rectangle // where the back picture lacks what the front one has
	plain   [2][]byte       // the pictures as BGRX, where the format needs it
	next    Frame           // what the last request found new; Pix nil: nothing
	unsure  bool            // what has changed was asked for, and what came of it got lost
	checked time.Time       // when all was last read
}

func newX11Stream(b *x11Backend, session *x11Session, source x11Source, tokens <-chan struct{}) *x11Stream {
	s := &x11Stream{x11Session: session, backend: b, source: source, tokens: tokens, shared: session.conn.Has(xconn.SHM)}
	s.fetch = s.look
	return s
}

// Changes implements Notifier.
func (s *x11Stream) Changes() <-chan struct{} { return s.tokens }

// Grab implements Stream. Errors wrap ErrGone, ErrNotAnswering, ErrDisconnected or
// ErrClosed.
func (s *x11Stream) Grab(ctx context.Context, f *Frame) (bool, error) {
	if err := s.backend.do(ctx, &s.line, s.fetch); err != nil {
		return false, fmt.Errorf("grab %v: %w", s.source, err)
	}
	s.unsure = false
	if s.next.Pix == nil {
		return false, nil
	}
	*f = s.next
	s.back = 1 - s.back
	return true, nil
}

// look reads the source, and puts what is new into next. It runs on the line to its
// end: who closes the line takes the memory, and must not do so under our eyes.
func (s *x11Stream) look() error {
	s.next = Frame{}
	whole := s.unsure || time.Since(s.checked) >= x11CheckTime
	s.unsure = true // until Grab has got the outcome
	aim, changed, err := s.fill(whole)
	if err != nil || changed.Empty() {
		return err
	}
	back := &s.images[s.back]
	s.next = Frame{Pix: s.bgrx(back), Stride: 4 * aim.rect.Dx(), Size: aim.rect.Size(), Layout: BGRX, Origin: aim.origin, At: time.Now()}
	if s.comparable(aim) {
		s.next.Changed = changed
	}
	s.behind = changed
	return nil
}

// comparable says whether the front picture shows the same pixels of the source.
func (s *x11Stream) comparable(aim x11Aim) bool {
	front := &s.images[1-s.back]
	return front.raw != nil && front.rect == aim.rect && front.format == aim.format
}

// bgrx returns the back picture's pixels as BGRX rows without gaps.
func (s *x11Stream) bgrx(back *x11Image) []byte {
	w, h := back.rect.Dx(), back.rect.Dy()
	if back.format.direct {
		return back.raw // four bytes a pixel: no gaps, whatever the padding
	}
	buf := slices.Grow(s.plain[s.back][:0], 4*w*h)[:4*w*h]
	s.plain[s.back] = buf
	back.format.convert(buf, back.raw, w, h)
	return buf
}

// fill brings the back picture up to date and returns what differs from the front one, from
// the picture's top left.
func (s *x11Stream) fill(whole bool) (aim x11Aim, changed image.Rectangle, err error) {
	for try := 0; ; try++ {
		if aim, err = s.source.aim(); err != nil {
			return aim, changed, err
		}
		changed, err = s.update(aim, whole)
		if err == nil {
			return aim, changed, nil
		}
		whole = true // what had changed is known no more
		switch {
		case vanished(err) && try == 0:
			s.source.doubt() // it has shrunk or gone and the notice is still under way
		case vanished(err):
			return aim, changed, fmt.Errorf("%w: %w", ErrGone, err)
		case !s.conn.Alive():
			return aim, changed, fmt.Errorf("%w: %w", xconn.ErrBroken, err)
		case s.shared && !errors.Is(err, xconn.ErrBroken):
			s.shared = false // from now on over the wire
		default:
			return aim, changed, err
		}
	}
}

// vanished says whether err is the server's word that there is no such picture.
func vanished(err error) bool {
	var (
		match    xproto.MatchError
		drawable xproto.DrawableError
	)
	return errors.As(err, &match) || errors.As(err, &drawable)
}

// update reads what has changed, or the whole, into the back picture.
func (s *x11Stream) update(aim x11Aim, whole bool) (changed image.Rectangle, err error) {
	front, back := &s.images[1-s.back], &s.images[s.back]
	all := image.Rectangle{Max: aim.rect.Size()}
	known := s.comparable(aim)
	if whole || !known || back.raw == nil || back.rect != aim.rect || back.format != aim.format {
		if aim.changed.Empty() && known && !whole {
			return changed, nil
		}
		if err := back.read(s.conn, s.source, aim, s.shared); err != nil {
			return all, err
		}
		s.checked, s.behind = time.Now(), image.Rectangle{}
		if !known {
			return all, nil
		}
		return aim.format.differ(front.raw, back.raw, all.Max.X, all), nil
	}
	if aim.changed.Empty() {
		return changed, nil
	}
	back.copyFrom(front, s.behind)
	s.behind = image.Rectangle{}
	box, err := back.patch(s.conn, s.source, aim.changed.Sub(aim.rect.Min), s.shared)
	if err != nil {
		return all, err
	}
	return aim.format.differ(front.raw, back.raw, all.Max.X, box), nil
}

// Close implements Stream. It doesn't wait: a request that hangs keeps its memory
// until it has returned.
func (s *x11Stream) Close() error {
	s.line.Close(s.release)
	return nil
}

// release gives the memory back. No request is running.
func (s *x11Stream) release() {
	s.source.release()
	for i := range s.images {
		s.images[i].detach(s.conn)
	}
}
