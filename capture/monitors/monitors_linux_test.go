package monitors

import (
	"bytes"
	"errors"
	"image"
	"strings"
	"testing"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
	"app.tonedesk/capture/xvfbtest"
)

// Each monitor has its name, its place and its own profile: the first without a number, the next
// with 1 (ICCX).
func TestMonitorsAndTheirProfiles(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 800, Height: 600})
	t.Setenv("DISPLAY", server.Display)
	t.Setenv("TONEDESK_DISPLAY", "")
	list, err := List(t.Context())
	if err != nil || len(list) != 1 || list[0].Name == "" || list[0].Rect != image.Rect(0, 0, 800, 600) {
		t.Fatalf("%+v, %v", list, err)
	}
	server.Run("xrandr", "--setmonitor", "left", "400/100x600/150+0+0", "screen")
	server.Run("xrandr", "--setmonitor", "right", "400/100x600/150+400+0", "none")
	if list, err = List(t.Context()); err != nil || len(list) != 2 {
		t.Fatalf("%+v, %v", list, err)
	}
	first, ok := Most(list, image.Rect(0, 0, 500, 600))
	second, also := Most(list, image.Rect(390, 0, 410, 10).Add(image.Pt(1, 0)))
	if !ok || !also || first.Name != "left" || second.Name != "right" {
		t.Errorf("they are %+v and %+v", first, second)
	}
	if _, err := Profile(t.Context(), first); !errors.Is(err, ErrNone) {
		t.Errorf("without one: %v", err)
	}
	long := bytes.Repeat([]byte("profile "), 20_000) // more than one reply of the least size
	for name, data := range map[string][]byte{"_ICC_PROFILE": []byte("a"), "_ICC_PROFILE_1": long} {
		keep(t, server.Display, name, data)
	}
	want := [2][]byte{[]byte("a"), long}
	if list[0].Name == "right" { // the order is the server's
		first, second = second, first
	}
	for i, m := range []Monitor{first, second} {
		if got, err := Profile(t.Context(), m); err != nil || !bytes.Equal(got, want[i]) {
			t.Errorf("%s has %d bytes, %v; want %d", m.Name, len(got), err, len(want[i]))
		}
	}
}

func keep(t *testing.T, display, name string, data []byte) {
	t.Helper()
	c, err := xconn.Acquire(t.Context(), display)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Release()
	atom, err := xproto.InternAtom(c.X, false, uint16(len(name)), name).Reply()
	if err != nil {
		t.Fatal(err)
	}
	if err := xproto.ChangePropertyChecked(c.X, xproto.PropModeReplace, c.Screen.Root, atom.Atom, xproto.AtomCardinal, 8, uint32(len(data)), data).Check(); err != nil {
		t.Fatal(err)
	}
}

// edidOf is an EDID's first block with a name (EDID, 3.10.3.4).
func edidOf(name string) []byte {
	b := make([]byte, edidBytes)
	copy(b, "\x00\xff\xff\xff\xff\xff\xff\x00")
	copy(b[firstDescriptor+descriptorBytes:], "\x00\x00\x00\xfc\x00"+name)
	return b
}

// Whatever a monitor says of itself, its name is one line of valid text of 13 letters at most, and
// no two of a list are alike.
func FuzzNames(f *testing.F) {
	f.Add(edidOf("Pen display\n "), "HDMI-1", "DP-1")
	f.Add(edidOf("\xff\x00\x1b[1m\n"), "", "")
	f.Add([]byte{0}, "DP-1", "DP-1")
	if got := edidName(edidOf("Pen display\n ")); got != "Pen display" {
		f.Fatalf("the name is %q", got)
	}
	f.Fuzz(func(t *testing.T, edid []byte, one, other string) {
		name := edidName(edid)
		if len([]rune(name)) > 13 || name != trimmed(name) || strings.ContainsAny(name, "\n\r\x00") {
			t.Errorf("%q", name)
		}
		told := apart([]string{name, name, trimmed(one)}, []string{trimmed(one), trimmed(other), trimmed(one)})
		if told[0] == told[1] || told[1] == told[2] || told[0] == told[2] || told[0] == "" || told[1] == "" || told[2] == "" {
			t.Errorf("%q", told)
		}
	})
}
