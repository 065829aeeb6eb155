package gui

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/native"
)

// pollEvery is how often the window looks where it is itself, and how old things are.
const pollEvery = 500 * time.Millisecond

// ownWindow is our own window as its system knows it.
type ownWindow struct {
	*host
	moved func(windowPlace) // told now and then where the window is, whether it moved or not
}

// windowPlace is where our own window is.
type windowPlace struct {
	frame  image.Rectangle // with its frame, desktop pixels; empty if unknown
	inside image.Rectangle // without its frame
	hidden bool            // minimised
}

// handle returns the system's handle, 0 if there is none (yet).
func (w *ownWindow) handle() uintptr { return nativeHandle(w.window) }

// poll asks now and then where the window is, until ctx ends. It asks the system on its own
// goroutine; what is the same as before costs the window nothing.
func (w *ownWindow) poll(ctx context.Context) {
	tick := time.NewTicker(pollEvery)
	defer tick.Stop()
	var handle uintptr
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if handle == 0 {
			w.onWindow(func() { handle = w.handle() })
		}
		var now windowPlace
		now.frame, _ = native.FrameRect(handle) // no answer: then it can't be said to cover anything
		now.hidden, _ = native.Hidden(handle)
		now.inside, _ = native.ClientRect(handle)
		w.onWindow(func() { w.moved(now) })
	}
}

// restore puts the window, just shown, where it was, as far as that is on a screen of now,
// and above others if that is wished: a window that was hidden has lost both.
func (w *ownWindow) restore(at image.Rectangle, above bool) {
	if screens, err := native.Screens(); err == nil && !at.Empty() { // else the desktop chooses the place
		if at, ok := reachable(at, screens); ok {
			if err := native.MoveTo(w.handle(), at.Min); err != nil {
				fyne.LogError("putting the window where it was", err)
			}
		}
	}
	if above {
		if err := native.KeepAbove(w.handle(), true); err != nil {
			fyne.LogError("keeping the window above others", err)
		}
	}
}

// keepAbove keeps the window above others, or no longer, and says so; it reports whether the
// desktop does it.
func (w *ownWindow) keepAbove(on bool) bool {
	if err := native.KeepAbove(w.handle(), on); err != nil {
		w.messages.note("This desktop does not let a window stay above others. Its own window menu may offer it.")
		fyne.LogError("keeping the window above others", err)
		return false
	}
	if on {
		w.messages.note("The window stays above others.")
	} else {
		w.messages.note("The window no longer stays above others.")
	}
	return true
}
