package host

import (
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Host is what the desk shares with the owners of a part of its state and with the pages:
// the window and its words, the one door for other goroutines, and who is to be told what.
// It is used on the Fyne goroutine only, but for the door.
type Host struct {
	App      fyne.App
	Window   fyne.Window
	Mirror   *widgets.Mirror
	Store    *stills.Store // nil if there is no place for stills
	Keys     widgets.Keys  // the window's keys, for the parts of a page
	Tips     *widgets.Tips
	Messages Messages
	Steps    Steps
	Door

	Later      func(time.Duration, func()) (stop func()) // Door.After, but in tests
	Background func(func())                              // runs what may take long, on a goroutine of its own
	LayOutPage func()                                    // a part of the open page asks for another height
	Changed    func()                                    // something that is shown is another now
	Notify     func(PageEvent)                           // tells the open page
}

// Steps is the way to the setup for those who change it: each change is a step of undo.
type Steps struct {
	Now    func() setup.Setup
	Change func(next setup.Setup, kind string) // kind joins the changes of one drag; "" joins nothing
	Settle func()                              // ends a row of joined changes
}

// BeginFrom makes a colour the one from which others are proposed; nil follows the spots.
func (s Steps) BeginFrom(c *colour.RGB) { s.Change(s.Now().WithTyped(c), "") }

// Button is a button of a page, explained to who rests on it.
func (h *Host) Button(name, tip string, do func()) *widgets.Button {
	b := widgets.NewButton(name, h.Keys, do)
	b.Explain(h.Tips, tip)
	return b
}

// CopyText puts words on the clipboard, and says so.
func (h *Host) CopyText(words string) {
	h.App.Clipboard().SetContent(words)
	h.Messages.Note(words + " is copied.")
}

// Try does work that writes, without holding up the window, and then what follows it, on the
// Fyne goroutine. If it fails the painter is told that the deed, "delete the still", can't be
// done.
func (h *Host) Try(deed string, work func() error, then func()) {
	h.Background(func() {
		err := work()
		h.OnWindow(func() {
			if err != nil {
				fyne.LogError(deed, err)
				h.Messages.Note(wording.ExplainWriting(deed, err))
				return
			}
			then()
		})
	})
}

// FocusMirror gives the mirror the keyboard, so that the window's keys work on the picture.
func (h *Host) FocusMirror() {
	if c := h.Window.Canvas(); c.Focused() != fyne.Focusable(h.Mirror) {
		c.Focus(h.Mirror)
	}
}

// Lay is how the picture lies in the mirror, for what is drawn over it.
func (h *Host) Lay() overlay.Lay {
	fit := h.Mirror.NextFit()
	return overlay.Lay{Part: fit.Bounds, Size: h.Mirror.Pixels(), Flipped: fit.Flipped, Unit: float64(h.Mirror.Scale())}
}

// LogMistake keeps a mistake of ours that was made while working on a picture.
func LogMistake(err error) { fyne.LogError("working on a picture", err) }

// Door is the one way of other goroutines to the window. Once the program is ending it stays
// shut: the toolkit then runs what it is given on whichever goroutine gives it.
type Door struct{ Leaving atomic.Bool }

// OnWindow runs f on the Fyne goroutine and waits for it.
func (d *Door) OnWindow(f func()) {
	if !d.Leaving.Load() {
		fyne.DoAndWait(func() { d.enter(f) })
	}
}

// Soon runs f on the Fyne goroutine, and does not wait for it.
func (d *Door) Soon(f func()) {
	if !d.Leaving.Load() {
		fyne.Do(func() { d.enter(f) })
	}
}

func (d *Door) enter(f func()) {
	if !d.Leaving.Load() {
		f()
	}
}

// After runs f on the Fyne goroutine after a while, unless it is stopped before.
func (d *Door) After(wait time.Duration, f func()) (stop func()) {
	timer := time.AfterFunc(wait, func() { d.Soon(f) })
	return func() { timer.Stop() }
}
