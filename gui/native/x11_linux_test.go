package native

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
	"app.tonedesk/capture/xvfbtest"
)

// onScreen starts a server and makes it the window's display.
func onScreen(t testing.TB, o xvfbtest.Options) (*xvfbtest.Server, *xvfbtest.Painter) {
	t.Helper()
	t.Setenv("XAUTHORITY", filepath.Join(t.TempDir(), "none"))
	t.Setenv(displayVariable, "")
	server := xvfbtest.Start(t, o)
	t.Setenv("DISPLAY", server.Display)
	t.Cleanup(letGo)
	return server, server.Painter()
}

// letGo gives the held connection back, so that the next test has its own.
func letGo() {
	held.Lock()
	defer held.Unlock()
	if held.conn != nil {
		held.conn.Release()
		<-held.conn.Done()
		held.conn = nil
	}
}

// colourAt reads one pixel of the screen, 0xrrggbb.
func colourAt(t *testing.T, at image.Point) uint32 {
	t.Helper()
	pixel, err := ask(1, func(c *xconn.Conn, _ xproto.Window) (uint32, error) {
		reply, err := xproto.GetImage(c.X, xproto.ImageFormatZPixmap, xproto.Drawable(c.Screen.Root),
			int16(at.X), int16(at.Y), 1, 1, 0xffffffff).Reply()
		if err != nil {
			return 0, err
		}
		return uint32(reply.Data[0]) | uint32(reply.Data[1])<<8 | uint32(reply.Data[2])<<16, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return pixel
}

var managed = xvfbtest.Options{Width: 800, Height: 600, WindowManager: true}

const red, blue = 0xff0000, 0x0000ff

func TestKeepAbove(t *testing.T) {
	server, painter := onScreen(t, managed)
	ours := painter.Window(image.Rect(100, 100, 300, 300), red)
	other := painter.Window(image.Rect(100, 100, 300, 300), blue)
	place(server, painter, ours, image.Pt(100, 100))
	spot := image.Pt(250, 250) // in both
	shows := func(what string, want uint32) {
		t.Helper()
		painter.Raise(other)
		// The manager takes requests in order: when it has moved the window, it has raised it.
		place(server, painter, other, image.Pt(160, 150))
		place(server, painter, other, image.Pt(150, 150))
		server.WaitFor(what, func() bool { return colourAt(t, spot) == want })
	}
	shows("the other window", blue)
	for range 2 { // again, as after each time that the window was hidden
		if err := KeepAbove(uintptr(ours), true); err != nil {
			t.Fatal(err)
		}
		shows("our window above", red)
		if got := server.Run("xprop", "-id", id(ours), "_NET_WM_STATE"); !strings.Contains(got, "_NET_WM_STATE_ABOVE") {
			t.Errorf("state: %s", got)
		}
		if err := KeepAbove(uintptr(ours), false); err != nil {
			t.Fatal(err)
		}
		shows("the other window again", blue)
	}
}

// place moves a window, and asks again until its manager has it there.
func place(server *xvfbtest.Server, painter *xvfbtest.Painter, w uint32, at image.Point) {
	server.WaitFor("the window at "+at.String(), func() bool {
		painter.Move(w, at)
		r, err := ClientRect(uintptr(w))
		return err == nil && r.Min == at
	})
}

func id(w uint32) string { return fmt.Sprintf("%#x", w) }

func TestKeepAboveWithoutWindowManager(t *testing.T) {
	_, painter := onScreen(t, xvfbtest.Options{})
	w := painter.Window(image.Rect(0, 0, 50, 50), red)
	if err := KeepAbove(uintptr(w), true); !errors.Is(err, ErrRefused) {
		t.Errorf("KeepAbove: %v, want ErrRefused", err)
	}
}

// In a Wayland session it is offered where the desktop says that it does it.
func TestStaysAbove(t *testing.T) {
	for _, manager := range []bool{false, true} {
		t.Run(fmt.Sprintf("a window manager: %v", manager), func(t *testing.T) {
			onScreen(t, xvfbtest.Options{WindowManager: manager})
			if !StaysAbove() {
				t.Error("elsewhere it isn't offered")
			}
			t.Setenv("XDG_SESSION_TYPE", "wayland")
			if got := StaysAbove(); got != manager {
				t.Errorf("in a Wayland session: %v, want %v", got, manager)
			}
		})
	}
}

// Where a window is put is where it is, again and again; the frame lies around it.
func TestPlace(t *testing.T) {
	server, painter := onScreen(t, managed)
	w := painter.Window(image.Rect(0, 0, 200, 120), red)
	handle := uintptr(w)
	for _, at := range []image.Point{{300, 200}, {300, 200}, {50, 60}, {-40, 70}} {
		if err := MoveTo(handle, at); err != nil {
			t.Fatal(err)
		}
		want := image.Rectangle{Min: at, Max: at.Add(image.Pt(200, 120))}
		server.WaitFor("the window at "+at.String(), func() bool {
			got, err := ClientRect(handle)
			return err == nil && got == want
		})
		frame, err := FrameRect(handle)
		if err != nil || !want.In(frame) || frame.Dy() <= want.Dy() {
			t.Errorf("frame %v, %v; want it around %v", frame, err, want)
		}
	}
	if err := MoveTo(handle, image.Pt(300, 200)); err != nil {
		t.Fatal(err)
	}
	server.WaitFor("the window's pixels", func() bool {
		return colourAt(t, image.Pt(300, 200)) == red && colourAt(t, image.Pt(499, 319)) == red
	})
	for _, outside := range []image.Point{{299, 200}, {300, 199}, {500, 319}, {499, 320}} {
		if colourAt(t, outside) == red {
			t.Errorf("the window reaches %v", outside)
		}
	}
}

func TestHidden(t *testing.T) {
	server, painter := onScreen(t, managed)
	w := painter.Window(image.Rect(0, 0, 200, 120), red)
	hidden := func(want bool) func() bool {
		return func() bool { got, err := Hidden(uintptr(w)); return err == nil && got == want }
	}
	server.WaitFor("the window to be shown", hidden(false))
	painter.Iconify(w)
	server.WaitFor("the window to be minimised", hidden(true))
	server.WaitFor("the window to be shown again", func() bool {
		painter.Show(w) // in vain as long as its manager is still taking it down
		return hidden(false)()
	})
}

// Each of the three ways to tell is enough. Nobody manages windows here, so that none
// brings the others with it. Sources: X Window System Protocol, X11R7.7, UnmapWindow;
// ICCCM 2.0, section 4.1.3.1; Extended Window Manager Hints 1.5, _NET_WM_STATE_HIDDEN.
func TestHiddenWays(t *testing.T) {
	_, painter := onScreen(t, xvfbtest.Options{})
	set := func(c *xconn.Conn, w xproto.Window, property string, value uint32) error {
		name, err := atom(c, property)
		if err != nil {
			return err
		}
		bytes := binary.LittleEndian.AppendUint32(nil, value)
		return xproto.ChangePropertyChecked(c.X, xproto.PropModeReplace, w, name, xproto.AtomCardinal, 32, 1, bytes).Check()
	}
	for _, tt := range []struct {
		name string
		do   func(c *xconn.Conn, w xproto.Window) error
		want bool
	}{
		{"shown, no property", func(*xconn.Conn, xproto.Window) error { return nil }, false},
		{"unmapped", func(c *xconn.Conn, w xproto.Window) error { return xproto.UnmapWindowChecked(c.X, w).Check() }, true},
		{"WM_STATE normal", func(c *xconn.Conn, w xproto.Window) error { return set(c, w, "WM_STATE", 1) }, false},
		{"WM_STATE iconic", func(c *xconn.Conn, w xproto.Window) error { return set(c, w, "WM_STATE", 3) }, true},
		{"_NET_WM_STATE hidden", func(c *xconn.Conn, w xproto.Window) error {
			state, err := atom(c, "_NET_WM_STATE_HIDDEN")
			return errors.Join(err, set(c, w, "_NET_WM_STATE", uint32(state)))
		}, true},
		{"_NET_WM_STATE above", func(c *xconn.Conn, w xproto.Window) error {
			state, err := atom(c, "_NET_WM_STATE_ABOVE")
			return errors.Join(err, set(c, w, "_NET_WM_STATE", uint32(state)))
		}, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := uintptr(painter.Window(image.Rect(0, 0, 50, 50), red))
			if _, err := ask(w, func(c *xconn.Conn, w xproto.Window) (bool, error) { return true, tt.do(c, w) }); err != nil {
				t.Fatal(err)
			}
			if got, err := Hidden(w); err != nil || got != tt.want {
				t.Errorf("Hidden: %v, %v; want %v", got, err, tt.want)
			}
		})
	}
}

func TestCoverDesktop(t *testing.T) {
	server, painter := onScreen(t, managed)
	server.Run("xrandr", "--setmonitor", "left", "400/100x600/150+0+0", "screen")
	server.Run("xrandr", "--setmonitor", "right", "400/100x600/150+400+0", "none")
	screens, err := Screens()
	if err != nil || len(screens) != 2 || screens[0].Union(screens[1]) != image.Rect(0, 0, 800, 600) {
		t.Fatalf("screens %v, %v", screens, err)
	}
	painter.Window(image.Rect(0, 0, 300, 300), blue)
	cover := painter.Bare(image.Rect(0, 0, 200, 200), red)
	if err := CoverDesktop(uintptr(cover), image.Rect(0, 0, 800, 600)); err != nil {
		t.Fatal(err)
	}
	server.WaitFor("both monitors to be covered", func() bool {
		r, err := ClientRect(uintptr(cover))
		return err == nil && r == image.Rect(0, 0, 800, 600) && colourAt(t, image.Pt(0, 0)) == red &&
			colourAt(t, image.Pt(799, 599)) == red && colourAt(t, image.Pt(150, 150)) == red
	})
	state := server.Run("xprop", "-id", id(cover), "_NET_WM_STATE")
	for _, want := range []string{"_NET_WM_STATE_ABOVE", "_NET_WM_STATE_SKIP_TASKBAR"} {
		if !strings.Contains(state, want) {
			t.Errorf("state %s: want %s", state, want)
		}
	}
}

// everyCall makes every call about a window.
func everyCall(handle uintptr) map[string]error {
	_, client := ClientRect(handle)
	_, frame := FrameRect(handle)
	_, hidden := Hidden(handle)
	return map[string]error{
		"ClientRect": client, "FrameRect": frame, "Hidden": hidden, "MoveTo": MoveTo(handle, image.Pt(1, 1)),
		"KeepAbove": KeepAbove(handle, true), "CoverDesktop": CoverDesktop(handle, image.Rect(0, 0, 9, 9)),
	}
}

func TestNoWindow(t *testing.T) {
	_, painter := onScreen(t, managed)
	closed := painter.Window(image.Rect(0, 0, 50, 50), red)
	painter.Destroy(closed)
	for _, handle := range []uintptr{0, uintptr(closed)} {
		for call, err := range everyCall(handle) {
			if !errors.Is(err, ErrNoWindow) {
				t.Errorf("%s of window %#x: %v, want ErrNoWindow", call, handle, err)
			}
		}
	}
}

func TestOtherDisplay(t *testing.T) {
	server, painter := onScreen(t, managed)
	w := uintptr(painter.Window(image.Rect(0, 0, 50, 50), red))
	t.Setenv(displayVariable, server.Display+".0") // another name of the same
	if !SameDisplay() {
		t.Error("the same display under another name")
	}
	t.Setenv(displayVariable, ":59000")
	if SameDisplay() {
		t.Error("another display")
	}
	for call, err := range everyCall(w) {
		if !errors.Is(err, ErrOtherDisplay) {
			t.Errorf("%s: %v, want ErrOtherDisplay", call, err)
		}
	}
}

// A display that halts costs a call a second, not for ever, and all is well afterwards.
func TestStoppedDisplay(t *testing.T) {
	server, painter := onScreen(t, managed)
	w := uintptr(painter.Window(image.Rect(0, 0, 50, 50), red))
	if _, err := ClientRect(w); err != nil {
		t.Fatal(err)
	}
	server.Stop()
	start := time.Now()
	if _, err := ClientRect(w); !errors.Is(err, xconn.ErrNotAnswering) || !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("halted: %v, want ErrNotAnswering", err)
	}
	if took := time.Since(start); took > 10*askTime {
		t.Errorf("the call took %v", took)
	}
	server.Continue()
	server.WaitFor("an answer", func() bool { _, err := ClientRect(w); return err == nil })
}

func TestKilledDisplay(t *testing.T) {
	server, painter := onScreen(t, managed)
	w := uintptr(painter.Window(image.Rect(0, 0, 50, 50), red))
	if _, err := ClientRect(w); err != nil {
		t.Fatal(err)
	}
	server.Kill()
	for call, err := range everyCall(w) {
		if err == nil {
			t.Errorf("%s without a display: no error", call)
		}
	}
}
