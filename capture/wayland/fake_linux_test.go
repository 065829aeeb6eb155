package wayland

import (
	"context"
	"errors"
	"image"
	"maps"
	"testing"
	"time"

	"app.tonedesk/capture"
	"app.tonedesk/capture/wayland/waylandtest"
)

// Offers of compositors: by one protocol, by the other, by both.
var (
	byWLR = map[string]uint32{waylandtest.Shm: 1, waylandtest.Place: 3, waylandtest.WLR: 3}
	byEXT = map[string]uint32{waylandtest.Shm: 2, waylandtest.Place: 3, waylandtest.EXT: 1, waylandtest.Sources: 1}
)

// without is an offer but for one.
func without(offer map[string]uint32, name string) map[string]uint32 {
	offer = maps.Clone(offer)
	delete(offer, name)
	return offer
}

// acts is what a fake does at least.
func acts(offer map[string]uint32, set func(*waylandtest.Acts)) waylandtest.Acts {
	a := waylandtest.Acts{Offers: offer, Screens: []string{"DP-1"}, Format: xrgb8888, Size: image.Pt(40, 30)}
	if set != nil {
		set(&a)
	}
	return a
}

func at(f *waylandtest.Fake) Compositor { return Compositor{f.Socket, 20 * time.Second} }

func openFake(t *testing.T, f *waylandtest.Fake, part image.Rectangle) *Stream {
	t.Helper()
	s, err := at(f).Open(t.Context(), "DP-1", part)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// bgr is a pixel of a frame.
func bgr(f capture.Frame, x, y int) [3]byte { return [3]byte(f.Pix[y*f.Stride+4*x:]) }

// white is what a fake's first pixel in memory shows; red, as the four bytes 1, 2, 200, 0.
var (
	white = [3]byte{255, 255, 255}
	red   = [4]byte{1, 2, 200, 0}
)

// Pictures come upright, in every format that is read and by both protocols. The first pixel in memory
// tells how it was turned: where it comes to lie is written down from the words of wl_output.transform.
func TestFakeShows(t *testing.T) {
	for _, tt := range []struct {
		name   string
		set    func(*waylandtest.Acts)
		wlr    bool // that protocol alone knows of it
		size   image.Point
		corner image.Point
		pixel  [3]byte
	}{
		{name: "as it is", size: image.Pt(40, 30), pixel: [3]byte{1, 2, 200}},
		{name: "with alpha", set: func(a *waylandtest.Acts) { a.Format = argb8888 }, size: image.Pt(40, 30), pixel: [3]byte{1, 2, 200}},
		{name: "red first", set: func(a *waylandtest.Acts) { a.Format = 0x34324258 }, size: image.Pt(40, 30), pixel: [3]byte{200, 2, 1}},             // XB24
		{name: "red first, with alpha", set: func(a *waylandtest.Acts) { a.Format = 0x34324241 }, size: image.Pt(40, 30), pixel: [3]byte{200, 2, 1}}, // AB24
		{name: "upside down", set: func(a *waylandtest.Acts) { a.Invert = true }, wlr: true, size: image.Pt(40, 30), corner: image.Pt(0, 29), pixel: [3]byte{1, 2, 200}},
		{name: "turned left by 90", set: func(a *waylandtest.Acts) { a.Turn = 1 }, size: image.Pt(30, 40), corner: image.Pt(29, 0), pixel: [3]byte{1, 2, 200}},
		{name: "turned by 180", set: func(a *waylandtest.Acts) { a.Turn = 2 }, size: image.Pt(40, 30), corner: image.Pt(39, 29), pixel: [3]byte{1, 2, 200}},
		{name: "turned left by 270", set: func(a *waylandtest.Acts) { a.Turn = 3 }, size: image.Pt(30, 40), corner: image.Pt(0, 39), pixel: [3]byte{1, 2, 200}},
		{name: "mirrored", set: func(a *waylandtest.Acts) { a.Turn = 4 }, size: image.Pt(40, 30), corner: image.Pt(39, 0), pixel: [3]byte{1, 2, 200}},
		{name: "mirrored, turned left by 90", set: func(a *waylandtest.Acts) { a.Turn = 5 }, size: image.Pt(30, 40), corner: image.Pt(0, 0), pixel: [3]byte{1, 2, 200}},
	} {
		for protocol, offer := range map[string]map[string]uint32{"wlr-screencopy": byWLR, "ext-image-copy-capture": byEXT} {
			if tt.wlr && protocol != "wlr-screencopy" {
				continue
			}
			t.Run(tt.name+" by "+protocol, func(t *testing.T) {
				f := waylandtest.StartFake(t, acts(offer, tt.set))
				f.Change(red, nil)
				until(t, "the picture", openFake(t, f, image.Rectangle{}), func(f capture.Frame) bool {
					if f.Size != tt.size || bgr(f, tt.corner.X, tt.corner.Y) != white || bgr(f, 20, 20) != tt.pixel {
						t.Fatalf("%v, first pixel %v, others %v", f.Size, bgr(f, tt.corner.X, tt.corner.Y), bgr(f, 20, 20))
					}
					return true
				})
			})
		}
	}
}

// The newer protocol is taken where both are offered, the readable format where there are several; changes
// come as they happen, of another size too, and nothing is asked for in between.
func TestFakeChanges(t *testing.T) {
	both := maps.Clone(byWLR)
	maps.Copy(both, byEXT)
	for name, offer := range map[string]map[string]uint32{"wlr-screencopy": byWLR, "ext-image-copy-capture": byEXT, "both": both} {
		t.Run(name, func(t *testing.T) {
			f := waylandtest.StartFake(t, acts(offer, func(a *waylandtest.Acts) { a.Others = []uint32{0x30335258} })) // XR30
			s := openFake(t, f, image.Rectangle{})
			for shade := byte(10); shade < 200; shade += 10 {
				if shade == 100 {
					f.Change([4]byte{1}, func(a *waylandtest.Acts) { a.Size = image.Pt(50, 60) })
				}
				f.Change([4]byte{shade, shade, shade}, nil)
				until(t, "a change", s, func(f capture.Frame) bool { return bgr(f, 5, 5) == [3]byte{shade, shade, shade} })
			}
			copies := func() int { return f.Count("copy") + f.Count("copy_with_damage") + f.Count("capture") }
			waylandtest.WaitFor(t, "the next to be asked for", f.Waited)
			asked := copies()
			var frame capture.Frame
			for range 50 {
				if changed, err := s.Grab(t.Context(), &frame); changed || err != nil {
					t.Fatalf("where nothing changes: %v, %v", changed, err)
				}
			}
			if copies() != asked {
				t.Errorf("%d copies were asked for, then %d", asked, copies())
			}
			if wlr := f.Count("capture_output"); (wlr > 0) != (name == "wlr-screencopy") {
				t.Errorf("by the older protocol %d", wlr)
			}
			f.Change([4]byte{9, 9, 9}, nil)
			select {
			case <-s.Changes():
			case <-time.After(20 * time.Second):
				t.Error("no word of a change")
			}
		})
	}
}

// What there can't be is said by one of the errors that Compositor names, and nothing waits for it.
func TestFakeRefuses(t *testing.T) {
	short := 100 * time.Millisecond
	for _, tt := range []struct {
		name string
		acts waylandtest.Acts
		want error
	}{
		{"neither protocol", acts(without(byWLR, waylandtest.WLR), nil), capture.ErrNoPortal},
		{"the newer one without sources", acts(without(byEXT, waylandtest.Sources), nil), capture.ErrNoPortal},
		{"the older one as it was", acts(map[string]uint32{waylandtest.Shm: 1, waylandtest.Place: 3, waylandtest.WLR: 2}, nil), capture.ErrNoPortal},
		{"no memory", acts(without(byWLR, waylandtest.Shm), nil), capture.ErrNoPortal},
		{"no names of screens", acts(without(byWLR, waylandtest.Place), nil), capture.ErrNoPortal},
		{"no such screen", acts(byWLR, func(a *waylandtest.Acts) { a.Screens = []string{"DP-2"} }), capture.ErrGone},
		{"a screen without a size", acts(byWLR, func(a *waylandtest.Acts) { a.Size = image.Point{} }), capture.ErrGone},
		{"silent", acts(byWLR, func(a *waylandtest.Acts) { a.Silent = "sync" }), capture.ErrNotAnswering},
		{"nonsense", acts(byWLR, func(a *waylandtest.Acts) { a.Says = []byte("no message of any kind") }), capture.ErrSharing},
		{"a message cut short", acts(byWLR, func(a *waylandtest.Acts) { a.Says = []byte{1, 0, 0, 0, 0, 0, 12, 0, 1, 0, 0, 0} }), capture.ErrSharing},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := at(waylandtest.StartFake(t, tt.acts))
			if tt.want == capture.ErrNotAnswering {
				c.Wait = short
			}
			if _, err := c.Open(t.Context(), "DP-1", image.Rectangle{}); !errors.Is(err, tt.want) {
				t.Errorf("got %v, want %v", err, tt.want)
			}
		})
	}
	t.Run("given up", func(t *testing.T) {
		f := waylandtest.StartFake(t, acts(byWLR, func(a *waylandtest.Acts) { a.Silent = "sync" }))
		ctx, cancel := context.WithCancel(t.Context())
		go func() {
			for f.Count("sync") == 0 {
				time.Sleep(time.Millisecond)
			}
			cancel()
		}()
		if _, err := at(f).Screens(ctx); !errors.Is(err, context.Canceled) {
			t.Errorf("got %v, want context.Canceled", err)
		}
	})
	t.Run("nobody there", func(t *testing.T) {
		if _, err := (Compositor{"/nonexistent", short}).Screens(t.Context()); !errors.Is(err, capture.ErrNoDisplay) {
			t.Errorf("got %v, want ErrNoDisplay", err)
		}
	})
	t.Run("an empty part", func(t *testing.T) {
		if _, err := (Compositor{}).Open(t.Context(), "DP-1", image.Rect(3, 3, 3, 9)); !errors.Is(err, capture.ErrEmpty) {
			t.Errorf("got %v, want ErrEmpty", err)
		}
	})
}

// However reading goes wrong later, that is said; what may pass is tried again.
func TestFakeFails(t *testing.T) {
	for _, tt := range []struct {
		name    string
		offer   map[string]uint32
		set     func(*waylandtest.Acts)
		then    func(*waylandtest.Fake)
		want    error
		mending func(*waylandtest.Acts) // after which it goes on; nil: it doesn't
	}{
		{name: "the screen goes", offer: byWLR, then: (*waylandtest.Fake).Unplug, want: capture.ErrGone},
		{name: "the screen goes, newer", offer: byEXT, then: (*waylandtest.Fake).Unplug, want: capture.ErrGone},
		{name: "the compositor goes", offer: byWLR, then: (*waylandtest.Fake).End, want: capture.ErrDisconnected},
		{name: "it blames us", offer: byWLR, then: (*waylandtest.Fake).Blame, want: capture.ErrSharing},
		{name: "copying is stopped", offer: byEXT, then: (*waylandtest.Fake).Stop, want: capture.ErrStopped},
		{name: "not allowed, as it seems", offer: byWLR, set: func(a *waylandtest.Acts) { a.Fails = 1 << 30 }, want: capture.ErrSharing, mending: func(a *waylandtest.Acts) { a.Fails = 0 }},
		{name: "not allowed, newer", offer: byEXT, set: func(a *waylandtest.Acts) { a.Fails = 1 << 30 }, want: capture.ErrSharing, mending: func(a *waylandtest.Acts) { a.Fails = 0 }},
		{name: "ended by a copy", offer: byEXT, set: func(a *waylandtest.Acts) { a.Fails, a.Reason = 1, 2 }, want: capture.ErrStopped},
		{name: "10 bits a colour", offer: byWLR, set: func(a *waylandtest.Acts) { a.Format = 0x30335258 }, want: capture.ErrFormat, mending: func(a *waylandtest.Acts) { a.Format = xrgb8888 }},
		{name: "10 bits a colour, newer", offer: byEXT, set: func(a *waylandtest.Acts) { a.Format = 0x30335258 }, want: capture.ErrFormat},
		{name: "too large", offer: byEXT, set: func(a *waylandtest.Acts) { a.Size = image.Pt(1<<20, 1<<20) }, want: capture.ErrFormat},
		{name: "too large, older", offer: byWLR, set: func(a *waylandtest.Acts) { a.Size = image.Pt(1<<20, 1<<20) }, want: capture.ErrFormat},
	} {
		t.Run(tt.name, func(t *testing.T) {
			f := waylandtest.StartFake(t, acts(tt.offer, tt.set))
			s := openFake(t, f, image.Rectangle{})
			if tt.then != nil {
				until(t, "a picture", s, func(capture.Frame) bool { return true })
				tt.then(f)
			}
			var frame capture.Frame
			waylandtest.WaitFor(t, "the error", func() bool {
				_, err := s.Grab(t.Context(), &frame)
				if err != nil && !errors.Is(err, tt.want) {
					t.Fatalf("got %v, want %v", err, tt.want)
				}
				return err != nil
			})
			if tt.mending == nil {
				return
			}
			f.Change(red, tt.mending)
			waylandtest.WaitFor(t, "it to go on", func() bool {
				changed, _ := s.Grab(t.Context(), &frame)
				return changed
			})
		})
	}
	t.Run("a few copies that fail are nothing", func(t *testing.T) {
		for _, offer := range []map[string]uint32{byWLR, byEXT} {
			f := waylandtest.StartFake(t, acts(offer, func(a *waylandtest.Acts) { a.Fails = 2 }))
			until(t, "a picture", openFake(t, f, image.Rectangle{}), func(capture.Frame) bool { return true })
		}
	})
	t.Run("a part that is outside now", func(t *testing.T) {
		f := waylandtest.StartFake(t, acts(byWLR, nil))
		s := openFake(t, f, image.Rect(30, 20, 99, 99))
		until(t, "a picture", s, func(f capture.Frame) bool { return f.Size == image.Pt(10, 10) && f.Origin == image.Pt(30, 20) })
		f.Change(red, func(a *waylandtest.Acts) { a.Size = image.Pt(20, 20) })
		var frame capture.Frame
		waylandtest.WaitFor(t, "the error", func() bool { _, err := s.Grab(t.Context(), &frame); return errors.Is(err, capture.ErrPart) })
		f.Change(red, func(a *waylandtest.Acts) { a.Size = image.Pt(80, 80) })
		waylandtest.WaitFor(t, "it to go on", func() bool {
			changed, _ := s.Grab(t.Context(), &frame)
			return changed && frame.Size == image.Pt(50, 60)
		})
	})
}

// Screens are listed from left to right.
func TestFakeScreens(t *testing.T) {
	f := waylandtest.StartFake(t, acts(byEXT, func(a *waylandtest.Acts) { a.Screens, a.Turn = []string{"DP-1", "eDP-1"}, 3 })) // each left of the one before
	screens, err := at(f).Screens(t.Context())
	if err != nil || len(screens) != 2 || screens[0].Name != "eDP-1" || screens[1].Name != "DP-1" || screens[0].Size != image.Pt(30, 40) {
		t.Errorf("the screens are %+v, %v", screens, err)
	}
}

func TestOf(t *testing.T) {
	for _, tt := range []struct{ display, dir, want string }{
		{"wayland-3", "/run/user/7", "/run/user/7/wayland-3"},
		{"", "/run/user/7", "/run/user/7/wayland-0"},
		{"/elsewhere/w", "/run/user/7", "/elsewhere/w"},
		{"", "", "/nonexistent/wayland-0"},
	} {
		env := map[string]string{"WAYLAND_DISPLAY": tt.display, "XDG_RUNTIME_DIR": tt.dir}
		if got := Of(func(name string) string { return env[name] }).Socket; got != tt.want {
			t.Errorf("%q in %q: %s, want %s", tt.display, tt.dir, got, tt.want)
		}
	}
}
