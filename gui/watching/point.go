package watching

import (
	"context"
	"errors"
	"sync/atomic"

	"fyne.io/fyne/v2"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/native"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// pointing is the painter pointing at a window, or answering the desktop; the zero value is ready.
type pointing struct {
	end atomic.Pointer[context.CancelFunc] // nil: nobody points
}

// nameLetters is how many letters of a window's name are said while it is under the pointer.
const nameLetters = 28

// sourceOf is a window as it is watched.
func sourceOf(w capture.Window) setup.Source {
	return setup.Source{Kind: setup.SourceWindow, Title: w.Title, Class: w.Class, Window: w.ID}
}

// Points reports whether the painter can point at a window, as Follows does.
func (w *Ways) Points() bool {
	return w.screen.offers(func(b capture.Backend) bool { _, ok := b.(capture.Pointer); return ok })
}

// pointing returns the way to point at a window; nil where there is none.
func (w *Ways) pointing() func() {
	if !w.Points() {
		return nil
	}
	return w.PointAtWindow
}

// PointAtWindow has the painter point at the window to follow. Asked twice, it gives up.
func (w *Ways) PointAtWindow() {
	if end := w.points.end.Load(); end != nil {
		(*end)()
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	w.points.end.Store(&cancel)
	own := uint64(w.Handle())
	end := host.MessageAct{Name: language.Say("End"), Do: cancel}
	if native.SameDisplay() { // the pointer is taken, and Esc is said
		end = host.MessageAct{}
	}
	say := func(name string) { w.Messages.Offer(host.MessagePointing, wording.SayPointing(name), end) }
	say("")
	over := func(under capture.Window, found bool) {
		w.Soon(func() {
			switch {
			case ctx.Err() != nil || w.points.end.Load() != &cancel: // it has ended meanwhile
			case found:
				say(widgets.Shortened(wording.SayWindow(under.Title, under.Class), nameLetters))
			default:
				say("")
			}
		})
	}
	var taken capture.Window
	w.Background(func() (err error) {
		taken, err = w.screen.point(ctx, over, own)
		return err
	}, func(err error) {
		cancel()
		w.points.end.Store(nil)
		w.Messages.Clear(host.MessagePointing)
		switch {
		case err == nil:
			w.Watch(sourceOf(taken))
		case !errors.Is(err, capture.ErrGivenUp):
			w.Messages.Fail(wording.ExplainPointing(err))
			fyne.LogError("pointing at a window", err)
		}
	})
}

// Leave ends the pointing, and the question what to share, since the program is about to end. Any goroutine may call it.
func (w *Ways) Leave() {
	for _, p := range []*pointing{&w.points, &w.shares} {
		if end := p.end.Load(); end != nil {
			(*end)()
		}
	}
}
