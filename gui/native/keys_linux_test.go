package native

import (
	"errors"
	"image"
	"strconv"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
	"app.tonedesk/capture/xvfbtest"
)

const (
	symOne, symTwo = 0x31, 0x32                              // X11 protocol, appendix A: Latin-1
	ctrlAlt        = xproto.ModMaskControl | xproto.ModMask1 // Alt is the fourth modifier of Xvfb's keyboard
	symA, symQ     = xproto.Keysym('a'), xproto.Keysym('q')  // the same
	soon           = 10 * time.Second                        // far more than a busy machine needs
)

// heard is what a hearer was told.
type heard struct {
	i  int
	at image.Point
}

// ears returns a hearer and what it hears; changed gets what becomes of the chords later.
func ears() (h KeyHearer, presses chan heard, changed chan []error) {
	presses, changed = make(chan heard, 100), make(chan []error, 100)
	return KeyHearer{
		Pressed: func(i int, at image.Point) { presses <- heard{i, at} },
		Changed: func(each []error, failed error) { changed <- append(each, failed) },
	}, presses, changed
}

// hold holds chords, written out, and fails where one is refused.
func hold(t *testing.T, h KeyHearer, words ...string) {
	t.Helper()
	each, err := HoldKeys(chords(t, words...), h)
	if err != nil || errors.Join(each...) != nil {
		t.Fatalf("hold %q: %v, %v", words, each, err)
	}
}

func chords(t *testing.T, words ...string) (all []Chord) {
	t.Helper()
	for _, w := range words {
		c, ok := ParseChord(w)
		if !ok {
			t.Fatalf("%q is no chord", w)
		}
		all = append(all, c)
	}
	return all
}

// next waits for the next press.
func next(t *testing.T, presses chan heard) heard {
	t.Helper()
	select {
	case p := <-presses:
		return p
	case <-time.After(soon):
		t.Fatal("no press is heard")
	}
	return heard{}
}

// locked returns which modifiers are down or locked.
func locked(t *testing.T) uint16 {
	t.Helper()
	mask, err := ask(1, func(c *xconn.Conn, _ xproto.Window) (uint16, error) {
		reply, err := xproto.QueryPointer(c.X, c.Screen.Root).Reply()
		if err != nil {
			return 0, err
		}
		return reply.Mask & allModifiers, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return mask
}

// Keys come while another window has the focus, with every set of locks, and with the pointer's
// place; a chord that isn't held doesn't.
func TestKeysComeFromAnyWindow(t *testing.T) {
	server, painter := onScreen(t, managed)
	other := painter.Window(image.Rect(100, 100, 300, 300), red)
	server.Run("xdotool", "windowactivate", "--sync", id(other))
	h, presses, _ := ears()
	hold(t, h, "Ctrl+Alt+1", "Ctrl+Alt+Shift+2")
	locks := []string{"Caps_Lock", "Num_Lock"}
	for set := range 1 << len(locks) {
		for i, lock := range locks {
			if set>>i&1 == 1 {
				server.Run("xdotool", "key", lock)
			}
		}
		if on := locked(t); (set == 0) != (on == 0) {
			t.Fatalf("set of locks %b: the display says %#x", set, on)
		}
		x, y := 200+10*set, 210
		server.Run("xdotool", "mousemove", strconv.Itoa(x), strconv.Itoa(y), "key", "ctrl+alt+3", "key", "ctrl+alt+1", "key", "ctrl+alt+shift+2")
		for i := range 2 {
			if p := next(t, presses); p != (heard{i, image.Pt(x, y)}) {
				t.Errorf("set of locks %b: heard %v, want chord %d at %d, %d", set, p, i, x, y)
			}
		}
		for i, lock := range locks {
			if set>>i&1 == 1 {
				server.Run("xdotool", "key", lock)
			}
		}
	}
	if len(presses) > 0 {
		t.Errorf("heard besides: %v", <-presses)
	}
}

// A key that stays down is one press, however often the server repeats it.
func TestKeysHeldDownComeOnce(t *testing.T) {
	server, _ := onScreen(t, managed)
	h, presses, _ := ears()
	hold(t, h, "Ctrl+Alt+1", "Ctrl+Alt+2")
	server.Run("xset", "r", "rate", "20", "100") // after 20 ms, 100 times a second
	server.Run("xdotool", "keydown", "ctrl", "keydown", "alt", "keydown", "1", "sleep", "0.5", "keyup", "1", "key", "2", "keyup", "alt", "keyup", "ctrl")
	if a, b := next(t, presses), next(t, presses); a.i != 0 || b.i != 1 {
		t.Errorf("heard chords %d and %d, want 0 and 1 once each", a.i, b.i)
	}
}

// What another program holds is refused, with any lock; what is let go, or was refused, others can
// hold, and what is held they can't.
func TestKeysAreHeldByOneProgram(t *testing.T) {
	_, painter := onScreen(t, xvfbtest.Options{})
	h, _, _ := ears()
	const withCaps = ctrlAlt | xproto.ModMaskLock
	if !painter.HoldKey(symOne, withCaps) {
		t.Fatal("the other program can't hold a key")
	}
	each, err := HoldKeys(chords(t, "Ctrl+Alt+1", "Ctrl+Alt+2"), h)
	if err != nil || len(each) != 2 || !errors.Is(each[0], ErrKeyHeld) || each[1] != nil {
		t.Fatalf("refused: %v, %v", each, err)
	}
	if !painter.HoldKey(symOne, ctrlAlt) {
		t.Error("what was refused is held in part")
	}
	if painter.HoldKey(symTwo, ctrlAlt) || painter.HoldKey(symTwo, withCaps) {
		t.Error("what is held another program can hold too")
	}
	painter.LetGoKey(symOne, withCaps)
	painter.LetGoKey(symOne, ctrlAlt)
	hold(t, h, "Ctrl+Alt+1")
	if !painter.HoldKey(symTwo, ctrlAlt) || painter.HoldKey(symOne, ctrlAlt) {
		t.Error("the keys of the wish before are held, or those of this one are not")
	}
	if each, err := HoldKeys(nil, h); err != nil || len(each) > 0 {
		t.Errorf("let go: %v, %v", each, err)
	}
	for _, held := range []int{ctrlAlt, withCaps} {
		if !painter.HoldKey(symOne, held) {
			t.Errorf("after letting go another program can't hold it with %#x", held)
		}
	}
	if each, err := HoldKeys(chords(t, "Super+Insert"), h); err != nil || each[0] != nil { // and begun anew
		t.Errorf("held again: %v, %v", each, err)
	}
}

// Once the connection ends, the server has let go, and who hears is told.
func TestKeysAreLetGoWithTheConnection(t *testing.T) {
	server, painter := onScreen(t, xvfbtest.Options{})
	h, _, changed := ears()
	hold(t, h, "Ctrl+Alt+1")
	held.Lock()
	held.conn.Release() // the last who had it
	held.conn = nil
	held.Unlock()
	select {
	case said := <-changed:
		if !errors.Is(errors.Join(said...), ErrKeysLost) {
			t.Errorf("told %v", said)
		}
	case <-time.After(soon):
		t.Error("nobody is told")
	}
	server.WaitFor("the key of another program", func() bool { return painter.HoldKey(symOne, ctrlAlt) })
}

// When keys get other meanings the chord goes with its name, and a name that has gone is told of.
func TestKeysFollowTheKeyboard(t *testing.T) {
	server, painter := onScreen(t, xvfbtest.Options{})
	h, presses, changed := ears()
	hold(t, h, "Ctrl+Alt+A")
	was := keycodeOf(t, symA)
	server.Run("xmodmap", "-e", "keysym a = b", "-e", "keysym q = a")
	for told := false; !told; { // each change is told of
		select {
		case said := <-changed:
			told = errors.Join(said...) == nil && keycodeOf(t, symA) != was && painter.HoldKey('b', ctrlAlt)
		case <-time.After(soon):
			t.Fatal("nobody is told of the keys' other meanings")
		}
	}
	server.Run("xdotool", "key", "ctrl+alt+a")
	if p := next(t, presses); p.i != 0 {
		t.Errorf("heard %v", p)
	}
	server.Run("xmodmap", "-e", "keysym a = q")
	for {
		select {
		case said := <-changed:
			if errors.Is(errors.Join(said...), ErrNoKey) {
				return
			}
		case <-time.After(soon):
			t.Fatal("nobody is told that the key is gone")
		}
	}
}

func keycodeOf(t *testing.T, sym xproto.Keysym) xproto.Keycode {
	t.Helper()
	code, err := ask(1, func(c *xconn.Conn, _ xproto.Window) (xproto.Keycode, error) {
		k, err := askKeyboard(c)
		return k.code(sym), err
	})
	if err != nil {
		t.Fatal(err)
	}
	return code
}

// In a Wayland session's server for old programs no key is held: it would be heard now and then.
func TestKeysInAWaylandSession(t *testing.T) {
	server, painter := onScreen(t, xvfbtest.Options{})
	server.Run("xrandr", "--setmonitor", "XWAYLAND0", "640/160x480/120+0+0", "screen")
	h, _, _ := ears()
	if _, err := HoldKeys(chords(t, "Ctrl+Alt+1"), h); !errors.Is(err, ErrWayland) || !errors.Is(err, ErrUnsupported) {
		t.Errorf("it says %v", err)
	}
	if !painter.HoldKey(symOne, ctrlAlt) {
		t.Error("the key is held all the same")
	}
}

// What shows at a place is our own window, its frame, or another.
func TestTopmost(t *testing.T) {
	server, painter := onScreen(t, managed)
	ours := painter.Window(image.Rect(100, 100, 300, 300), red)
	place(server, painter, ours, image.Pt(100, 100))
	inside, err := ClientRect(uintptr(ours))
	if err != nil {
		t.Fatal(err)
	}
	cover := painter.Bare(image.Rect(250, 250, 400, 400), blue)
	painter.Raise(cover)
	for _, want := range []struct {
		where string
		at    image.Point
		is    bool
	}{
		{"inside", inside.Min.Add(image.Pt(20, 20)), true},
		{"on its frame", inside.Min.Sub(image.Pt(0, 4)), true},
		{"under another window", image.Pt(270, 270), false},
		{"beside", image.Pt(20, 500), false},
	} {
		server.WaitFor("what shows "+want.where, func() bool {
			is, err := Topmost(uintptr(ours), want.at)
			return err == nil && is == want.is
		})
	}
	if _, err := Topmost(0, image.Point{}); !errors.Is(err, ErrNoWindow) {
		t.Errorf("without a window: %v", err)
	}
}
