package gui

import (
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
)

// host is what the desk shares with the owners of a part of its state and with the pages:
// the window and its words, the one door for other goroutines, and who is to be told what.
// It is used on the Fyne goroutine only, but for the door.
type host struct {
	app      fyne.App
	window   fyne.Window
	mirror   *widgets.Mirror
	store    *stills.Store // nil if there is no place for stills
	keys     widgets.Keys  // the window's keys, for the parts of a page
	tips     *widgets.Tips
	messages messages
	steps    steps
	door

	later      func(time.Duration, func()) (stop func()) // door.after, but in tests
	background func(func())                              // runs what may take long, on a goroutine of its own
	relayPage  func()                                    // a part of the open page asks for another height
	changed    func()                                    // something that is shown is another now
	tellPage   func(pageEvent)                           // tells the open page
}

// steps is the way to the setup for those who change it: each change is a step of undo.
type steps struct {
	now    func() setup.Setup
	change func(next setup.Setup, kind string) // kind joins the changes of one drag; "" joins nothing
	settle func()                              // ends a row of joined changes
}

// beginFrom makes a colour the one from which others are proposed; nil follows the spots.
func (s steps) beginFrom(c *colour.RGB) { s.change(s.now().WithTyped(c), "") }

// copyText puts words on the clipboard, and says so.
func (h *host) copyText(words string) {
	h.app.Clipboard().SetContent(words)
	h.messages.note(words + " is copied.")
}

// focusMirror gives the mirror the keyboard, so that the window's keys work on the picture.
func (h *host) focusMirror() {
	if c := h.window.Canvas(); c.Focused() != fyne.Focusable(h.mirror) {
		c.Focus(h.mirror)
	}
}

// lay is how the picture lies in the mirror, for what is drawn over it.
func (h *host) lay() overlay.Lay {
	fit := h.mirror.Fit()
	return overlay.Lay{Part: fit.Bounds, Size: h.mirror.Pixels(), Flipped: fit.Flipped, Unit: float64(h.mirror.Scale())}
}

// logMistake keeps a mistake of ours that was made while working on a picture.
func logMistake(err error) { fyne.LogError("working on a picture", err) }

// door is the one way of other goroutines to the window. Once the program is ending it stays
// shut: the toolkit then runs what it is given on whichever goroutine gives it.
type door struct{ leaving atomic.Bool }

// onWindow runs f on the Fyne goroutine and waits for it.
func (d *door) onWindow(f func()) {
	if !d.leaving.Load() {
		fyne.DoAndWait(func() { d.enter(f) })
	}
}

// soon runs f on the Fyne goroutine, and does not wait for it.
func (d *door) soon(f func()) {
	if !d.leaving.Load() {
		fyne.Do(func() { d.enter(f) })
	}
}

func (d *door) enter(f func()) {
	if !d.leaving.Load() {
		f()
	}
}

// after runs f on the Fyne goroutine after a while, unless it is stopped before.
func (d *door) after(wait time.Duration, f func()) (stop func()) {
	timer := time.AfterFunc(wait, func() { d.soon(f) })
	return func() { timer.Stop() }
}
