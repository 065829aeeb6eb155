package native

import (
	"context"
	"errors"
	"fmt"
	"image"
	"maps"
	"os"
	"slices"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// mostPressed bounds the presses that wait to be told of. Our choice: nobody is as fast.
const mostPressed = 64

// holding is who holds keys, if anybody does or did; only the line touches it.
var holding *keyHolder

// HoldKeys has these chords heard wherever the keyboard's focus is, until the next call or the
// program's end; without any, none is held. each says of every chord why it is not held, as
// ErrKeyHeld or ErrNoKey, nil where it is. failed says why none is: it wraps ErrWayland,
// ErrOtherDisplay or one of xconn's. The programs in front don't see these keys any more.
// Source: X Window System Protocol, X11R7.7, section 9 (GrabKey).
func HoldKeys(chords []Chord, hearer KeyHearer) (each []error, failed error) {
	return ask(1, func(c *xconn.Conn, _ xproto.Window) ([]error, error) { return holdKeys(c, keyWish{chords, hearer}) })
}

// holdKeys hands the wish to the one who holds keys on c, a new one if there is none. It runs on
// the line.
func holdKeys(c *xconn.Conn, wish keyWish) ([]error, error) {
	if c.IsXwayland(os.Getenv) {
		return nil, ErrWayland
	}
	if holding == nil || holding.ended() {
		if len(wish.chords) == 0 {
			return nil, nil
		}
		holding = newKeyHolder(c)
		go holding.run()
	}
	select {
	case holding.wishes <- wish:
	case <-holding.done: // nothing is held by it
		return nil, fmt.Errorf("hold keys: %w", xconn.ErrBroken)
	}
	select {
	case answer := <-holding.answers:
		return answer.each, answer.failed
	case <-holding.done:
		return nil, fmt.Errorf("hold keys: %w", xconn.ErrBroken)
	}
}

// keyWish is what is to be held, and who hears of it.
type keyWish struct {
	chords []Chord
	KeyHearer
}

// keyAnswer is what came of a wish.
type keyAnswer struct {
	each   []error
	failed error
}

// keyHolder holds keys of the whole desktop for this program, on a goroutine of its own that ends
// when none is wished for any more.
type keyHolder struct {
	conn    *xconn.Conn
	wishes  chan keyWish
	answers chan keyAnswer
	presses chan xgb.Event // presses and releases of what is held
	mapped  chan struct{}  // the keys have other meanings by now
	done    chan struct{}  // closed at the end
	cancel  func()         // ends the subscription

	// The rest is the goroutine's alone.
	wish  keyWish
	board keyboard
	grabs map[grab]int                        // what is held, for which chord
	up    map[xproto.Keycode]xproto.Timestamp // when a key was let go
}

// grab is a key with exactly these others held down.
type grab struct {
	code xproto.Keycode
	mods uint16
}

func newKeyHolder(c *xconn.Conn) *keyHolder {
	h := &keyHolder{
		conn: c, wishes: make(chan keyWish), answers: make(chan keyAnswer, 1),
		presses: make(chan xgb.Event, mostPressed), mapped: make(chan struct{}, 1), done: make(chan struct{}),
		grabs: map[grab]int{}, up: map[xproto.Keycode]xproto.Timestamp{},
	}
	h.cancel = c.Subscribe(h.receive)
	return h
}

// ended says whether the holder has let go for good.
func (h *keyHolder) ended() bool {
	select {
	case <-h.done:
		return true
	default:
		return false
	}
}

// receive takes an event; it runs on the connection's goroutine.
func (h *keyHolder) receive(event xgb.Event) {
	switch e := event.(type) {
	case xproto.KeyPressEvent, xproto.KeyReleaseEvent:
		offer(h.presses, event)
	case xproto.MappingNotifyEvent:
		if e.Request != xproto.MappingPointer {
			offer(h.mapped, struct{}{})
		}
	}
}

// run serves until nothing is wished for or the connection ends: then the server has let go of
// all. A reply that makes no sense ends it too.
func (h *keyHolder) run() {
	var line xconn.Line
	err := line.Do(context.Background(), h.serve)
	h.letGo()
	h.cancel()
	close(h.done)
	if err != nil {
		h.wish.Changed(nil, fmt.Errorf("%w: %w", ErrKeysLost, err))
	}
}

func (h *keyHolder) serve() error {
	for {
		select {
		case h.wish = <-h.wishes:
			each, err := h.hold()
			h.answers <- keyAnswer{each, err}
			if err != nil || len(h.wish.chords) == 0 {
				return nil
			}
		case <-h.mapped:
			each, err := h.hold()
			if err != nil {
				return err
			}
			h.wish.Changed(each, nil)
		case event := <-h.presses:
			h.hear(event)
		case <-h.conn.Done():
			return xconn.ErrBroken
		}
	}
}

// hear tells of a press. A key that stays down is repeated by the server as if it were let go
// and pressed at one moment: that is no press.
func (h *keyHolder) hear(event xgb.Event) {
	switch e := event.(type) {
	case xproto.KeyReleaseEvent:
		h.up[e.Detail] = e.Time
	case xproto.KeyPressEvent:
		at, repeated := h.up[e.Detail]
		i, ok := h.grabs[grab{e.Detail, e.State & allModifiers}]
		if ok && !(repeated && at == e.Time) {
			h.wish.Pressed(i, image.Pt(int(e.RootX), int(e.RootY)))
		}
	}
}

// hold holds what is wished for, on the keyboard of now, and then lets go of what else is held: what
// stays is never free in between, so that no press is lost where the keyboard has changed.
func (h *keyHolder) hold() (each []error, err error) {
	was := maps.Clone(h.grabs)
	if h.board, err = askKeyboard(h.conn); err != nil {
		return nil, fmt.Errorf("keys of the keyboard: %w", err)
	}
	wished := map[grab]bool{}
	each = make([]error, len(h.wish.chords))
	for i, chord := range h.wish.chords {
		if each[i], err = h.take(i, chord); err != nil {
			return nil, fmt.Errorf("hold %v: %w", chord, err)
		}
		for _, g := range h.board.grabsOf(chord) {
			wished[g] = true
		}
	}
	maps.DeleteFunc(was, func(g grab, _ int) bool { return wished[g] })
	h.letGoOf(slices.Collect(maps.Keys(was))...)
	if len(was) > 0 { // the server has let go by the time that it answers
		_, err = xproto.GetInputFocus(h.conn.X).Reply()
	}
	return each, err
}

// take holds a chord, whatever locks are on, or says why it can't; err is of the connection.
func (h *keyHolder) take(i int, chord Chord) (refused, err error) {
	wanted := h.board.grabsOf(chord)
	if len(wanted) == 0 {
		return ErrNoKey, nil
	}
	asked := make([]xproto.GrabKeyCookie, len(wanted))
	for n, g := range wanted {
		asked[n] = xproto.GrabKeyChecked(h.conn.X, false, h.conn.Screen.Root, g.mods, g.code, xproto.GrabModeAsync, xproto.GrabModeAsync)
	}
	for n, g := range wanted {
		var held xproto.AccessError
		switch err := asked[n].Check(); {
		case err == nil:
			h.grabs[g] = i
		case errors.As(err, &held):
			refused = ErrKeyHeld
		default:
			return nil, err
		}
	}
	if refused != nil { // with some locks on it would work, with others not
		h.letGoOf(wanted...)
	}
	return refused, nil
}

// letGo lets go of all that is held.
func (h *keyHolder) letGo() { h.letGoOf(slices.Collect(maps.Keys(h.grabs))...) }

func (h *keyHolder) letGoOf(grabs ...grab) {
	for _, g := range grabs {
		if _, held := h.grabs[g]; held {
			delete(h.grabs, g)
			xproto.UngrabKey(h.conn.X, g.code, h.conn.Screen.Root, g.mods)
		}
	}
}
