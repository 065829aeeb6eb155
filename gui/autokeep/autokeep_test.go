package autokeep

import (
	"image"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
)

// bench is a keeper whose clock, window and pictures are made up.
type bench struct {
	*Keeper
	set    settings.Settings
	now    Seen
	live   bool
	frozen bool
	byHand Seen
	pixels analysis.Pixels
	needs  []string

	waits []time.Duration // of the timers that were begun
	ring  func()          // has the last of them ring; nil where it was stopped
	told  int             // of stills that changed
	held  []func(*live.Copy)
	holds bool // copies wait
}

var painting = setup.Source{Kind: setup.SourcePicture, Path: "/paintings/night.png"}

func newBench(t *testing.T) *bench {
	t.Helper()
	app := test.NewTempApp(t)
	b := &bench{set: settings.Defaults(), now: Seen{painting, time.Unix(1, 0)}, live: true, pixels: plain(40)}
	b.set.KeepEvery = 10
	h := &host.Host{App: app, Window: test.NewTempWindow(t, nil), Spawn: func(f func()) { f() }}
	h.Store = stills.New(stills.Folders{Data: filepath.Join(t.TempDir(), "stills")})
	h.Notify = func(e host.PageEvent) {
		if e == host.StillsChanged {
			b.told++
		}
	}
	h.Later = func(after time.Duration, do func()) (stop func()) {
		b.waits, b.ring = append(b.waits, after), do
		return func() { b.ring = nil }
	}
	b.Keeper = &Keeper{Host: h, Acts: Acts{
		Settings: &b.set, Renewed: func() {}, Frozen: func() bool { return b.frozen },
		Now: func() (Seen, bool) { return b.now, b.live }, ByHand: func() Seen { return b.byHand },
		Copy: func(do func(*live.Copy)) {
			if b.held = append(b.held, do); !b.holds {
				b.hand()
			}
		},
		Said: func(*live.Copy) func(*stills.Meta) {
			return func(m *stills.Meta) { m.LocalColours = []stills.LocalColour{{Kept: true}} }
		},
		MetaOf: func(c *live.Copy) stills.Meta { return stills.Meta{Source: stills.SourceOf(c.Source, c.Bounds)} },
		Needs:  func() []string { return b.needs },
	}}
	b.Renew()
	return b
}

// plain is a picture of one grey.
func plain(grey uint8) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*16*16), Stride: 4 * 16, Width: 16, Height: 16}
	for i := range 16 * 16 {
		copy(p.Pix[4*i:], []byte{grey, grey, grey, 255})
	}
	return p
}

// hand hands a copy of the picture of now to all who wait for one.
func (b *bench) hand() {
	held := b.held
	b.held = nil
	for _, do := range held {
		do(&live.Copy{Pixels: b.pixels, Bounds: image.Rect(0, 0, 16, 16), At: b.now.At, Source: b.now.Source})
	}
}

// change has the picture be another one.
func (b *bench) change() { b.now.At = b.now.At.Add(time.Minute) }

// kept lists the stills there are, newest first.
func (b *bench) kept(t *testing.T) []stills.Entry {
	t.Helper()
	list, _, err := b.Store.List()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// A changed picture is kept at every ring, with all that is known of it; an unchanged one never, nor
// one that the painter has kept, a frozen or a lost one, or what doesn't change.
func TestKeepsWhileItChanges(t *testing.T) {
	b := newBench(t)
	want := 0
	for _, step := range []struct {
		what string
		do   func()
		kept bool
	}{
		{"the first picture", func() {}, true},
		{"unchanged", func() {}, false},
		{"changed", b.change, true},
		{"frozen", func() { b.frozen = true; b.change() }, false},
		{"going on", func() { b.frozen = false }, true},
		{"kept by hand", func() { b.change(); b.byHand = b.now }, false},
		{"lost", func() { b.change(); b.live = false }, false},
		{"back", func() { b.live = true }, true},
		{"a still", func() { b.change(); b.now.Source = setup.Source{Kind: setup.SourceStill, Path: "x"} }, false},
		{"the demo", func() { b.now.Source = setup.Source{Kind: setup.SourceDemo} }, false},
		{"another picture", func() { b.now.Source = setup.Source{Kind: setup.SourcePicture, Path: "/b.png"} }, true},
		{"before its first frame", func() { b.now = Seen{Source: painting} }, false},
	} {
		step.do()
		b.Renew()
		b.ring()
		if step.kept {
			want++
		}
		if got := len(b.kept(t)); got != want || b.told != want {
			t.Fatalf("%s: %d kept, told %d, want %d", step.what, got, b.told, want)
		}
	}
	for _, e := range b.kept(t) {
		if !e.Automatic || !e.MayGo() || e.Time.IsZero() || len(e.LocalColours) != 1 || e.Source.Kind != stills.FromPicture {
			t.Errorf("%+v", e.Meta)
		}
	}
	for _, wait := range b.waits {
		if wait != 10*time.Minute {
			t.Errorf("waits %v", wait)
		}
	}
}

// A picture that is frozen before its copy comes is not kept.
func TestFrozenMeanwhile(t *testing.T) {
	b := newBench(t)
	b.holds = true
	b.ring()
	b.frozen = true
	b.hand()
	if kept := b.kept(t); len(kept) != 0 {
		t.Errorf("kept %+v", kept)
	}
}

// A chip says that it keeps, or why not, and its tap ends that; which can be undone. Off, nothing
// waits and nothing is said.
func TestChip(t *testing.T) {
	b := newBench(t)
	says := func(want string) {
		t.Helper()
		if got := b.Messages.Said[host.MessageKeeps]; got != want {
			t.Errorf("says %q, want %q", got, want)
		}
	}
	says("Keeps every 10\u00a0minutes")
	b.frozen = true
	b.Renew()
	says("Keeps none while frozen")
	b.frozen = false
	before := len(b.waits)
	b.Renew()
	if len(b.waits) != before {
		t.Error("the time begins anew with every frame")
	}
	b.Messages.Acts[host.MessageKeeps].Do()
	says("")
	if b.set.KeepEvery != 0 || b.ring != nil {
		t.Errorf("every %d", b.set.KeepEvery)
	}
	b.Messages.Acts[host.MessageNote].Do()
	says("Keeps every 10\u00a0minutes")
	if b.set.KeepEvery != 10 || b.ring == nil {
		t.Errorf("every %d", b.set.KeepEvery)
	}
	b.set.KeepEvery = 60
	b.Renew()
	says("Keeps every 1\u00a0hour")
	if b.waits[len(b.waits)-1] != time.Hour {
		t.Errorf("waits %v", b.waits)
	}
	b.now.Source = setup.Source{Kind: setup.SourceDemo}
	b.Renew()
	says("")
	b.set.KeepEvery = 0
	b.Renew()
	if b.ring != nil {
		t.Error("it waits though it is off")
	}
}

// The oldest give way to the newest, but none that is in use; one that has no room at all is not
// kept, and that is said.
func TestKeepsItsRoom(t *testing.T) {
	b := newBench(t)
	b.ring()
	first := b.kept(t)[0].ID
	b.needs = []string{first}
	noise := analysis.Pixels{Pix: make([]byte, 4*2200*2600), Stride: 4 * 2200, Width: 2200, Height: 2600}
	seed := uint32(1)
	for i := range noise.Pix { // which no PNG can shrink: 16 MiB or more
		seed = seed*1664525 + 1013904223
		noise.Pix[i] = byte(seed>>24) | 1
		if i%4 == 3 {
			noise.Pix[i] = 255
		}
	}
	b.pixels = noise
	b.set.KeepLimit = 40
	var all []string
	for range 4 {
		b.change()
		b.ring()
		if said := b.Messages.Said[host.MessageError]; said != "" {
			t.Fatal(said)
		}
		all = append(all, b.kept(t)[0].ID)
	}
	var got []string
	for _, e := range b.kept(t) {
		got = append(got, e.ID)
	}
	if want := []string{all[3], all[2], first}; !slices.Equal(got, want) {
		t.Errorf("%q are left, want %q", got, want)
	}
	b.set.KeepLimit = 1
	b.change()
	b.ring()
	if said := b.Messages.Said[host.MessageError]; said == "" {
		t.Error("nobody says that there is no room for one")
	}
	if left := b.kept(t); len(left) != 1 || left[0].ID != first {
		t.Errorf("%d are left", len(left))
	}
}

// Where nothing can be kept a sentence says so, and the next ring tries again.
func TestFails(t *testing.T) {
	b := newBench(t)
	b.pixels = analysis.Pixels{}
	b.ring()
	if said := b.Messages.Said[host.MessageError]; said == "" {
		t.Error("nobody says so")
	}
	b.pixels = plain(40)
	b.ring()
	if len(b.kept(t)) != 1 {
		t.Error("it is not tried again")
	}
}
