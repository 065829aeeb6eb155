package gui

import (
	"image"
	"os"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
)

// blockSaving keeps the store from saving until the function that it returns is called: where
// its lock should be lies a folder.
func blockSaving(t *testing.T, s *stills.Store) (free func()) {
	t.Helper()
	path := s.Folder("lock")
	if err := os.RemoveAll(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(path, 0o700); err != nil {
		t.Fatal(err)
	}
	return func() {
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
	}
}

// queueSoon has what the saver asks of the window wait, as the toolkit's queue does, and
// returns a function that runs it on the calling goroutine until the saver rests.
func queueSoon(d *Desk) (settle func()) {
	queue := make(chan func(), 64)
	d.marker.saver.Soon = func(f func()) { queue <- f }
	rested := func() chan struct{} {
		rests := make(chan struct{})
		go func() {
			d.marker.saver.Flush()
			close(rests)
		}()
		return rests
	}
	return func() {
		for rests := rested(); ; {
			select {
			case f := <-queue:
				f()
			case <-rests:
				if len(queue) == 0 {
					return
				}
				(<-queue)()
				rests = rested()
			}
		}
	}
}

// onDisk returns the notes of the open still as they lie on the disk.
func onDisk(t *testing.T, d *Desk) []notes.Note {
	t.Helper()
	still, err := d.Store.Open(d.marker.Still().ID)
	if err != nil {
		t.Fatal(err)
	}
	return still.Notes.Notes
}

// What can't be saved is said for as long as it isn't, whatever else is said, and tried again by
// the message's button.
func TestUnsavedNotesAreSaid(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	d.marker.saver.After = func(time.Duration, func()) {}
	said := func() string { return d.Messages.Said[host.MessageUnsaved] }
	free := blockSaving(t, d.Store)
	d.drawRing(t)
	settle()
	if got := said(); !strings.Contains(got, "Can't save the notes") || !strings.Contains(got, "tried again by itself") {
		t.Errorf("what is not saved is said as %q", got)
	}
	d.Messages.Note("Something else.")
	d.Messages.Clear(host.MessageNote)
	if !strings.Contains(d.parts.message.Text(), said()) || said() == "" {
		t.Errorf("it went: the message bar says %q", d.parts.message.Text())
	}
	free()
	d.Messages.Acts[host.MessageUnsaved].Do()
	settle()
	if n := len(onDisk(t, d)); n != 1 || said() != "" {
		t.Errorf("with the button: %d notes on the disk, and the window says %q", n, said())
	}
}

// Closing the window tries once more.
func TestClosingTriesToSave(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	free := blockSaving(t, d.Store)
	d.drawRing(t)
	settle()
	free()
	d.Close()
	if n := len(onDisk(t, d)); n != 1 {
		t.Errorf("%d notes on the disk", n)
	}
}

// A still that is left while a note is carried keeps it where it is by then.
func TestLeavingWhileCarrying(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	m := d.Mirror
	d.marker.setTool(4)
	drag(m, image.Pt(100, 100), image.Pt(200, 180))
	d.marker.setTool(0)
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = m.Fit().Pane(image.Pt(150, 100))
	m.MouseDown(e)
	m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: m.Fit().Pane(image.Pt(180, 130))}})
	still, want := d.marker.Still().ID, d.marker.Notes()[0].Shape
	d.stills.back()
	d.marker.saver.Flush()
	again, err := d.Store.Open(still)
	if err != nil || len(again.Notes.Notes) != 1 || again.Notes.Notes[0].Shape != want {
		t.Errorf("on the disk: %v, %v; want %v", again.Notes.Notes, err, want)
	}
}
