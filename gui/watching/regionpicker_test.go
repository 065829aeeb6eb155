package watching

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// pickerOf returns the picker that is shown, as the window over the desktop holds it.
func pickerOf(t *testing.T, w *Ways) *widgets.Picker {
	t.Helper()
	for _, shown := range w.App.Driver().AllWindows() {
		if p, ok := shown.Content().(*widgets.Picker); ok {
			return p
		}
	}
	t.Fatal("no picture of the desktop is shown")
	return nil
}

// newTestWays are the ways of a window without a screen, which watches what is chosen.
func newTestWays(t *testing.T) (w *Ways, watched *setup.Source) {
	t.Helper()
	h := &host.Host{App: test.NewTempApp(t)}
	h.Window = h.App.NewWindow("Ways")
	watched = &setup.Source{Kind: setup.SourceDemo}
	w = New(h, func() (capture.Backend, error) { return nil, capture.ErrNoDisplay }, Acts{
		Now: func() setup.Source { return *watched }, Region: func() image.Rectangle { return watched.Region },
		Handle: func() uintptr { return 0 }, Show: h.Window.Show, Watch: func(from setup.Source) { *watched = from },
	})
	return w, watched
}

var testScreen = image.Rect(0, 0, 800, 600)

// A region that is dragged over and taken with Enter is watched; then our own window is back.
func TestRegionIsChosen(t *testing.T) {
	w, watched := newTestWays(t)
	w.region.picking = true
	w.region.show(image.NewRGBA(testScreen), testScreen, nil)
	p := pickerOf(t, w)
	p.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 100)}})
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, 250)}})
	p.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, 250)}})
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if from := *watched; from.Kind != setup.SourceRegion || from.Region.Empty() || !from.Region.In(testScreen) || w.region.picking {
		t.Errorf("it watches %+v, still picking: %v", from, w.region.picking)
	}
}

// Given up, what was watched goes on; and the next choosing is not held up.
func TestRegionIsGivenUp(t *testing.T) {
	w, watched := newTestWays(t)
	was := *watched
	for range 2 {
		w.region.picking = true
		w.region.show(image.NewRGBA(testScreen), testScreen, nil)
		pickerOf(t, w).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if *watched != was || w.region.picking {
			t.Errorf("given up, it watches %+v, still picking: %v", *watched, w.region.picking)
		}
	}
}

// The window over the desktop goes a while after the choosing, but not while it is used again; the next
// choosing makes another.
func TestRegionWindowGoes(t *testing.T) {
	w, _ := newTestWays(t)
	windows := func() int { return len(w.App.Driver().AllWindows()) }
	before := windows()
	for range 2 {
		w.region.picking = true
		w.region.show(image.NewRGBA(testScreen), testScreen, nil)
		w.region.close()
		pickerOf(t, w).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if windows() != before+1 || w.region.unused == nil {
			t.Errorf("just given up: %d windows, before it %d; to be closed: %v", windows(), before, w.region.unused != nil)
		}
		for range 2 {
			w.region.close()
		}
		if windows() != before {
			t.Errorf("a while later: %d windows, before it %d", windows(), before)
		}
	}
}

// A screen that can't be read is said in a sentence, and our own window is back.
func TestScreenThatCannotBeRead(t *testing.T) {
	w, _ := newTestWays(t)
	w.region.picking = true
	w.region.show(nil, image.Rectangle{}, capture.ErrWayland)
	if got := w.Messages.Said[host.MessageError]; got == "" || w.region.picking {
		t.Errorf("it says %q, still picking: %v", got, w.region.picking)
	}
}
