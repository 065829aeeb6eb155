package everywhere

import (
	"context"
	"fmt"
	"image"
	"slices"
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/portal"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// desk is a made-up desktop that hands out keys.
type desk struct {
	asked   [][]portal.Shortcut
	closed  int
	ctx     context.Context // of the last question
	hearer  portal.ShortcutHearer
	without string // it gives this one no key
	err     error
}

func (d *desk) Close() { d.closed++ }

func (d *desk) ask(ctx context.Context, _ string, _ uint64, wished []portal.Shortcut, h portal.ShortcutHearer) (interface{ Close() }, map[string]string, error) {
	d.asked, d.ctx, d.hearer = append(d.asked, wished), ctx, h
	keys := map[string]string{}
	for _, w := range wished {
		if w.ID != d.without {
			keys[w.ID] = "Key for " + w.Does
		}
	}
	return d, keys, d.err
}

// newWayland is a bench in a session where only the desktop has keys.
func newWayland(t *testing.T) (*bench, *desk) {
	b, d := newBench(t, setup.Source{Kind: setup.SourceShared}), &desk{}
	b.failed = fmt.Errorf("hold: %w", native.ErrWayland)
	b.desktop.ask = d.ask
	return b, d
}

// Where the desktop has the keys it is asked for all of them, by name and with what we would like;
// its words for them stand at the rows; a choice doesn't let go of them; another key asks again, and
// off gives all back.
func TestDesktopGivesKeys(t *testing.T) {
	b, d := newWayland(t)
	d.without = "view"
	b.Begin()
	if len(d.asked) > 0 {
		t.Fatal("off, the desktop is asked")
	}
	b.Switch(true)
	if len(d.asked) != 1 || len(d.asked[0]) != int(deeds) || d.asked[0][SpotB] != (portal.Shortcut{ID: "spot_b", Does: "Spot B here", Trigger: "CTRL+ALT+2"}) {
		t.Fatalf("asked is %v", d.asked)
	}
	if got := b.says(0); got != wording.SayDesktopKeys.String() || b.Messages.Said[host.MessageError] != "" {
		t.Errorf("it says %q and over the picture %q", got, b.Messages.Said[host.MessageError])
	}
	if got, want := b.says(1+int(Keep)), wording.SayDesktopKey("Key for Keep a still"); got != want {
		t.Errorf("the row says %q, want %q", got, want)
	}
	if got, want := b.says(1+int(View)), wording.SayKeyTrouble("", native.ErrUngiven); got != want {
		t.Errorf("without a key the row says %q, want %q", got, want)
	}
	d.hearer.Changed(map[string]string{"view": "Menu key"})
	if got, want := b.says(1+int(View)), wording.SayDesktopKey("Menu key"); got != want {
		t.Errorf("changed there, the row says %q, want %q", got, want)
	}
	b.listen(Keep, true)
	b.listen(Keep, false)
	if len(d.asked) != 1 || d.closed > 0 {
		t.Errorf("a choice without a change: asked %d times, given back %d times", len(d.asked), d.closed)
	}
	b.setKey(Keep, "Alt+F9")
	if len(d.asked) != 2 || d.closed != 1 || d.asked[1][Keep].Trigger != "ALT+F9" {
		t.Errorf("after a choice: asked %v, given back %d times", d.asked, d.closed)
	}
	b.Switch(false)
	if len(d.asked) != 2 || d.closed != 2 || b.Messages.Said[host.MessageError] != "" || b.says(0) != wording.SayEverywhereNote.String() {
		t.Errorf("off: asked %d times, given back %d times; it says %q and %q", len(d.asked), d.closed, b.Messages.Said[host.MessageError], b.says(0))
	}
}

// Presses do the deeds; spots come to lie where the pointer is over our picture, and nowhere else.
func TestDesktopKeysArePressed(t *testing.T) {
	b, d := newWayland(t)
	b.Switch(true)
	for _, id := range []string{"freeze", "of another program", "keep", ""} {
		d.hearer.Pressed(id)
	}
	if !slices.Equal(b.done, []Deed{Freeze, Keep}) {
		t.Errorf("done is %v", b.done)
	}
	d.hearer.Pressed("spot_a")
	if got := b.Messages.Said[host.MessageNote]; len(b.setup.Places) > 0 || got != wording.SayPointerUnknown.String() {
		t.Errorf("with the pointer elsewhere: %v, it says %q", b.setup.Places, got)
	}
	b.under = image.Pt(7, 9)
	d.hearer.Pressed("spot_a")
	if want := []setup.Place{{At: image.Pt(7, 9)}}; !slices.Equal(b.setup.Places, want) {
		t.Errorf("places %v, want %v", b.setup.Places, want)
	}
	b.setup = setup.Setup{Source: setup.Source{Kind: setup.SourceNothing}}
	d.hearer.Pressed("spot_b")
	if got := b.Messages.Said[host.MessageNote]; len(b.setup.Places) > 0 || got != wording.SayWatchFirst.String() {
		t.Errorf("with nothing watched: %v, it says %q", b.setup.Places, got)
	}
}

// What the desktop refuses, or takes back, is said; after a no it isn't asked at each start.
func TestDesktopRefusesKeys(t *testing.T) {
	for _, err := range []error{capture.ErrNoPortal, capture.ErrGivenUp, capture.ErrUnanswered, capture.ErrNotAnswering, capture.ErrSharing} {
		b, d := newWayland(t)
		d.err = fmt.Errorf("ask: %w", err)
		b.Switch(true)
		want := wording.SayKeysTrouble(err)
		if b.says(0) != want || b.Messages.Said[host.MessageError] != want || want == wording.SayKeysTrouble(fmt.Errorf("other")) {
			t.Errorf("%v: it says %q and %q, want %q", err, b.says(0), b.Messages.Said[host.MessageError], want)
		}
		if b.set.Everywhere != (err != capture.ErrGivenUp) {
			t.Errorf("%v: switched on is %v", err, b.set.Everywhere)
		}
		d.err = nil
		b.Switch(true)
		if len(d.asked) != 2 || b.says(0) != wording.SayDesktopKeys.String() || b.Messages.Said[host.MessageError] != "" {
			t.Errorf("%v: asked %d times, it says %q", err, len(d.asked), b.says(0))
		}
		d.hearer.Ended(fmt.Errorf("gone: %w", capture.ErrStopped))
		if got := b.says(0); got != wording.SayKeysTrouble(capture.ErrStopped) || b.says(1) != "" {
			t.Errorf("taken back, it says %q, the row %q", got, b.says(1))
		}
	}
}

// A question that is still open ends when the keys are switched off, or the program ends; what a
// question of before brings is given back.
func TestDesktopsQuestionEnds(t *testing.T) {
	for name, end := range map[string]func(*Keys){"off": func(k *Keys) { k.Switch(false) }, "the end": (*Keys).LetGo} {
		b, d := newWayland(t)
		asking, answer := make(chan bool), make(chan bool)
		done := make(chan bool, 9)
		b.desktop.ask = func(ctx context.Context, app string, own uint64, wished []portal.Shortcut, h portal.ShortcutHearer) (interface{ Close() }, map[string]string, error) {
			close(asking)
			<-ctx.Done()
			<-answer
			return d.ask(ctx, app, own, wished, h)
		}
		b.Spawn = func(f func()) { go func() { f(); done <- true }() }
		b.set = settings.Defaults()
		b.Switch(true)
		<-asking
		end(b.Keys)
		answer <- true
		<-done
		if name == "off" {
			<-done
			if d.closed != 1 || b.says(0) != wording.SayEverywhereNote.String() {
				t.Errorf("%s: given back %d times, it says %q", name, d.closed, b.says(0))
			}
		}
	}
}
