package host

import (
	"context"
	"errors"
	"image"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/wording"
)

// pollEvery is how often the window looks whether it is elsewhere, where something may have told of
// that, tellAnyway how often it is told how old things are though nothing has; pollAnyway after how long it asks where it is even if nothing has told that it moved, as of a
// window manager that doesn't tell, and gives up waiting to be where it was put. Our choice.
const (
	pollEvery  = 500 * time.Millisecond
	tellAnyway = 2 * time.Second
	pollAnyway = 5 * time.Second
)

// OwnWindow is our own window as its system knows it.
type OwnWindow struct {
	*Host
	Moved func(WindowPlace) // told now and then where the window is, whether it moved or not
	Room  func(fyne.Size)   // told what room its screen has for it, in units
	Was   func(screens []image.Rectangle) (inside image.Rectangle, width, height float32)
	// where it was when it was last on such screens; empty if unknown

	screens []image.Rectangle // those that it was put on
	next    []image.Rectangle // those that came in their place just now; nil for none
	going   image.Point       // where the desktop was asked to put its inside
	asked   time.Time         // when; zero once it is there
}

// WindowPlace is where our own window is.
type WindowPlace struct {
	Frame  image.Rectangle // with its frame, desktop pixels; empty if unknown
	Inside image.Rectangle // without its frame
	Hidden bool            // minimised
	Out    bool            // pictures of the screen hold what lies beneath it

	// Screens are those of now, empty if unknown. Others are Arriving at first, until the window is
	// where it was put on them: what the desktop does with its windows then isn't the painter's choice.
	Screens  []image.Rectangle
	Arriving bool
}

// Handle returns the system's handle, 0 if there is none (yet).
func (w *OwnWindow) Handle() uintptr { return NativeHandle(w.Window) }

// Poll says now and then where the window is, until ctx ends. It asks the system on its own
// goroutine, where there may be news; what is the same as before costs the window nothing.
func (w *OwnWindow) Poll(ctx context.Context) {
	tick := time.NewTicker(pollEvery)
	defer tick.Stop()
	var handle uintptr
	var now WindowPlace
	var news native.News
	var asked, told time.Time // asked and answered
	defer news.End()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if handle == 0 {
			w.OnWindow(func() { handle = w.Handle() })
		}
		if news.Any(handle) || now.Arriving || time.Since(asked) >= pollAnyway {
			var known bool
			if now, known = askPlace(handle); known {
				asked = time.Now()
			}
		} else if time.Since(told) < tellAnyway {
			continue
		}
		told = time.Now()
		w.OnWindow(func() {
			w.arrive(&now)
			w.Moved(now)
		})
	}
}

// askPlace asks the system where a window is, and reports whether it has said all.
func askPlace(handle uintptr) (now WindowPlace, known bool) {
	var errs [4]error
	now.Frame, errs[0] = native.FrameRect(handle) // no answer: then it can't be said to cover anything
	now.Hidden, errs[1] = native.Hidden(handle)
	now.Inside, errs[2] = native.ClientRect(handle)
	now.Out = native.LeftOut(handle)
	now.Screens, errs[3] = native.Screens() // after the place: one on other screens isn't taken for one on these
	return now, errors.Join(errs[:]...) == nil
}

// arrive puts the window where it was on other screens than before, once they have stayed for two
// looks: they come one by one, and the desktop moves windows meanwhile.
func (w *OwnWindow) arrive(now *WindowPlace) {
	switch {
	case len(now.Screens) == 0 || sameScreens(now.Screens, w.screens):
		w.next = nil
		if now.Inside.Min == w.going || time.Since(w.asked) >= pollAnyway {
			w.asked = time.Time{}
		}
		now.Arriving = !w.asked.IsZero()
		return
	case len(w.screens) == 0: // they were not known before
		w.screens = now.Screens
		return
	}
	now.Arriving = true
	stay := sameScreens(now.Screens, w.next)
	if w.next = now.Screens; stay && !now.Hidden {
		w.put(now.Screens)
	}
}

// sameScreens reports whether two lists have the same screens; systems list them in any order.
func sameScreens(a, b []image.Rectangle) bool {
	return len(a) == len(b) && !slices.ContainsFunc(a, func(r image.Rectangle) bool { return !slices.Contains(b, r) })
}

// put puts the window where it was on such screens, as far as that is on one of them. Where that is
// unknown the desktop has chosen the place.
func (w *OwnWindow) put(screens []image.Rectangle) {
	w.screens, w.next = screens, nil
	at, width, height := w.Was(screens)
	if size := fyne.NewSize(width, height); !w.fit(at, size, screens) {
		w.Room(size)
	}
}

// Restore puts the window, just shown, where it was, above others and out of pictures of the screen if
// that is wished: a window that was hidden has lost these.
func (w *OwnWindow) Restore(above, out bool) {
	screens, err := native.Screens()
	if err != nil {
		screens = nil
	}
	w.put(screens)
	if above {
		if err := native.KeepAbove(w.Handle(), true); err != nil {
			fyne.LogError("keeping the window above others", err)
		}
	}
	if out {
		if err := native.LeaveOut(w.Handle(), true); err != nil {
			fyne.LogError("leaving the window out of pictures of the screen", err)
		}
	}
}

// fit makes the window no larger than its screen and moves all of it there; false where nothing is
// known of it.
func (w *OwnWindow) fit(at image.Rectangle, size fyne.Size, screens []image.Rectangle) bool {
	handle, canvas := w.Handle(), w.Window.Canvas()
	whole, _ := native.FrameRect(handle)
	now, _ := native.ClientRect(handle)
	from := at.Min
	if at.Empty() {
		from = now.Min
	}
	scale := canvas.Scale()
	pixels := image.Pt(int(size.Width*scale), int(size.Height*scale))
	inside, room, ok := placed(from, pixels, frameOf(whole, now), screens)
	if !ok || handle == 0 {
		return false
	}
	w.Room(fyne.NewSize(float32(room.X)/scale, float32(room.Y)/scale))
	if inside.Size() != pixels {
		w.Window.Resize(fyne.NewSize(float32(inside.Dx())/scale, float32(inside.Dy())/scale))
	} else if canvas.Size() != size {
		w.Window.Resize(size)
	}
	if err := native.MoveTo(handle, inside.Min); err != nil {
		fyne.LogError("putting the window where it was", err)
	}
	w.going, w.asked = inside.Min, time.Now()
	return true
}

// KeepAbove keeps the window above others, or no longer, and says so; it reports whether the
// desktop does it.
func (w *OwnWindow) KeepAbove(on bool) bool {
	if err := native.KeepAbove(w.Handle(), on); err != nil {
		w.Messages.Fail(language.Say("Can't stay on top: this desktop does not let a window do so; its own window menu may offer it."))
		fyne.LogError("keeping the window above others", err)
		return false
	}
	if on {
		w.Messages.Note(language.Say("Stays on top"))
	} else {
		w.Messages.Note(language.Say("No longer on top"))
	}
	return true
}

// LeaveOut has pictures of the screen hold what lies beneath the window, or the window again; it
// reports whether the system does it, and says where it doesn't.
func (w *OwnWindow) LeaveOut(on bool) bool {
	if err := native.LeaveOut(w.Handle(), on); err != nil {
		w.Messages.Fail(wording.SayNotLeftOut.String())
		fyne.LogError("leaving the window out of pictures of the screen", err)
		return false
	}
	return true
}
