package portal

import (
	"context"
	"errors"
	"maps"
	"reflect"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture"
	"app.tonedesk/capture/portal/portaltest"
)

// wishedKeys are two keys, of which the fake portal gives the first.
var wishedKeys = shortcutWish{app: "app.made.up", own: 0x2a, wished: []Shortcut{{"spot", "Put a spot", "CTRL+ALT+1"}, {"keep", "Keep it", "CTRL+ALT+4"}}}

// heardKeys tells what a hearer hears, in order.
type heardKeys struct {
	pressed chan string
	changed chan map[string]string
	ended   chan error
}

func newHeardKeys() heardKeys {
	return heardKeys{make(chan string, 9), make(chan map[string]string, 9), make(chan error, 9)}
}

func (h heardKeys) hearer() ShortcutHearer {
	return ShortcutHearer{
		Pressed: func(id string) { h.pressed <- id },
		Changed: func(keys map[string]string) { h.changed <- keys },
		Ended:   func(why error) { h.ended <- why },
	}
}

// next waits for something.
func next[T any](t *testing.T, what string, from <-chan T) (got T) {
	t.Helper()
	select {
	case got = <-from:
	case <-time.After(portaltest.Patience):
		t.Fatalf("waited in vain for %s", what)
	}
	return got
}

// patient waits long: a test fails sooner than it gives up.
var patient = waits{call: portaltest.Patience, people: portaltest.Patience}

// Keys are asked for as the portal wants it (XDPG), and heard of: their own words, presses of ours
// alone, what the desktop changes; closed, the session ends.
func TestShortcuts(t *testing.T) {
	for _, tt := range []struct {
		name string
		set  func(*portaltest.Fake)
	}{
		{"as of now", nil},
		{"no register of programs", func(f *portaltest.Fake) { f.Lacks = registry }},
		{"requests named as of old", func(f *portaltest.Fake) { f.OldPaths = true }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			address := portaltest.StartBus(t)
			f := portaltest.StartFake(t, address, tt.set)
			h := newHeardKeys()
			s, keys, err := askShortcuts(t.Context(), address, patient, wishedKeys, h.hearer())
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			if want := map[string]string{"spot": "Press CTRL+ALT+1"}; !maps.Equal(keys, want) {
				t.Errorf("the keys are %v, want %v", keys, want)
			}
			if got := f.Gave("Register"); tt.name != "no register of programs" && (len(got) == 0 || got[0] != "app.made.up") {
				t.Errorf("registered is %v", got)
			}
			asked := f.Gave("BindShortcuts")
			if asked[0] != s.path || asked[2] != "x11:2a" {
				t.Errorf("asked in session %v for the window %v", asked[0], asked[2])
			}
			want := []portaltest.Bound{
				{ID: "spot", About: map[string]dbus.Variant{"description": dbus.MakeVariant("Put a spot"), "preferred_trigger": dbus.MakeVariant("CTRL+ALT+1")}},
				{ID: "keep", About: map[string]dbus.Variant{"description": dbus.MakeVariant("Keep it"), "preferred_trigger": dbus.MakeVariant("CTRL+ALT+4")}},
			}
			if !reflect.DeepEqual(asked[1], want) {
				t.Errorf("asked is for %v, want %v", asked[1], want)
			}
			tell := func(name string, body ...any) { f.Tells(object, shortcuts, name, body...) }
			none := map[string]dbus.Variant{}
			tell("Activated", dbus.ObjectPath("/of/another"), "spot", uint64(1), none)
			tell("Activated", s.path)
			tell("Activated", s.path, uint32(1), uint64(1), none)
			tell("Deactivated", s.path, "spot", uint64(1), none)
			tell("Activated", s.path, "keep", uint64(2), none)
			if id := next(t, "the press", h.pressed); id != "keep" {
				t.Errorf("pressed is %q, which is not ours", id)
			}
			tell("ShortcutsChanged", s.path, "keys")
			tell("ShortcutsChanged", s.path, []portaltest.Bound{{ID: "keep", About: map[string]dbus.Variant{"trigger_description": dbus.MakeVariant("F7")}}})
			if keys := next(t, "the change", h.changed); !maps.Equal(keys, map[string]string{"keep": "F7"}) {
				t.Errorf("changed to %v", keys)
			}
			s.Close()
			s.Close()
			portaltest.WaitFor(t, "the session to be closed", func() bool { return f.WasClosed("session") })
			if len(h.ended) > 0 || len(h.pressed) > 0 {
				t.Error("closed by us, it says that it has ended, or was pressed")
			}
		})
	}
}

// What goes wrong is said by one of the errors that AskShortcuts names, and nothing is left behind.
func TestShortcutsFail(t *testing.T) {
	short := waits{call: 300 * time.Millisecond, people: 300 * time.Millisecond}
	list := func(v any) func(*portaltest.Fake) {
		return func(f *portaltest.Fake) {
			f.Results = map[string]map[string]dbus.Variant{"BindShortcuts": {"shortcuts": dbus.MakeVariant(v)}}
		}
	}
	for _, tt := range []struct {
		name   string
		portal func(*portaltest.Fake)
		waits  waits
		want   error
		closes string
	}{
		{name: "not offered", portal: func(f *portaltest.Fake) { f.Lacks = shortcuts }, want: capture.ErrNoPortal},
		{name: "said no", portal: func(f *portaltest.Fake) { f.Codes = map[string]uint32{"BindShortcuts": 1} }, want: capture.ErrGivenUp, closes: "session"},
		{name: "it fails", portal: func(f *portaltest.Fake) { f.Codes = map[string]uint32{"BindShortcuts": 2} }, want: capture.ErrSharing, closes: "session"},
		{name: "it fails to begin", portal: func(f *portaltest.Fake) { f.Codes = map[string]uint32{"CreateSession": 2} }, want: capture.ErrSharing},
		{name: "nobody answers the question", portal: func(f *portaltest.Fake) { f.Unanswered = "BindShortcuts" }, waits: short, want: capture.ErrUnanswered, closes: "request"},
		{name: "silent", portal: func(f *portaltest.Fake) { f.Silent = "BindShortcuts" }, waits: waits{call: short.call, people: portaltest.Patience}, want: capture.ErrNotAnswering, closes: "session"},
		{name: "keys of another type", portal: list(uint32(3)), want: capture.ErrSharing, closes: "session"},
		{name: "keys without words", portal: list([]string{"spot"}), want: capture.ErrSharing, closes: "session"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			address := portaltest.StartBus(t)
			f := portaltest.StartFake(t, address, tt.portal)
			w := tt.waits
			if w == (waits{}) {
				w = patient
			}
			if _, _, err := askShortcuts(t.Context(), address, w, wishedKeys, newHeardKeys().hearer()); !errors.Is(err, tt.want) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
			if tt.closes != "" {
				portaltest.WaitFor(t, "the "+tt.closes+" to be closed", func() bool { return f.WasClosed(tt.closes) })
			}
		})
	}
	t.Run("no bus", func(t *testing.T) {
		if _, _, err := AskShortcuts(t.Context(), func(string) string { return "" }, "", 0, nil, ShortcutHearer{}); !errors.Is(err, capture.ErrNoPortal) {
			t.Errorf("got %v, want ErrNoPortal", err)
		}
	})
	t.Run("given up while the desktop asks", func(t *testing.T) {
		address := portaltest.StartBus(t)
		f := portaltest.StartFake(t, address, func(f *portaltest.Fake) { f.Unanswered = "BindShortcuts" })
		ctx, cancel := context.WithCancel(t.Context())
		go func() {
			for f.Gave("BindShortcuts") == nil {
				time.Sleep(time.Millisecond)
			}
			cancel()
		}()
		if _, _, err := askShortcuts(ctx, address, patient, wishedKeys, newHeardKeys().hearer()); !errors.Is(err, capture.ErrGivenUp) {
			t.Errorf("got %v, want ErrGivenUp", err)
		}
		portaltest.WaitFor(t, "the question to be closed", func() bool { return f.WasClosed("request") || f.WasClosed("session") })
	})
}

// Who takes the keys back, or goes, is heard of once.
func TestShortcutsEnd(t *testing.T) {
	for _, tt := range []struct {
		name string
		end  func(*portaltest.Fake, *Shortcuts)
	}{
		{"the session is closed", func(f *portaltest.Fake, s *Shortcuts) {
			f.Tells(s.path, sessionName, "Closed", map[string]dbus.Variant{})
		}},
		{"the portal goes", func(f *portaltest.Fake, _ *Shortcuts) { f.Gone() }},
		{"the bus goes", func(_ *portaltest.Fake, s *Shortcuts) { s.bus.conn.Close() }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			address := portaltest.StartBus(t)
			f := portaltest.StartFake(t, address, nil)
			h := newHeardKeys()
			s, _, err := askShortcuts(t.Context(), address, patient, wishedKeys, h.hearer())
			if err != nil {
				t.Fatal(err)
			}
			tt.end(f, s)
			if err := next(t, "the end", h.ended); !errors.Is(err, capture.ErrStopped) {
				t.Errorf("got %v, want ErrStopped", err)
			}
			s.Close()
			if len(h.ended) > 0 {
				t.Error("it ends twice")
			}
		})
	}
}
