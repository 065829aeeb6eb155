package capture

import (
	"fmt"
	"image"
	"sync/atomic"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/damage"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// x11Source is what a stream reads. All of it runs on the stream's line, and may hang.
type x11Source interface {
	fmt.Stringer
	// aim says what there is to read now, and what of it has changed since the last aim.
	aim() (x11Aim, error)
	// doubt has the next aim believe nothing that it was told before.
	doubt()
	// open gives the drawable to read from, and done lets it go.
	open() xproto.Drawable
	done()
	// release gives back what the source holds.
	release()
}

// x11Aim says what to read.
type x11Aim struct {
	format  *x11Format
	rect    image.Rectangle // pixels of the drawable
	origin  image.Point     // rect's top left, desktop pixels
	changed image.Rectangle // the smallest box around what of rect has changed
	room    int             // bytes that will do for what may be to read later
}

// wake gives a token unless one waits.
func wake(tokens chan<- struct{}) {
	select {
	case tokens <- struct{}{}:
	default:
	}
}

// x11Region is a region of the root window.
type x11Region struct {
	*x11Session
	wanted  image.Rectangle // root pixels; empty: the whole root
	damage  atomic.Pointer[x11Damage]
	begun   bool // damage has been tried
	tokens  chan struct{}
	deafens func() // ends the subscription
}

func newX11Region(s *x11Session, wanted image.Rectangle) *x11Region {
	r := &x11Region{x11Session: s, wanted: wanted, tokens: make(chan struct{}, 1)}
	r.deafens = s.conn.Subscribe(r.receive)
	return r
}

// receive takes an event; it runs on the connection's goroutine.
func (r *x11Region) receive(event xgb.Event) {
	switch e := event.(type) {
	case damage.NotifyEvent:
		if r.damage.Load().is(e) {
			wake(r.tokens)
		}
	case xproto.ConfigureNotifyEvent:
		if e.Window == r.conn.Screen.Root {
			wake(r.tokens)
		}
	case nil:
		wake(r.tokens)
	}
}

func (r *x11Region) String() string { return r.wanted.String() }

// aim implements x11Source.
func (r *x11Region) aim() (x11Aim, error) {
	if !r.begun {
		d, err := newX11Damage(r.x11Session, r.conn.Screen.Root)
		if err != nil && !r.conn.Alive() {
			return x11Aim{}, fmt.Errorf("%w: %w", xconn.ErrBroken, err)
		}
		r.begun = true // where it failed everything counts as changed
		r.damage.Store(d)
	}
	changed := r.damage.Load().ask()
	bounds, err := r.bounds()
	if err != nil {
		return x11Aim{}, err
	}
	rect := bounds
	if !r.wanted.Empty() {
		rect = r.wanted.Intersect(bounds)
	}
	if rect.Empty() {
		return x11Aim{}, fmt.Errorf("%w: nothing of it is on the desktop of %v", ErrGone, bounds)
	}
	box, err := changed.box(rect)
	if err != nil {
		return x11Aim{}, err
	}
	room := r.format.stride(bounds.Dx()) * bounds.Dy() // no region needs more
	return x11Aim{format: r.format, rect: rect, origin: rect.Min, changed: box, room: room}, nil
}

func (r *x11Region) doubt()                { r.stale.Store(true) }
func (r *x11Region) open() xproto.Drawable { return xproto.Drawable(r.conn.Screen.Root) }
func (r *x11Region) done()                 {}

func (r *x11Region) release() {
	r.deafens()
	r.damage.Load().end()
}
