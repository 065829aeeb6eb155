package everywhere

import (
	"context"
	"errors"
	"fmt"
	"image"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// bench is an owner whose system is made up.
type bench struct {
	*Keys
	set      settings.Settings
	setup    setup.Setup
	steps    int
	holds    [][]native.Chord // each wish
	hearer   native.KeyHearer // of the last
	refuse   map[string]error // by chord
	failed   error
	selected int
	under    image.Point // of our picture, where the pointer is; zero: elsewhere
	done     []Deed
}

func newBench(t *testing.T, from setup.Source) *bench {
	t.Helper()
	app := test.NewTempApp(t)
	b := &bench{set: settings.Defaults(), setup: setup.Setup{Source: from}, refuse: map[string]error{}}
	h := &host.Host{App: app, Window: test.NewTempWindow(t, nil), Spawn: func(f func()) { f() }}
	h.Messages.Over = widgets.NewMessages(nil, nil)
	h.Steps = host.Steps{Now: func() setup.Setup { return b.setup }, Settle: func() {}, Change: func(next setup.Setup, _ string) { b.setup = next; b.steps++ }}
	acts := Acts{
		Handle: func() uintptr { return 0 }, Select: func(i int) { b.selected = i }, Kept: func() {}, Renewed: func() {},
		Shows: func(image.Point) (image.Point, bool) { return image.Point{}, false },
		Under: func() (image.Point, bool) { return b.under, b.under != image.Point{} },
		Use:   func(func(capture.Backend) error) error { return capture.ErrNoDisplay },
	}
	for d := range deeds {
		acts.Do[d] = func() { b.done = append(b.done, d) }
	}
	b.Keys = New(h, &b.set, acts)
	b.hold = func(chords []native.Chord, hearer native.KeyHearer) (each []error, failed error) {
		b.holds, b.hearer = append(b.holds, chords), hearer
		for _, c := range chords {
			each = append(each, b.refuse[c.String()])
		}
		return each, b.failed
	}
	return b
}

// last is the last wish, written out.
func (b *bench) last() (words []string) {
	if len(b.holds) == 0 {
		return nil
	}
	for _, c := range b.holds[len(b.holds)-1] {
		words = append(words, c.String())
	}
	return words
}

func (b *bench) says(i int) string { return b.Rows()[i].Says() }

// Nothing is asked of the system while the keys are off; on, all are held; off again, none; ending,
// none. Every deed has a key of its own at first, which can be held.
func TestKeysAreOffAtFirst(t *testing.T) {
	b := newBench(t, setup.Source{})
	b.Begin()
	b.LetGo()
	if len(b.holds) > 0 {
		t.Errorf("off, %v is held", b.holds)
	}
	b.Switch(true)
	first := b.last()
	if !b.set.Everywhere || len(first) != int(deeds) || len(slices.Compact(slices.Sorted(slices.Values(first)))) != int(deeds) {
		t.Errorf("on, %q is held", first)
	}
	b.hearer.Pressed(int(Keep), image.Point{})
	if !slices.Equal(b.done, []Deed{Keep}) {
		t.Errorf("done is %v", b.done)
	}
	b.Switch(false)
	if len(b.holds) != 2 || len(b.last()) != 0 {
		t.Errorf("off again, %q is held", b.last())
	}
}

// What is refused is said at its row and over the picture, and no longer once another key is chosen.
func TestKeysAreRefused(t *testing.T) {
	b := newBench(t, setup.Source{})
	b.refuse["Ctrl+Alt+2"] = fmt.Errorf("hold: %w", native.ErrKeyHeld)
	b.set.Everywhere = true
	b.Begin()
	if got, want := b.Messages.Said[host.MessageError], wording.SayKeysHeld([]string{"Ctrl+Alt+2"}); got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	row := 1 + int(SpotB)
	if got, want := b.says(row), wording.SayKeyTrouble("Ctrl+Alt+2", native.ErrKeyHeld); got != want || b.says(row-1) != "" {
		t.Errorf("the row says %q, want %q; the one above %q", got, want, b.says(row-1))
	}
	b.listen(SpotB, true)
	if len(b.last()) != 0 {
		t.Errorf("while one is chosen %q is held", b.last())
	}
	const ctrlAlt = fyne.KeyModifierControl | fyne.KeyModifierAlt
	for _, refused := range []struct {
		held fyne.KeyModifier
		key  fyne.KeyName
		says string
	}{
		{0, "B", wording.SayNeedsHeld.String()}, {fyne.KeyModifierShift, "B", wording.SayNeedsHeld.String()}, {ctrlAlt, fyne.KeyTab, wording.SayNoChord.String()},
		{ctrlAlt, fyne.Key1, wording.SayKeyTaken("Ctrl+Alt+1", "Spot A here")},
	} {
		if b.choose(SpotB, refused.held, refused.key) || b.said[SpotB] != refused.says {
			t.Errorf("%v and %s: it says %q, want %q", refused.held, refused.key, b.said[SpotB], refused.says)
		}
	}
	if !b.choose(SpotB, ctrlAlt, fyne.KeyPageDown) {
		t.Error("a key that can be is not taken")
	}
	b.listen(SpotB, false)
	if got := b.last(); len(got) != int(deeds) || got[SpotB] != "Ctrl+Alt+Page down" || b.says(row) != "" || b.Messages.Said[host.MessageError] != "" {
		t.Errorf("held is %q; the row says %q, the window %q", got, b.says(row), b.Messages.Said[host.MessageError])
	}
	b.setKey(Freeze, "")
	if got := b.last(); len(got) != int(deeds)-1 || slices.Contains(got, "Ctrl+Alt+3") {
		t.Errorf("one cleared, %q is held", got)
	}
	b.hearer.Pressed(int(Freeze), image.Point{}) // the third that is held
	if !slices.Equal(b.done, []Deed{Keep}) {
		t.Errorf("done is %v, want the deed of the third key that is held", b.done)
	}
	b.hearer.Changed(nil, native.ErrKeysLost)
	if got := b.says(0); got != wording.SayKeysTrouble(native.ErrKeysLost) {
		t.Errorf("lost, it says %q", got)
	}
}

// On the region a key sets a living place, also again; outside of it what is read once; without an A
// B becomes it; each is a step of undo.
func TestSpotsByKeys(t *testing.T) {
	b := newBench(t, setup.Source{Kind: setup.SourceRegion, Region: image.Rect(100, 100, 200, 200)})
	b.pressed(SpotB, image.Pt(150, 160))
	b.pressed(SpotB, image.Pt(110, 120))
	b.pressed(SpotA, image.Pt(130, 140))
	want := []setup.Place{{At: image.Pt(130, 140)}, {At: image.Pt(110, 120)}}
	if !slices.Equal(b.setup.Places, want) || b.steps != 3 || b.selected != 0 {
		t.Errorf("places %v after %d steps, selected %d; want %v", b.setup.Places, b.steps, b.selected, want)
	}
	b.pressed(SpotA, image.Pt(99, 140))
	if got := b.Messages.Said[host.MessageError]; !slices.Equal(b.setup.Places, want) || got != wording.Explain("read the screen at the pointer", capture.ErrNoDisplay) {
		t.Errorf("without a screen to read: %v, it says %q", b.setup.Places, got)
	}
	b.Use = func(do func(capture.Backend) error) error { return do(redScreen{t: t}) }
	b.pressed(SpotA, image.Pt(99, 140))
	if a := b.setup.Places[0]; a.Fixed == nil || a.Fixed.Colour.Hex() != "#c80a1e" || b.setup.Places[1] != want[1] {
		t.Errorf("outside: %+v", b.setup.Places)
	}
	if got := b.Messages.Said[host.MessageNote]; got != wording.SayFixed("A") {
		t.Errorf("it says %q", got)
	}
	b.setup = setup.Setup{Source: setup.Source{Kind: setup.SourceNothing}}
	b.pressed(SpotA, image.Pt(99, 140))
	if b.Messages.Said[host.MessageNote] != wording.SayWatchFirst.String() || len(b.setup.Places) > 0 {
		t.Errorf("with nothing watched: %v, it says %q", b.setup.Places, b.Messages.Said[host.MessageNote])
	}
}

// redScreen is asked for the square around one place only, and is red there.
type redScreen struct {
	capture.Backend
	t *testing.T
}

func (redScreen) Pointer(context.Context) (image.Point, error) { return image.Pt(99, 140), nil }

func (s redScreen) ReadSquare(_ context.Context, around image.Point, side int) (capture.Frame, error) {
	if around != image.Pt(99, 140) || side != 3 { // the settings' default
		s.t.Errorf("read are %d pixels around %v", side, around)
	}
	return capture.Frame{Pix: []byte{200, 10, 30, 255}, Stride: 4, Size: image.Pt(1, 1)}, nil
}

// Presses are done in their order, however long one takes, and another picture drops what waits.
func TestPressesWaitForEachOther(t *testing.T) {
	b := newBench(t, setup.Source{Kind: setup.SourceRegion, Region: image.Rect(0, 0, 9, 9)})
	var later []func()
	b.Spawn = func(f func()) { later = append(later, f) }
	b.pressed(SpotA, image.Pt(1, 1))
	b.pressed(SpotB, image.Pt(2, 2))
	if len(later) != 1 {
		t.Fatalf("%d presses are under way", len(later))
	}
	later[0]()
	later[1]()
	if want := []setup.Place{{At: image.Pt(1, 1)}, {At: image.Pt(2, 2)}}; !slices.Equal(b.setup.Places, want) {
		t.Errorf("places %v, want %v", b.setup.Places, want)
	}
	b.pressed(SpotA, image.Pt(3, 3))
	b.setup = setup.Setup{Source: setup.Source{Kind: setup.SourceDemo}}
	later[2]()
	if len(b.setup.Places) > 0 {
		t.Errorf("on another picture: %v", b.setup.Places)
	}
}

// A system without a way says so at the switch.
func TestNoKeysOnThisSystem(t *testing.T) {
	b := newBench(t, setup.Source{})
	b.failed = fmt.Errorf("hold: %w", native.ErrUnsupported)
	b.Switch(true)
	if got, want := b.says(0), wording.SayKeysTrouble(native.ErrUnsupported); got != want || b.Messages.Said[host.MessageError] != want {
		t.Errorf("it says %q and %q, want %q", got, b.Messages.Said[host.MessageError], want)
	}
	if !errors.Is(b.Keys.failed, native.ErrUnsupported) {
		t.Error("the cause is lost")
	}
}
