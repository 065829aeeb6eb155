package host

import (
	"errors"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/mistake"
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
	Writing  Writing // what the end of the program waits for
	Door

	dialogs []shownDialog // that may lie over the window, the topmost last
	folder  string        // where a file was chosen last; "" before any was

	Later      func(time.Duration, func()) (stop func()) // Door.After, but in tests
	Spawn      func(func())                              // runs on a goroutine of its own, but in tests
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
	h.Messages.Note(language.Say("Copied %s", words))
}

// Background does work that may take long without holding up the window, and then what follows
// it, on the Fyne goroutine: always, since somebody may wait for it. Where the work breaks down
// then is told so, by an error that wraps mistake.Err and is in the log already.
func (h *Host) Background(work func() error, then func(error)) {
	h.Spawn(func() {
		err := mistake.Guard(work)
		if errors.Is(err, mistake.Err) {
			fyne.LogError("working in the background", err)
		}
		h.OnWindow(func() { then(err) })
	})
}

// Guarded does what goes on as long as the window, on a goroutine that is begun for it. If it breaks
// down the painter is told that it can't be done, "watch the picture", and the window lives on.
func (h *Host) Guarded(deed wording.Phrase, work func()) {
	err := mistake.Guard(func() error { work(); return nil })
	if err != nil {
		fyne.LogError(string(deed), err)
		h.OnWindow(func() { h.Messages.Fail(wording.Explain(deed, err)) })
	}
}

// Try does work that writes, without holding up the window, and then what follows it, on the
// Fyne goroutine. If it fails the painter is told that the deed, "delete the still", can't be
// done.
func (h *Host) Try(deed wording.Phrase, work func() error, then func()) {
	written := h.Writing.Begin()
	save := func() error {
		defer written()
		return work()
	}
	h.Background(save, func(err error) {
		if err != nil {
			if !errors.Is(err, mistake.Err) {
				fyne.LogError(string(deed), err)
			}
			h.Messages.Fail(wording.ExplainWriting(deed, err))
			return
		}
		then()
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
// shut: the toolkit then runs what it is given on whichever goroutine gives it, or breaks down,
// its queue being closed.
type Door struct{ Leaving atomic.Bool }

// OnWindow runs f on the Fyne goroutine and waits for it.
func (d *Door) OnWindow(f func()) {
	if !d.Leaving.Load() {
		defer d.shut()
		fyne.DoAndWait(func() { d.enter(f) })
	}
}

// Soon runs f on the Fyne goroutine, and does not wait for it.
func (d *Door) Soon(f func()) {
	if !d.Leaving.Load() {
		defer d.shut()
		fyne.Do(func() { d.enter(f) })
	}
}

// shut takes it in good part that the queue was closed just now.
func (d *Door) shut() {
	if d.Leaving.Load() {
		_ = recover()
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
