//go:build cgo

package portal

import (
	"context"
	"errors"
	"image"
	"os"
	"sync"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture"
	"app.tonedesk/capture/pipewire"
	"app.tonedesk/capture/pipewire/pipewiretest"
	"app.tonedesk/capture/portal/portaltest"
)

// noWindows is a way to windows that has none.
type noWindows struct{ windowsAlone }

func (noWindows) Close() error { return nil }

// kept keeps a token in memory.
type kept struct {
	mu    sync.Mutex
	token string
}

func (k *kept) tokens() Tokens {
	return Tokens{
		Load: func() string { k.mu.Lock(); defer k.mu.Unlock(); return k.token },
		Keep: func(token string) { k.mu.Lock(); defer k.mu.Unlock(); k.token = token },
	}
}

// newBackend is a way by the portal on a bus, which a test doesn't wait for long.
func newBackend(t *testing.T, address string, k *kept) *backend {
	if err := pipewire.Loads(); err != nil {
		t.Skip("libpipewire is not installed: install Debian's libpipewire-0.3-0 to try this")
	}
	b := &backend{windowsAlone: noWindows{}, address: address, tokens: k.tokens(), waits: waits{call: portaltest.Patience, people: portaltest.Patience}}
	t.Cleanup(func() { b.Close() })
	return b
}

// What goes wrong is said by one of the errors that capture.Sharer names, and at once where nobody is
// waited for; what waits ends.
func TestAskFails(t *testing.T) {
	variant := func(v any) map[string]dbus.Variant { return map[string]dbus.Variant{"streams": dbus.MakeVariant(v)} }
	short := waits{call: 300 * time.Millisecond, people: 300 * time.Millisecond}
	for _, tt := range []struct {
		name   string
		portal func(*portaltest.Fake)
		waits  waits
		want   error
		closes string // what is closed behind it
	}{
		{name: "said no", portal: func(f *portaltest.Fake) { f.Codes = map[string]uint32{"Start": 1} }, want: capture.ErrGivenUp, closes: "session"},
		{name: "it fails", portal: func(f *portaltest.Fake) { f.Codes = map[string]uint32{"Start": 2} }, want: capture.ErrSharing, closes: "session"},
		{name: "it fails to begin", portal: func(f *portaltest.Fake) { f.Codes = map[string]uint32{"CreateSession": 2} }, want: capture.ErrSharing},
		{name: "nobody answers the question", portal: func(f *portaltest.Fake) { f.Unanswered = "Start" }, waits: short, want: capture.ErrUnanswered, closes: "request"},
		{name: "no answer to the first request", portal: func(f *portaltest.Fake) { f.Unanswered = "CreateSession" }, waits: short, want: capture.ErrNotAnswering},
		{name: "silent at the first", portal: func(f *portaltest.Fake) { f.Silent = "Get" }, waits: short, want: capture.ErrNotAnswering},
		{name: "silent at the last", portal: func(f *portaltest.Fake) { f.Silent = "OpenPipeWireRemote" }, waits: short, want: capture.ErrNotAnswering, closes: "session"},
		{name: "nothing to share", portal: func(f *portaltest.Fake) { f.Kinds = 0 }, want: capture.ErrNoPortal},
		{name: "a virtual source alone", portal: func(f *portaltest.Fake) { f.Kinds = 4 }, want: capture.ErrNoPortal},
		{name: "no session named", portal: func(f *portaltest.Fake) { f.Results = map[string]map[string]dbus.Variant{"CreateSession": {}} }, want: capture.ErrSharing},
		{name: "a session of another type", portal: func(f *portaltest.Fake) {
			f.Results = map[string]map[string]dbus.Variant{"CreateSession": {"session_handle": dbus.MakeVariant(uint32(7))}}
		}, want: capture.ErrSharing},
		{name: "a session's name that is none", portal: func(f *portaltest.Fake) {
			f.Results = map[string]map[string]dbus.Variant{"CreateSession": {"session_handle": dbus.MakeVariant("here")}}
		}, want: capture.ErrSharing},
		{name: "no streams", portal: func(f *portaltest.Fake) { f.Results = map[string]map[string]dbus.Variant{"Start": {}} }, want: capture.ErrSharing},
		{name: "streams of another type", portal: func(f *portaltest.Fake) { f.Results = map[string]map[string]dbus.Variant{"Start": variant("one")} }, want: capture.ErrSharing},
		{name: "streams without their numbers", portal: func(f *portaltest.Fake) {
			f.Results = map[string]map[string]dbus.Variant{"Start": variant([][]string{{"a", "b"}})}
		}, want: capture.ErrSharing},
		{name: "an empty list", portal: func(f *portaltest.Fake) {
			f.Results = map[string]map[string]dbus.Variant{"Start": variant([]map[string]dbus.Variant{})}
		}, want: capture.ErrSharing},
		{name: "no way to the pictures", portal: nil, want: capture.ErrSharing, closes: "session"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			address := portaltest.StartBus(t)
			f := portaltest.StartFake(t, address, tt.portal)
			b := newBackend(t, address, &kept{})
			if tt.waits != (waits{}) {
				b.waits = tt.waits
			}
			begun := time.Now()
			if n, err := b.Ask(t.Context(), 0); !errors.Is(err, tt.want) || n != 0 {
				t.Errorf("got %d, %v, want %v", n, err, tt.want)
			}
			if took := time.Since(begun); took > portaltest.Patience/2 {
				t.Errorf("it took %v", took)
			}
			if tt.closes != "" {
				portaltest.WaitFor(t, "the "+tt.closes+" to be closed", func() bool { return f.WasClosed(tt.closes) })
			}
		})
	}
	t.Run("no portal on the bus", func(t *testing.T) {
		if _, err := newBackend(t, portaltest.StartBus(t), &kept{}).Ask(t.Context(), 0); !errors.Is(err, capture.ErrNoPortal) {
			t.Errorf("got %v, want ErrNoPortal", err)
		}
	})
	t.Run("no bus", func(t *testing.T) {
		if _, err := newBackend(t, noBus, &kept{}).Ask(t.Context(), 0); !errors.Is(err, capture.ErrNoPortal) {
			t.Errorf("got %v, want ErrNoPortal", err)
		}
	})
	t.Run("given up while the desktop asks", func(t *testing.T) {
		address := portaltest.StartBus(t)
		f := portaltest.StartFake(t, address, func(f *portaltest.Fake) { f.Unanswered = "Start" })
		ctx, cancel := context.WithCancel(t.Context())
		go func() {
			for f.Gave("Start") == nil {
				time.Sleep(time.Millisecond)
			}
			cancel()
		}()
		if _, err := newBackend(t, address, &kept{}).Ask(ctx, 0); !errors.Is(err, capture.ErrGivenUp) {
			t.Errorf("got %v, want ErrGivenUp", err)
		}
		portaltest.WaitFor(t, "the question to be closed", func() bool { return f.WasClosed("request") || f.WasClosed("session") }) // that ends it too
	})
}

// desktop is a portal that shares a screen.
type desktop struct {
	*portaltest.Fake
	server  *pipewiretest.Server
	screen  *pipewiretest.Screen
	address string
}

func startDesktop(t *testing.T, set func(*portaltest.Fake)) *desktop {
	t.Helper()
	d := &desktop{server: pipewiretest.Start(t), address: portaltest.StartBus(t)}
	d.screen = d.server.Screen(pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(60, 40)})
	d.Fake = portaltest.StartFake(t, d.address, func(f *portaltest.Fake) {
		f.Socket, f.Node = d.server.Socket, d.screen.Node
		if set != nil {
			set(f)
		}
	})
	return d
}

// next grabs until there is a picture, showing it again and again: what a screen sends before anybody
// takes it is lost.
func (d *desktop) next(t *testing.T, s capture.Stream, shade byte) (f capture.Frame) {
	t.Helper()
	d.server.WaitFor("a picture", func() bool {
		d.screen.Shown(pipewiretest.Shows{Pixel: [4]byte{shade, shade, shade}})
		changed, err := s.Grab(t.Context(), &f)
		if err != nil {
			t.Fatal(err)
		}
		return changed && f.Pix[0] == shade
	})
	return f
}

// What is shared is read, a part of it too; the token is kept, and used once at the next start, without
// a question.
func TestShare(t *testing.T) {
	for _, old := range []bool{false, true} {
		d := startDesktop(t, func(f *portaltest.Fake) { f.OldPaths = old })
		k := &kept{}
		b := newBackend(t, d.address, k)
		number, err := b.Ask(t.Context(), 0x2a)
		if err != nil {
			t.Fatal(err)
		}
		if parent := d.Gave("Start")[1]; parent != "x11:2a" {
			t.Errorf("the dialog belongs to %q", parent)
		}
		options := d.Gave("SelectSources")[1].(map[string]dbus.Variant)
		for name, want := range map[string]any{"types": uint32(3), "multiple": false, "persist_mode": uint32(2), "cursor_mode": uint32(1)} {
			if got := options[name].Value(); got != want {
				t.Errorf("%s is %v, want %v", name, got, want)
			}
		}
		if _, ok := options["restore_token"]; ok {
			t.Error("a new question goes with an old token")
		}
		s, err := b.Share(t.Context(), number, image.Rectangle{})
		if err != nil {
			t.Fatal(err)
		}
		if f := d.next(t, s, 90); f.Size != image.Pt(60, 40) || f.Layout != capture.BGRX {
			t.Errorf("a picture of %v, layout %v", f.Size, f.Layout)
		}
		var f capture.Frame
		d.screen.Show(pipewiretest.Shows{Pixel: [4]byte{90, 90, 90}})
		if changed, err := s.Grab(t.Context(), &f); changed || err != nil {
			t.Errorf("the same picture sent again: %v, %v", changed, err)
		}
		part, err := b.Share(t.Context(), number, image.Rect(50, 30, 99, 35))
		if err != nil {
			t.Fatal(err)
		}
		if f := d.next(t, part, 30); f.Size != image.Pt(10, 5) || f.Origin != image.Pt(50, 30) {
			t.Errorf("a part: %v at %v", f.Size, f.Origin)
		}
		s.Close()
		part.Close()
		b.Close()
		portaltest.WaitFor(t, "the session to be closed", func() bool { return d.WasClosed("session") })

		if k.tokens().Load() != "token1" {
			t.Fatalf("kept is %q", k.tokens().Load())
		}
		b = newBackend(t, d.address, k) // the next start
		s, err = b.Share(t.Context(), 0, image.Rectangle{})
		if err != nil {
			t.Fatal(err)
		}
		d.next(t, s, 200)
		if options := d.Gave("SelectSources")[1].(map[string]dbus.Variant); options["restore_token"].Value() != "token1" {
			t.Errorf("the token given is %v", options["restore_token"])
		}
		portaltest.WaitFor(t, "the next token", func() bool { return k.tokens().Load() == "token2" })
		s.Close()
	}
}

// Where the desktop says where a screen lies, that is known of the part that is read: of 60 x 40 pixels
// that it measures as 30 x 20.
func TestPlaceOfWhatIsShared(t *testing.T) {
	d := startDesktop(t, func(f *portaltest.Fake) {
		f.About = map[string]dbus.Variant{
			"position": dbus.MakeVariant(struct{ X, Y int32 }{100, 50}), "size": dbus.MakeVariant(struct{ X, Y int32 }{30, 20}),
		}
	})
	b := newBackend(t, d.address, &kept{})
	number, err := b.Ask(t.Context(), 0)
	if err != nil {
		t.Fatal(err)
	}
	s, err := b.Share(t.Context(), number, image.Rect(40, 20, 60, 40))
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d.next(t, s, 90)
	if got := s.(capture.Placed).Place(); got.Whole != image.Rect(100, 50, 130, 70) || got.Part != image.Rect(120, 60, 130, 70) {
		t.Errorf("it lies at %+v", got)
	}
}

// However sharing ends that is said, and it isn't begun anew without a word of the painter's; nor is
// it where nothing was ever shared.
func TestShareEnds(t *testing.T) {
	for _, tt := range []struct {
		name string
		end  func(*desktop, *backend)
	}{
		{"closed by the desktop", func(d *desktop, b *backend) {
			b.session.mu.Lock()
			defer b.session.mu.Unlock()
			d.Send(b.session.bus.conn.Names()[0], b.session.path, sessionName, "Closed", map[string]dbus.Variant{})
		}},
		{"the portal's service goes", func(d *desktop, _ *backend) { d.Gone() }},
		{"the server of pictures goes", func(d *desktop, _ *backend) { d.server.Kill() }},
		{"the screen goes", func(d *desktop, _ *backend) { d.screen.Close() }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			d := startDesktop(t, nil)
			b := newBackend(t, d.address, &kept{})
			number, err := b.Ask(t.Context(), 0)
			if err != nil {
				t.Fatal(err)
			}
			s, err := b.Share(t.Context(), number, image.Rectangle{})
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			d.next(t, s, 10)
			tt.end(d, b)
			var f capture.Frame
			portaltest.WaitFor(t, "the end", func() bool {
				_, err := s.Grab(t.Context(), &f)
				if err != nil && !errors.Is(err, capture.ErrStopped) {
					t.Fatalf("the error is %v, want ErrStopped", err)
				}
				return err != nil
			})
		})
	}
	t.Run("stays ended", func(t *testing.T) {
		d := startDesktop(t, nil)
		b := newBackend(t, d.address, &kept{})
		number, err := b.Ask(t.Context(), 0)
		if err != nil {
			t.Fatal(err)
		}
		b.session.end(capture.ErrStopped)
		s, err := b.Share(t.Context(), number, image.Rectangle{})
		if err != nil {
			t.Fatal(err)
		}
		var f capture.Frame
		if _, err := s.Grab(t.Context(), &f); !errors.Is(err, capture.ErrStopped) {
			t.Errorf("got %v, want ErrStopped", err)
		}
	})
	t.Run("never begun", func(t *testing.T) {
		b := newBackend(t, noBus, &kept{})
		if _, err := b.Share(t.Context(), 0, image.Rectangle{}); !errors.Is(err, capture.ErrNotShared) {
			t.Errorf("got %v, want ErrNotShared", err)
		}
		if _, err := b.Share(t.Context(), 0, image.Rect(5, 5, 5, 9)); !errors.Is(err, capture.ErrEmpty) {
			t.Errorf("an empty part: %v, want ErrEmpty", err)
		}
	})
	t.Run("the token does no more", func(t *testing.T) {
		address := portaltest.StartBus(t)
		f := portaltest.StartFake(t, address, func(f *portaltest.Fake) { f.Codes = map[string]uint32{"Start": 1} })
		k := &kept{token: "old"}
		b := newBackend(t, address, k)
		s, err := b.Share(t.Context(), 0, image.Rectangle{})
		if err != nil {
			t.Fatal(err)
		}
		var frame capture.Frame
		portaltest.WaitFor(t, "the refusal", func() bool { _, err := s.Grab(t.Context(), &frame); return errors.Is(err, capture.ErrGivenUp) })
		if f.Gave("Start") == nil || k.tokens().Load() != "" {
			t.Errorf("kept is %q", k.tokens().Load())
		}
	})
}

// A session that nobody reads any more ends by itself; one that is read on does not.
func TestUnreadEnds(t *testing.T) {
	d := startDesktop(t, nil)
	b := newBackend(t, d.address, &kept{})
	number, err := b.Ask(t.Context(), 0)
	if err != nil {
		t.Fatal(err)
	}
	one, err := b.Share(t.Context(), number, image.Rectangle{})
	if err != nil {
		t.Fatal(err)
	}
	d.next(t, one, 40)
	one.Close()
	b.session.endIf(func() bool { return len(b.session.streams) == 0 }, errUnread) // what the timer does
	if b.session.ended() == nil {
		t.Error("it goes on unread")
	}
	d.screen.Rests()                                            // a real portal has a new source for each session
	two, err := b.Share(t.Context(), number, image.Rectangle{}) // by the token, which is kept
	if err != nil {
		t.Fatal(err)
	}
	defer two.Close()
	d.next(t, two, 50)
	b.session.endIf(func() bool { return len(b.session.streams) == 0 }, errUnread)
	if b.session.ended() != nil {
		t.Error("it ends while it is read")
	}
}

// Consent to the first picture, on a screen that sends one at once: TONEDESK_LONG=1 prints how long.
func TestFirstPictureComesSoon(t *testing.T) {
	d := startDesktop(t, nil)
	b := newBackend(t, d.address, &kept{})
	number, err := b.Ask(t.Context(), 0)
	if err != nil {
		t.Fatal(err)
	}
	s, err := b.Share(t.Context(), number, image.Rectangle{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d.next(t, s, 10)
	took := time.Since(d.Granted())
	if os.Getenv("TONEDESK_LONG") == "1" {
		t.Logf("first picture after %v", took)
	}
	if took > portaltest.Patience/4 { // to be reached are 100 ms, on a machine with nothing else to do
		t.Errorf("the first picture came after %v", took)
	}
}
