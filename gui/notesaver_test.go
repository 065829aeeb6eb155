package gui

import (
	"image"
	"os"
	"strings"
	"testing"
	"time"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
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
	d.saver.soon = func(f func()) { queue <- f }
	rested := func() chan struct{} {
		rests := make(chan struct{})
		go func() {
			d.saver.mu.Lock()
			defer d.saver.mu.Unlock()
			for d.saver.running {
				d.saver.idle.Wait()
			}
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
	still, err := d.options.Stills.Open(d.still.ID)
	if err != nil {
		t.Fatal(err)
	}
	return still.Notes.Notes
}

// What can't be saved is said for as long as it isn't, and tried again after a while, after a
// longer one, and with the next change.
func TestUnsavedNotesAreTriedAgain(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	var waits []time.Duration
	var due func()
	d.saver.after = func(after time.Duration, f func()) { waits, due = append(waits, after), f }
	ring := func() {
		d.setTool(3)
		drag(d.parts.mirror, image.Pt(100, 100), image.Pt(200, 180))
		settle()
	}
	said := func() string { return d.parts.strip.Said(widgets.MessageUnsaved) }
	free := blockSaving(t, d.options.Stills)
	ring()
	if got := said(); !strings.Contains(got, "Can't save what is marked") || !strings.Contains(got, "tried again by itself") {
		t.Errorf("what is not saved is said as %q", got)
	}
	d.parts.strip.Say(widgets.MessageNote, "Something else.")
	d.parts.strip.Clear(widgets.MessageNote)
	if d.parts.strip.Shown() != said() || said() == "" {
		t.Errorf("it went: the strip says %q", d.parts.strip.Shown())
	}
	for range 5 {
		due()
		settle()
	}
	want := []time.Duration{2 * time.Second, 5 * time.Second, 15 * time.Second, time.Minute, time.Minute, time.Minute}
	for i := range want {
		if len(waits) != len(want) || waits[i] != want[i] {
			t.Fatalf("tried again after %v, want %v", waits, want)
		}
	}
	free()
	due()
	settle()
	if n := len(onDisk(t, d)); n != 1 || said() != "" {
		t.Errorf("free again: %d notes on the disk, and the window says %q", n, said())
	}
	free = blockSaving(t, d.options.Stills)
	ring()
	free()
	ring()
	if n := len(onDisk(t, d)); n != 3 || said() != "" {
		t.Errorf("with the next change: %d notes on the disk, and the window says %q", n, said())
	}
	free = blockSaving(t, d.options.Stills)
	ring()
	free()
	d.parts.strip.Press()
	settle()
	if n := len(onDisk(t, d)); n != 4 {
		t.Errorf("with the button: %d notes on the disk", n)
	}
}

// Closing the window tries once more.
func TestClosingTriesToSave(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	tried := 0
	d.saver.after = func(time.Duration, func()) { tried++ }
	free := blockSaving(t, d.options.Stills)
	d.setTool(3)
	drag(d.parts.mirror, image.Pt(100, 100), image.Pt(200, 180))
	settle()
	if err := d.saver.close(); err == nil {
		t.Error("closing says nothing of what it could not save")
	}
	free()
	d.Close()
	if n := len(onDisk(t, d)); n != 1 || tried != 1 {
		t.Errorf("%d notes on the disk, %d tries by itself", n, tried)
	}
}
