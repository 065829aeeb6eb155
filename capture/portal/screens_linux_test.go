//go:build cgo

package portal

import (
	"errors"
	"image"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/capture/pipewire"
	"app.tonedesk/capture/portal/portaltest"
	"app.tonedesk/capture/wayland"
	"app.tonedesk/capture/wayland/waylandtest"
)

// compositorWith is a compositor that shares screens of these names with every program.
func compositorWith(t *testing.T, names ...string) *waylandtest.Fake {
	return waylandtest.StartFake(t, waylandtest.Acts{
		Offers:  map[string]uint32{waylandtest.Shm: 1, waylandtest.Place: 3, waylandtest.WLR: 3},
		Screens: names, Format: 1, Size: image.Pt(40, 30),
	})
}

// besides is a way by a portal at an address, beside a compositor.
func besides(t *testing.T, address string, f *waylandtest.Fake, k *kept) *backend {
	b := &backend{windowsAlone: noWindows{}, address: address, tokens: k.tokens(), waits: waits{call: portaltest.Patience, people: portaltest.Patience}}
	b.screens.compositor = wayland.Compositor{Socket: f.Socket, Wait: portaltest.Patience}
	t.Cleanup(func() { b.Close() })
	return b
}

// waitForPicture waits for one of a shade.
func waitForPicture(t *testing.T, s capture.Stream, shade byte) (f capture.Frame) {
	t.Helper()
	portaltest.WaitFor(t, "a picture", func() bool {
		changed, err := s.Grab(t.Context(), &f)
		if err != nil {
			t.Fatal(err)
		}
		return changed && f.Pix[4*f.Size.X*f.Size.Y-4] == shade
	})
	return f
}

// Without a portal the compositor's one screen is shared at once, a part of it too, and it comes back at
// the next start.
func TestCompositorShares(t *testing.T) {
	f := compositorWith(t, "DP-1")
	f.Change([4]byte{90, 90, 90}, nil)
	k := &kept{}
	b := besides(t, portaltest.StartBus(t), f, k)
	number, err := b.Ask(t.Context(), 0)
	if err != nil || number == 0 {
		t.Fatal(number, err)
	}
	if k.tokens().Load() != "" {
		t.Error("it is kept before it is read")
	}
	part, err := b.Share(t.Context(), number, image.Rect(30, 20, 99, 99))
	if err != nil {
		t.Fatal(err)
	}
	defer part.Close()
	if got := waitForPicture(t, part, 90); got.Size != image.Pt(10, 10) || got.Origin != image.Pt(30, 20) {
		t.Errorf("a part: %v at %v", got.Size, got.Origin)
	}
	if got := part.(capture.Placed).Place(); got.Whole != image.Rect(0, 0, 20, 15) || got.Part != image.Rect(15, 10, 20, 15) {
		t.Errorf("a part lies at %+v", got)
	}
	b.Close()
	if _, err := part.Grab(t.Context(), new(capture.Frame)); !errors.Is(err, capture.ErrClosed) {
		t.Errorf("after the backend was closed: %v, want ErrClosed", err)
	}

	b = besides(t, noBus, f, k) // the next start
	s, err := b.Share(t.Context(), 0, image.Rectangle{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if _, ok := s.(capture.Notifier); !ok {
		t.Error("it tells of no change")
	}
	waitForPicture(t, s, 90)
	if _, err := b.Share(t.Context(), 99, image.Rectangle{}); !errors.Is(err, capture.ErrNotShared) {
		t.Errorf("a number that was never given: %v, want ErrNotShared", err)
	}
}

// Of several screens the painter chooses one.
func TestCompositorHasSeveralScreens(t *testing.T) {
	f := compositorWith(t, "DP-1", "DP-2")
	k := &kept{}
	b := besides(t, noBus, f, k)
	_, err := b.Ask(t.Context(), 0)
	var several *capture.Several
	if !errors.As(err, &several) || len(several.Screens) != 2 || several.Screens[1].Name != "DP-1" { // the first lies right
		t.Fatalf("got %v", err)
	}
	s, err := b.Share(t.Context(), several.Screens[0].Number, image.Rectangle{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if got := k.tokens().Load(); !strings.HasSuffix(got, "DP-2") {
		t.Errorf("kept is %q", got)
	}
}

// Where the portal can be asked its answer counts, and the compositor is never used in its place: a no is a
// no.
func TestPortalComesFirst(t *testing.T) {
	for _, tt := range []struct {
		name   string
		portal func(*portaltest.Fake)
		want   error
	}{
		{"said no", func(f *portaltest.Fake) { f.Codes = map[string]uint32{"Start": 1} }, capture.ErrGivenUp},
		{"it fails", func(f *portaltest.Fake) { f.Codes = map[string]uint32{"Start": 2} }, capture.ErrSharing},
		{"nobody answers", func(f *portaltest.Fake) { f.Unanswered = "Start" }, capture.ErrUnanswered},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if err := pipewire.Loads(); err != nil {
				t.Skip("libpipewire is not installed: install Debian's libpipewire-0.3-0 to try this")
			}
			address := portaltest.StartBus(t)
			portaltest.StartFake(t, address, tt.portal)
			f := compositorWith(t, "DP-1")
			b := besides(t, address, f, &kept{})
			if tt.want == capture.ErrUnanswered {
				b.waits.people = 300 * time.Millisecond
			}
			if n, err := b.Ask(t.Context(), 0); n != 0 || !errors.Is(err, tt.want) {
				t.Errorf("got %d, %v, want %v", n, err, tt.want)
			}
			if f.Count("sync") != 0 {
				t.Error("the compositor was asked")
			}
		})
	}
	t.Run("neither", func(t *testing.T) {
		b := besides(t, noBus, waylandtest.StartFake(t, waylandtest.Acts{}), &kept{})
		if n, err := b.Ask(t.Context(), 0); n != 0 || !errors.Is(err, capture.ErrNoPortal) {
			t.Errorf("got %d, %v, want ErrNoPortal", n, err)
		}
	})
}
