package everywhere

import (
	"context"
	"errors"
	"image"
	"sync"
	"sync/atomic"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Acts are what the keys ask of the window. All but Use and Follower are called on the Fyne
// goroutine.
type Acts struct {
	Do      [deeds]func()                                     // what the deeds do, but for spots and the window
	Show    func()                                            // shows the window again
	Handle  func() uintptr                                    // of our own window
	Shows   func(pixel image.Point) (at image.Point, in bool) // the place of the source that shows at a pixel of our window
	Under   func() (at image.Point, over bool)                // the place of the source at which the pointer lies over our picture
	Select  func(spot int)                                    // before the spot is set
	Kept    func()                                            // the settings were changed
	Renewed func()                                            // what the rows say is another now

	SpaceAt  func(context.Context, image.Point) *colour.Space                  // the colours of the display at a place; nil for sRGB
	Use      func(do func(capture.Backend) error) error                        // reads the desktop
	Follower func(do func(capture.Follower, capture.WindowStream) error) error // can read windows; the one followed last, or nil
}

// Keys owns the keys that work in every program. Use it on the Fyne goroutine.
type Keys struct {
	*host.Host
	Acts
	now *settings.Settings

	hold    func([]native.Chord, native.KeyHearer) ([]error, error) // native.HoldKeys, but in tests
	desktop desktopKeys                                             // where that finds that it can't
	order   sync.Mutex                                              // held while keys are taken or let go
	turn    atomic.Int64                                            // counts the wishes: the newest holds

	listens bool          // a key is being chosen: none is held meanwhile
	held    bool          // something may be
	trouble [deeds]error  // why a key isn't
	words   string        // said of it over the picture
	failed  error         // why none is
	said    [deeds]string // at its row, of the key that was chosen just now
	rows    []*widgets.KeyChoice
	on      *widgets.Switch // above them
	spots   queue
}

// New returns the owner; Begin holds the keys, if that is wished for.
func New(h *host.Host, now *settings.Settings, acts Acts) *Keys {
	return &Keys{Host: h, Acts: acts, now: now, hold: native.HoldKeys, desktop: desktopKeys{ask: askPortal}}
}

// Begin holds the keys, if they are switched on. There need not be a window yet: a painter who sees
// one expects them to work.
func (k *Keys) Begin() {
	if k.now.Everywhere {
		k.renew()
	}
}

// LetGo gives all keys back, since the program is about to end. Any goroutine may call it; it does
// not wait.
func (k *Keys) LetGo() {
	if k.turn.Add(1) == 1 { // none was ever wished for
		return
	}
	k.desktop.question() // none is open any more
	go func() {
		k.order.Lock()
		defer k.order.Unlock()
		if _, err := k.hold(nil, native.KeyHearer{}); errors.Is(err, native.ErrWayland) { // the end of the program gives them back too
			_, _ = k.holdByDesktop(context.Background(), 0, 0, nil, nil)
		}
	}()
}

// Switch switches the keys on or off.
func (k *Keys) Switch(on bool) {
	k.now.Everywhere = on
	k.Kept()
	k.renew()
}

// wished are the deeds that are to have a key, and these, while the keys are switched on.
func (k *Keys) wished() (of []Deed, chords []native.Chord) {
	if k.now.Everywhere {
		for d := range deeds {
			if c, ok := native.ParseChord(keyOf(k.now, d)); ok {
				of, chords = append(of, d), append(chords, c)
			}
		}
	}
	return of, chords
}

// renew holds the keys that are wished for now, and no others, in the background.
func (k *Keys) renew() {
	of, chords := k.wished()
	if k.stays(of, chords) {
		return
	}
	if k.listens {
		of, chords = nil, nil
	}
	if len(chords) == 0 && !k.held {
		k.told(nil, nil, nil)
		return
	}
	k.held = true
	turn := k.turn.Add(1)
	hearer := native.KeyHearer{
		Pressed: func(i int, at image.Point) { k.Soon(func() { k.pressed(of[i], at) }) },
		Changed: func(each []error, failed error) {
			k.Soon(func() {
				if turn == k.turn.Load() {
					k.told(of, each, failed)
				}
			})
		},
	}
	var each []error
	var failed error
	var byDesktop bool
	var keys map[string]string
	question := k.desktop.question()
	k.Background(func() error {
		k.order.Lock()
		defer k.order.Unlock()
		if turn == k.turn.Load() {
			each, failed = k.hold(chords, hearer)
			if byDesktop = errors.Is(failed, native.ErrWayland); byDesktop {
				var own uintptr
				k.OnWindow(func() { own = k.Handle() })
				keys, failed = k.holdByDesktop(question, turn, own, of, chords)
			}
		}
		return nil
	}, func(err error) {
		if turn != k.turn.Load() {
			return
		}
		k.held = len(chords) > 0
		if failed = errors.Join(failed, err); byDesktop {
			k.toldByDesktop(of, chords, keys, failed)
		} else {
			k.told(of, each, failed)
		}
	})
}

// told takes what became of holding keys. While one is being chosen all stays as it was said.
func (k *Keys) told(of []Deed, each []error, failed error) {
	if k.listens {
		return
	}
	k.failed, k.trouble = failed, [deeds]error{}
	var held []string
	for i, d := range of {
		if i >= len(each) {
			break
		}
		if k.trouble[d] = each[i]; errors.Is(each[i], native.ErrKeyHeld) {
			held = append(held, keyOf(k.now, d))
		}
	}
	if failed != nil {
		fyne.LogError("holding keys", failed)
	}
	k.fail(wording.SayKeysTrouble(failed) + wording.SayKeysHeld(held))
	k.show()
}

// fail says over the picture what is wrong, "" for nothing, and takes away what was said before.
func (k *Keys) fail(words string) {
	switch {
	case words != "":
		k.Messages.Fail(words)
	case k.words != "" && k.Messages.Said[host.MessageError] == k.words:
		k.Messages.Clear(host.MessageError)
	}
	k.words = words
}

// pressed does what a key is for.
func (k *Keys) pressed(d Deed, at image.Point) {
	switch d {
	case SpotA, SpotB:
		k.spots.add(k, press{int(d - SpotA), at})
	case Window:
		k.ShowOrHide()
	default:
		k.Do[d]()
	}
}

// ShowOrHide shows the window where it is hidden or minimised, else hides it.
func (k *Keys) ShowOrHide() {
	handle, hidden := k.Handle(), false
	k.Background(func() (err error) {
		hidden, err = native.Hidden(handle)
		return err
	}, func(err error) {
		if hidden || err != nil {
			k.Show()
		} else {
			k.Window.Hide()
		}
	})
}
