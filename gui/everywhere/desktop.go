package everywhere

import (
	"context"
	"errors"
	"image"
	"os"
	"slices"
	"sync/atomic"

	"app.tonedesk/capture"
	"app.tonedesk/capture/portal"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// desktopKeys are keys that the desktop hands out, in sessions where no program can hold one by
// itself. It names them, tells of their presses, and doesn't tell where the pointer is.
type desktopKeys struct {
	ask  askDesktop
	stop atomic.Pointer[context.CancelFunc] // ends its question
	held interface{ Close() }               // while the order is held: what was handed out; nil for nothing

	// The rest is the Fyne goroutine's.
	asks  bool              // it may be asking the painter
	asked []portal.Shortcut // has been answered with keys
	words map[string]string // what it calls them
}

// askDesktop is portal.AskShortcuts, but in tests.
type askDesktop func(ctx context.Context, app string, own uint64, wished []portal.Shortcut, h portal.ShortcutHearer) (held interface{ Close() }, keys map[string]string, err error)

// askPortal asks the portal of this session.
func askPortal(ctx context.Context, app string, own uint64, wished []portal.Shortcut, h portal.ShortcutHearer) (interface{ Close() }, map[string]string, error) {
	return portal.AskShortcuts(ctx, os.Getenv, app, own, wished, h)
}

// question begins a time in which the desktop may be asked, and ends the one before.
func (k *desktopKeys) question() context.Context {
	ctx, stop := context.WithCancel(context.Background())
	if before := k.stop.Swap(&stop); before != nil {
		(*before)()
	}
	return ctx
}

// wish is what is wished for of the desktop.
func wish(of []Deed, chords []native.Chord) []portal.Shortcut {
	var wished []portal.Shortcut
	for i, d := range of {
		wished = append(wished, portal.Shortcut{ID: known[d].key, Does: known[d].name.String(), Trigger: chords[i].Trigger()})
	}
	return wished
}

// stays reports whether what the desktop has handed out stays as it is: it would ask again else.
func (k *Keys) stays(of []Deed, chords []native.Chord) bool {
	now := k.desktop.asked
	return now != nil && (k.listens || slices.Equal(now, wish(of, chords)))
}

// holdByDesktop has the desktop hand keys out, in place of those before. The order is held; it runs
// in the background, as long as the painter needs to answer.
func (k *Keys) holdByDesktop(ctx context.Context, turn int64, own uintptr, of []Deed, chords []native.Chord) (keys map[string]string, err error) {
	if k.desktop.held != nil {
		k.desktop.held.Close()
		k.desktop.held = nil
	}
	if len(of) == 0 {
		return nil, nil
	}
	soon := func(do func()) {
		k.Soon(func() {
			if turn == k.turn.Load() {
				do()
			}
		})
	}
	soon(func() { k.desktop.asks = true; k.show() })
	held, keys, err := k.desktop.ask(ctx, k.App.UniqueID(), uint64(own), wish(of, chords), portal.ShortcutHearer{
		Pressed: func(id string) {
			if d := slices.IndexFunc(known[:], func(e entry) bool { return e.key == id }); d >= 0 {
				k.Soon(func() { k.pressedUnseen(Deed(d)) })
			}
		},
		Changed: func(keys map[string]string) { soon(func() { k.toldByDesktop(of, chords, keys, nil) }) },
		Ended:   func(why error) { soon(func() { k.toldByDesktop(of, chords, nil, why) }) },
	})
	if err == nil {
		k.desktop.held = held
	}
	return keys, err
}

// toldByDesktop takes which keys the desktop has handed out, or why none. A no holds until the
// painter switches the keys on again: who starts the program isn't asked each time.
func (k *Keys) toldByDesktop(of []Deed, chords []native.Chord, keys map[string]string, failed error) {
	k.desktop.asks, k.desktop.asked, k.desktop.words = false, nil, nil
	each := make([]error, len(of))
	if failed == nil && len(of) > 0 {
		k.desktop.asked, k.desktop.words = wish(of, chords), keys
		for i, d := range of {
			if keys[known[d].key] == "" {
				each[i] = native.ErrUngiven
			}
		}
	}
	if errors.Is(failed, capture.ErrGivenUp) {
		k.now.Everywhere = false
		k.Kept()
	}
	k.told(of, each, failed)
}

// pressedUnseen does what a key is for that came without the pointer's place: that is known over our
// own picture alone.
func (k *Keys) pressedUnseen(d Deed) {
	switch {
	case d != SpotA && d != SpotB:
		k.pressed(d, image.Point{})
	case k.Steps.Now().Source.Kind == setup.SourceNothing:
		k.Messages.Note(wording.SayWatchFirst.String())
	default:
		if at, over := k.Under(); over {
			k.set(int(d-SpotA), setup.Place{At: at})
		} else {
			k.Messages.Note(wording.SayPointerUnknown.String())
		}
	}
}

// saysOfAll is what is said at the switch.
func (k *Keys) saysOfAll() string {
	switch {
	case k.failed != nil:
		return wording.SayKeysTrouble(k.failed)
	case k.desktop.asks:
		return wording.SayAsksForKeys.String()
	case k.desktop.asked != nil:
		return wording.SayDesktopKeys.String()
	}
	return wording.SayEverywhereNote.String()
}
