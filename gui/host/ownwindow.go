package host

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/native"
)

// pollEvery is how often the window looks where it is itself, and how old things are.
const pollEvery = 500 * time.Millisecond

// OwnWindow is our own window as its system knows it.
type OwnWindow struct {
	*Host
	Moved func(WindowPlace) // told now and then where the window is, whether it moved or not
}

// WindowPlace is where our own window is.
type WindowPlace struct {
	Frame  image.Rectangle // with its frame, desktop pixels; empty if unknown
	Inside image.Rectangle // without its frame
	Hidden bool            // minimised
}

// Handle returns the system's handle, 0 if there is none (yet).
func (w *OwnWindow) Handle() uintptr { return NativeHandle(w.Window) }

// Poll asks now and then where the window is, until ctx ends. It asks the system on its own
// goroutine; what is the same as before costs the window nothing.
func (w *OwnWindow) Poll(ctx context.Context) {
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
			w.OnWindow(func() { handle = w.Handle() })
		}
		var now WindowPlace
		now.Frame, _ = native.FrameRect(handle) // no answer: then it can't be said to cover anything
		now.Hidden, _ = native.Hidden(handle)
		now.Inside, _ = native.ClientRect(handle)
		w.OnWindow(func() { w.Moved(now) })
	}
}

// Restore puts the window, just shown, where it was, as far as that is on a screen of now,
// and above others if that is wished: a window that was hidden has lost both.
func (w *OwnWindow) Restore(at image.Rectangle, above bool) {
	if screens, err := native.Screens(); err == nil && !at.Empty() { // else the desktop chooses the place
		if at, ok := reachable(at, screens); ok {
			if err := native.MoveTo(w.Handle(), at.Min); err != nil {
				fyne.LogError("putting the window where it was", err)
			}
		}
	}
	if above {
		if err := native.KeepAbove(w.Handle(), true); err != nil {
			fyne.LogError("keeping the window above others", err)
		}
	}
}

// KeepAbove keeps the window above others, or no longer, and says so; it reports whether the
// desktop does it.
func (w *OwnWindow) KeepAbove(on bool) bool {
	if err := native.KeepAbove(w.Handle(), on); err != nil {
		w.Messages.Note("This desktop does not let a window stay above others. Its own window menu may offer it.")
		fyne.LogError("keeping the window above others", err)
		return false
	}
	if on {
		w.Messages.Note("The window stays above others.")
	} else {
		w.Messages.Note("The window no longer stays above others.")
	}
	return true
}
