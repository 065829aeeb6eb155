package capture

import (
	"errors"
	"fmt"
	"image"
	"strconv"
	"sync/atomic"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/composite"
	"github.com/jezek/xgb/damage"
	"github.com/jezek/xgb/xproto"
)

// x11WindowStream is a stream of a window.
type x11WindowStream struct {
	*x11Stream
	source *x11Window
}

// Window implements WindowStream.
func (s *x11WindowStream) Window() Window { return *s.source.seen.Load() }

// x11Window is a window to be read, or what one is known by while there is none. The server
// keeps a redirected window's picture whole in memory, whatever lies over it, and still shows it
// as always. Source: X Composite 0.4. Its name is given anew for every read, as each new size
// and each showing has another picture.
type x11Window struct {
	*x11Session
	part   image.Rectangle // of the inside; empty: all of it
	own    []uint64
	pixmap xproto.Pixmap // our number for the picture, while it is read

	seen    atomic.Pointer[Window]     // what it is, or was
	held    atomic.Pointer[x11Holding] // nil: none is there
	tokens  chan struct{}
	deafens func() // ends the subscription
}

func newX11Window(s *x11Session, wanted Window, part image.Rectangle, own []uint64) *x11Window {
	w := &x11Window{x11Session: s, part: part, own: own, tokens: make(chan struct{}, 1)}
	w.seen.Store(&wanted)
	w.deafens = s.conn.Subscribe(w.receive)
	return w
}

func (w *x11Window) String() string { return "window " + strconv.Quote(w.seen.Load().Title) }

// receive takes an event; it runs on the connection's goroutine.
func (w *x11Window) receive(event xgb.Event) {
	h := w.held.Load()
	if h == nil {
		w.receiveLost(event)
		return
	}
	told := false
	switch e := event.(type) {
	case nil:
		told = true
	case damage.NotifyEvent:
		told = h.damage.is(e)
	case xproto.ConfigureNotifyEvent:
		told = h.note(&h.moved, e.Window)
	case xproto.MapNotifyEvent:
		told = h.note(&h.moved, e.Window)
	case xproto.UnmapNotifyEvent:
		told = h.note(&h.moved, e.Window)
	case xproto.ReparentNotifyEvent:
		told = h.note(&h.moved, e.Window)
	case xproto.DestroyNotifyEvent:
		told = h.note(&h.ended, e.Window)
	case xproto.PropertyNotifyEvent:
		if e.Atom == w.atoms.name || e.Atom == w.atoms.state || e.Atom == xproto.AtomWmName {
			told = h.note(&h.renamed, e.Window)
		}
	}
	if told {
		wake(w.tokens)
	}
}

// receiveLost takes an event while no window is there.
func (w *x11Window) receiveLost(event xgb.Event) {
	switch e := event.(type) {
	case nil, xproto.MapNotifyEvent:
		wake(w.tokens)
	case xproto.PropertyNotifyEvent:
		if e.Window == w.conn.Screen.Root && e.Atom == w.atoms.clients {
			wake(w.tokens)
		}
	}
}

// aim implements x11Source.
func (w *x11Window) aim() (x11Aim, error) {
	for try := 0; ; try++ {
		h := w.held.Load()
		if h != nil && h.ended.Load() {
			w.letGo()
			h = nil
		}
		if h == nil {
			var err error
			if h, err = w.find(); err != nil {
				return x11Aim{}, err
			}
		}
		aim, err := w.look(h)
		switch {
		case err == nil || !isGone(err):
			return aim, err
		case try > 0:
			w.letGo()
			return aim, fmt.Errorf("%w: %w", ErrNoWindow, err)
		}
		w.letGo()
	}
}

// isGone says whether the server, or the convention, says that the window is no more.
func isGone(err error) bool {
	var (
		window   xproto.WindowError
		drawable xproto.DrawableError
		damaged  damage.BadDamageError
	)
	return errors.As(err, &window) || errors.As(err, &drawable) || errors.As(err, &damaged) || errors.Is(err, errWithdrawn)
}

// errWithdrawn: the window is there, and its program neither shows nor minimises it.
var errWithdrawn = errors.New("window withdrawn")

// look asks what of the window has changed, and how it lies if it may have moved.
func (w *x11Window) look(h *x11Holding) (aim x11Aim, err error) {
	changed := h.damage.ask()
	if h.moved.Swap(false) || h.renamed.Load() {
		if err := w.locate(h); err != nil {
			h.moved.Store(true)
			return aim, err
		}
	}
	box, err := changed.box(everywhere)
	if err != nil {
		return aim, err
	}
	return w.aimAt(h, box)
}

// locate learns the window's place, title and state anew.
func (w *x11Window) locate(h *x11Holding) error {
	renamed := h.renamed.Swap(false)
	geometry := xproto.GetGeometry(w.conn.X, xproto.Drawable(h.id))
	about, err := w.about(w.describe(h.id))
	g, failed := geometry.Reply()
	if err == nil {
		err = failed
	}
	switch {
	case err != nil:
		h.renamed.Store(renamed)
		return err
	case !about.viewable && !about.Minimised:
		return errWithdrawn
	}
	about.Minimised = !about.viewable
	about.Alike = w.seen.Load().Alike
	w.seen.Store(&about.Window)
	if !about.viewable {
		return ErrMinimised
	}
	h.inside, h.border = about.Rect, int(g.BorderWidth)
	return nil
}

// aimAt returns what is to be read of the window, which changed in box, in the pixels of its
// picture.
func (w *x11Window) aimAt(h *x11Holding, box image.Rectangle) (x11Aim, error) {
	rect := image.Rectangle{Max: h.inside.Size()}
	if !w.part.Empty() {
		rect = w.part.Intersect(rect)
	}
	if rect.Empty() {
		return x11Aim{}, fmt.Errorf("part %v of a window of %v: %w", w.part, h.inside.Size(), ErrPart)
	}
	bounds, err := w.bounds()
	if err != nil {
		return x11Aim{}, err
	}
	into := image.Pt(h.border, h.border)
	room := h.format.stride(bounds.Dx()) * bounds.Dy() // windows are seldom larger, and grow step by step
	return x11Aim{format: h.format, rect: rect.Add(into), origin: rect.Min.Add(h.inside.Min), changed: box.Intersect(rect).Add(into), room: room}, nil
}

// doubt implements x11Source.
func (w *x11Window) doubt() {
	if h := w.held.Load(); h != nil {
		h.moved.Store(true)
	}
}

// open implements x11Source. Where the window has no picture any more the read says so.
func (w *x11Window) open() xproto.Drawable {
	composite.NameWindowPixmap(w.conn.X, w.held.Load().id, w.pixmap)
	return xproto.Drawable(w.pixmap)
}

// done implements x11Source.
func (w *x11Window) done() { xproto.FreePixmap(w.conn.X, w.pixmap) }

// release implements x11Source.
func (w *x11Window) release() {
	w.deafens()
	w.letGo()
}
