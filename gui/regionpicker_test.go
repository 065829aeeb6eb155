package gui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
)

// pickerOf returns the picker that is shown, as the window over the desktop holds it.
func pickerOf(t *testing.T, d *Desk) *widgets.Picker {
	t.Helper()
	for _, w := range d.App.Driver().AllWindows() {
		if p, ok := w.Content().(*widgets.Picker); ok {
			return p
		}
	}
	t.Fatal("no picture of the desktop is shown")
	return nil
}

var testScreen = image.Rect(0, 0, 800, 600)

// A region that is dragged over and taken with Enter is watched; then our own window is back.
func TestRegionIsChosen(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.picker.picking = true
	d.picker.show(image.NewRGBA(testScreen), testScreen, nil)
	p := pickerOf(t, d)
	p.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(100, 100)}})
	p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, 250)}})
	p.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, 250)}})
	p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if from := d.setup.Source; from.Kind != setup.SourceRegion || from.Region.Empty() || !from.Region.In(testScreen) || d.picker.picking {
		t.Errorf("it watches %+v, still picking: %v", from, d.picker.picking)
	}
	if got := d.watchedRegion(); got != d.setup.Source.Region {
		t.Errorf("the next choosing begins with %v", got)
	}
}

// Given up, what was watched goes on; and the next choosing is not held up.
func TestRegionIsGivenUp(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	was := d.setup.Source
	for range 2 {
		d.picker.picking = true
		d.picker.show(image.NewRGBA(testScreen), testScreen, nil)
		pickerOf(t, d).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if d.setup.Source != was || d.picker.picking {
			t.Errorf("given up, it watches %+v, still picking: %v", d.setup.Source, d.picker.picking)
		}
	}
}

// A screen that can't be read is said in a sentence, and our own window is back.
func TestScreenThatCannotBeRead(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.picker.picking = true
	d.picker.show(nil, image.Rectangle{}, capture.ErrWayland)
	if got := d.Messages.Said[host.MessageError]; got == "" || d.picker.picking {
		t.Errorf("it says %q, still picking: %v", got, d.picker.picking)
	}
}
