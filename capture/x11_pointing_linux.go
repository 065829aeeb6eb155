package capture

import (
	"context"
	"fmt"
	"image"
	"sync/atomic"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// Our choices. Who points at nothing for pointMost has gone, and must not find a desktop that
// answers to nobody; a menu whose button is still down has the pointer for a moment.
const (
	pointMost   = time.Minute
	pointRetry  = 20 * time.Millisecond
	pointTries  = 50
	releaseMost = 2 * time.Second // how long a button or key that decided may stay down
)

// Buttons and keys that decide. Sources: X11, appendix A "Keysym Encoding"; for the buttons
// common practice, no source.
const (
	buttonLeft, buttonRight = 1, 3
	keyReturn, keyEnter     = 0xff0d, 0xff8d
	keyEscape               = 0xff1b
)

// Point implements Pointer.
func (b *x11Backend) Point(ctx context.Context, over func(Window, bool), own ...uint64) (Window, error) {
	var session *x11Session
	err := b.onWindows(ctx, func(s *x11Session) error { session = s; return nil })
	if err != nil {
		return Window{}, fmt.Errorf("point at a window: %w", err)
	}
	var taken Window
	err = b.do(ctx, &b.pointing, func() error {
		p := &x11Pointing{x11Session: session, own: own, over: over, moved: make(chan struct{}, 1), lost: make(chan struct{}, 1), acts: make(chan xgb.Event, 64)}
		w, err := p.run(ctx)
		taken = w
		return err
	})
	switch {
	case err == nil:
		return taken, nil // on an error it may still be written to
	case ctx.Err() != nil:
		err = fmt.Errorf("%w: %w", ErrGivenUp, context.Cause(ctx))
	}
	return Window{}, fmt.Errorf("point at a window: %w", err)
}

// x11Pointing has the pointer and the keyboard while the painter points: nothing of what they do
// reaches another program. The server gives both back by itself when the connection ends.
type x11Pointing struct {
	*x11Session
	own  []uint64
	over func(Window, bool)

	moved chan struct{} // the pointer is at another place
	place atomic.Uint32 // that place, x before y, 16 bits each
	acts  chan xgb.Event
	lost  chan struct{} // the connection has ended

	outline x11Outline
	cursor  xproto.Cursor
	keys    map[xproto.Keycode]uint32 // those that decide, and what they mean
	held    map[xproto.Keycode]bool   // of them, those that were down at the beginning
	under   *Window                   // nil: none that could be taken
	told    bool                      // over has been called
}

// receive takes an event; it runs on the connection's goroutine.
func (p *x11Pointing) receive(event xgb.Event) {
	switch e := event.(type) {
	case nil:
		wake(p.lost)
	case xproto.MotionNotifyEvent:
		p.place.Store(uint32(uint16(e.RootX))<<16 | uint32(uint16(e.RootY)))
		wake(p.moved)
	case xproto.ButtonPressEvent, xproto.ButtonReleaseEvent, xproto.KeyPressEvent, xproto.KeyReleaseEvent:
		select {
		case p.acts <- event:
		default: // nobody presses so many at once
		}
	}
}

// run takes the pointer and the keyboard, lets the painter point, and gives both back.
func (p *x11Pointing) run(ctx context.Context) (Window, error) {
	defer p.conn.Subscribe(p.receive)()
	if err := p.prepare(); err != nil {
		return Window{}, err
	}
	defer p.giveBack()
	if err := p.take(ctx); err != nil {
		return Window{}, err
	}
	at, err := xproto.QueryPointer(p.conn.X, p.conn.Screen.Root).Reply()
	if err != nil {
		return Window{}, err
	}
	if err := p.look(image.Pt(int(at.RootX), int(at.RootY))); err != nil {
		return Window{}, err
	}
	return p.wait(ctx)
}

// prepare makes the cross and learns which keys decide.
func (p *x11Pointing) prepare() error {
	p.cursor = crossCursor(p.conn)
	first, last := p.conn.Setup.MinKeycode, p.conn.Setup.MaxKeycode
	mapping, err := xproto.GetKeyboardMapping(p.conn.X, first, byte(last-first+1)).Reply()
	if err != nil {
		return err
	}
	down, err := xproto.QueryKeymap(p.conn.X).Reply()
	if err != nil {
		return err
	}
	p.keys, p.held = map[xproto.Keycode]uint32{}, map[xproto.Keycode]bool{}
	for i, symbol := range mapping.Keysyms {
		if symbol == keyReturn || symbol == keyEnter || symbol == keyEscape {
			code := first + xproto.Keycode(i/int(mapping.KeysymsPerKeycode))
			p.keys[code], p.held[code] = uint32(symbol), isDown(down, code)
		}
	}
	return p.outline.make(p.conn)
}

// isDown reports whether a key is down. Source: X11, QueryKeymap.
func isDown(keys *xproto.QueryKeymapReply, code xproto.Keycode) bool {
	return int(code/8) < len(keys.Keys) && keys.Keys[code/8]&(1<<(code%8)) != 0
}

// crossCursor makes a cross of the server's own font of cursors; 0, the pointer as it is, where it
// has none. Source: X11, appendix "Cursor font" (crosshair is 34, its mask 35).
func crossCursor(c *xconn.Conn) xproto.Cursor {
	const name, crosshair, most = "cursor", 34, 0xffff
	font, err := xproto.NewFontId(c.X)
	if err != nil || xproto.OpenFontChecked(c.X, font, uint16(len(name)), name).Check() != nil {
		return 0
	}
	defer xproto.CloseFont(c.X, font)
	cursor, err := xproto.NewCursorId(c.X)
	if err != nil || xproto.CreateGlyphCursorChecked(c.X, cursor, font, font, crosshair, crosshair+1, 0, 0, 0, most, most, most).Check() != nil {
		return 0
	}
	return cursor
}

// take takes the pointer and the keyboard from everybody else.
func (p *x11Pointing) take(ctx context.Context) error {
	const mask = xproto.EventMaskButtonPress | xproto.EventMaskButtonRelease | xproto.EventMaskPointerMotion
	x, root := p.conn.X, p.conn.Screen.Root
	grabs := []func() (byte, error){
		func() (byte, error) {
			r, err := xproto.GrabPointer(x, false, root, mask, xproto.GrabModeAsync, xproto.GrabModeAsync, 0, p.cursor, xproto.TimeCurrentTime).Reply()
			if err != nil {
				return 0, err
			}
			return r.Status, nil
		},
		func() (byte, error) {
			r, err := xproto.GrabKeyboard(x, false, root, xproto.TimeCurrentTime, xproto.GrabModeAsync, xproto.GrabModeAsync).Reply()
			if err != nil {
				return 0, err
			}
			return r.Status, nil
		},
	}
	for _, grab := range grabs {
		for try := 1; ; try++ {
			status, err := grab()
			if err != nil {
				return err
			}
			if status == xproto.GrabStatusSuccess {
				break
			}
			if try == pointTries {
				return fmt.Errorf("status %d: %w", status, ErrPointerTaken)
			}
			select {
			case <-ctx.Done():
				return context.Cause(ctx)
			case <-time.After(pointRetry):
			}
		}
	}
	return nil
}

// giveBack gives back all that was taken, and waits until the server has done so.
func (p *x11Pointing) giveBack() {
	x := p.conn.X
	xproto.UngrabKeyboard(x, xproto.TimeCurrentTime)
	done := xproto.UngrabPointerChecked(x, xproto.TimeCurrentTime)
	p.outline.end()
	if p.cursor != 0 {
		xproto.FreeCursor(x, p.cursor)
	}
	_ = done.Check() // it fails only with the connection, and that gives all back
}

// wait follows the pointer until a button or key decides, and that has been let go: else the
// program below would get the end of it.
func (p *x11Pointing) wait(ctx context.Context) (Window, error) {
	idle := time.NewTimer(pointMost)
	defer idle.Stop()
	var decided func() (Window, error) // what was decided; nil as yet
	var until func(xgb.Event) bool     // reports whether the button or key has been let go
	for {
		select {
		case <-ctx.Done():
			return Window{}, context.Cause(ctx)
		case <-p.lost:
			return Window{}, xconn.ErrBroken
		case <-idle.C:
			if decided != nil {
				return decided()
			}
			return Window{}, ErrGivenUp
		case <-p.moved:
			if decided != nil {
				continue
			}
			idle.Reset(pointMost)
			at := p.place.Load()
			if err := p.look(image.Pt(int(int16(at>>16)), int(int16(at)))); err != nil {
				return Window{}, err
			}
		case event := <-p.acts:
			switch {
			case decided != nil && until(event):
				return decided()
			case decided == nil:
				var err error
				if decided, until, err = p.decide(event); err != nil {
					return Window{}, err
				}
				if decided != nil {
					idle.Reset(releaseMost)
				}
			}
		}
	}
}

// decide takes a press of a button or key; decided is nil where that decides nothing.
func (p *x11Pointing) decide(event xgb.Event) (decided func() (Window, error), until func(xgb.Event) bool, err error) {
	end := func() (Window, error) { return Window{}, ErrGivenUp }
	switch e := event.(type) {
	case xproto.ButtonPressEvent:
		until = func(event xgb.Event) bool {
			r, ok := event.(xproto.ButtonReleaseEvent)
			return ok && r.Detail == e.Detail
		}
		switch e.Detail {
		case buttonRight:
			return end, until, nil
		case buttonLeft:
			err = p.look(image.Pt(int(e.RootX), int(e.RootY)))
			return p.takes(), until, err
		}
	case xproto.KeyPressEvent:
		until = func(event xgb.Event) bool {
			r, ok := event.(xproto.KeyReleaseEvent)
			return ok && r.Detail == e.Detail && !p.repeats(e.Detail)
		}
		switch symbol := p.keys[e.Detail]; {
		case p.held[e.Detail]: // it chose this in a menu, and is still down
		case symbol == keyEscape:
			return end, until, nil
		case symbol != 0:
			return p.takes(), until, nil
		}
	case xproto.KeyReleaseEvent:
		if p.held[e.Detail] {
			p.held[e.Detail] = p.repeats(e.Detail)
		}
	}
	return nil, nil, err
}

// repeats reports whether a key of which a release was told is down all the same.
func (p *x11Pointing) repeats(code xproto.Keycode) bool {
	down, err := xproto.QueryKeymap(p.conn.X).Reply()
	return err == nil && isDown(down, code)
}

// takes returns what taking the window below the pointer comes to; nil where there is none.
func (p *x11Pointing) takes() func() (Window, error) {
	if p.under == nil {
		return nil
	}
	w := *p.under
	return func() (Window, error) { return w, nil }
}

// look sees which window lies at a place, outlines it and tells of it. Ours can't be taken.
func (p *x11Pointing) look(at image.Point) error {
	w, err := p.windowAt(at, p.own, false)
	if err != nil {
		if isGone(err) { // one that closed just now
			return nil
		}
		return err
	}
	same := w == p.under || w != nil && p.under != nil && *w == *p.under
	if p.told && same {
		return nil
	}
	p.told, p.under = true, w
	if w == nil {
		p.outline.hide()
		p.over(Window{}, false)
		return nil
	}
	bounds, err := p.bounds()
	if err != nil {
		return err
	}
	p.outline.show(w.Rect.Intersect(bounds))
	p.over(*w, true)
	return nil
}
