package gui

import (
	"image"
	"os"
	"strings"
	"testing"
	"time"

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
	d := newTestDesk(t, Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	var waits []time.Duration
	var due func()
	d.saver.after = func(after time.Duration, f func()) { waits, due = append(waits, after), f }
	ring := func() {
		d.setTool(3)
		d.parts.mirror.drag(image.Pt(100, 100), image.Pt(200, 180))
		settle()
	}
	said := func() string { return d.parts.strip.said[stripUnsaved] }
	free := blockSaving(t, d.options.Stills)
	ring()
	if got := said(); !strings.Contains(got, "Can't save what is marked") || !strings.Contains(got, "tried again by itself") {
		t.Errorf("what is not saved is said as %q", got)
	}
	d.parts.strip.say(stripNote, "Something else.")
	d.parts.strip.clear(stripNote)
	if d.parts.strip.text.Text != said() || said() == "" {
		t.Errorf("it went: the strip says %q", d.parts.strip.text.Text)
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
	d.parts.strip.acts[stripUnsaved].do()
	settle()
	if n := len(onDisk(t, d)); n != 4 {
		t.Errorf("with the button: %d notes on the disk", n)
	}
}

// Closing the window tries once more.
func TestClosingTriesToSave(t *testing.T) {
	d := newTestDesk(t, Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	tried := 0
	d.saver.after = func(time.Duration, func()) { tried++ }
	free := blockSaving(t, d.options.Stills)
	d.setTool(3)
	d.parts.mirror.drag(image.Pt(100, 100), image.Pt(200, 180))
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

// Two windows with the same still: what one marks comes into the other with its next save,
// without a step of undo, and both keep what they have however they go on.
func TestOtherWindowsNotesComeIn(t *testing.T) {
	d := newTestDesk(t, Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	other := stills.New(stills.Folders{Data: d.options.Stills.Folder(""), Cache: t.TempDir()})
	his, err := other.Open(d.still.ID)
	if err != nil {
		t.Fatal(err)
	}
	list := notes.NewList(nil)
	mark := func() notes.Note {
		n := notes.New(notes.Box{From: notes.Point{X: 5, Y: 5}, To: notes.Point{X: 60, Y: 40}, Width: 2}, "his")
		list.Add(n)
		if err := other.SaveNotes(his, list.All()); err != nil {
			t.Fatal(err)
		}
		return n
	}
	ring := func() {
		d.setTool(3)
		d.parts.mirror.drag(image.Pt(100, 100), image.Pt(200, 180))
		settle()
	}
	x := mark()
	ring()
	ring()
	y := mark()
	ring()
	for range 2 {
		if n := len(onDisk(t, d)); n != 5 || len(d.still.list.All()) != 5 {
			t.Fatalf("%d notes on the disk, %d in the window", n, len(d.still.list.All()))
		}
		if steps, _ := d.still.list.Steps(); steps != 3 {
			t.Errorf("%d steps to undo, want 3", steps)
		}
		list.Settle()
		if err := other.SaveNotes(his, list.All()); err != nil {
			t.Fatal(err)
		}
	}
	for d.still.list.Undo() {
	}
	d.notesChanged()
	settle()
	left := onDisk(t, d)
	if len(left) != 2 || left[0].ID != x.ID || left[1].ID != y.ID {
		t.Errorf("undone: %v", left)
	}
	d.selectNote(x.ID)
	d.deleteNote()
	settle()
	if left := onDisk(t, d); len(left) != 1 || left[0].ID != y.ID {
		t.Errorf("a note of the other window was deleted here, on the disk is %v", left)
	}
}

// While a note is held nothing comes in; with its end it does.
func TestOthersNotesWaitForTheHand(t *testing.T) {
	d := newTestDesk(t, Defaults())
	openNewStill(t, d, halves(testLight, testShadow))
	box := notes.New(notes.Box{From: notes.Point{X: 5, Y: 5}, To: notes.Point{X: 60, Y: 40}, Width: 2}, "his")
	d.pen.held = &box
	if d.joinNotes(d.still.disk, nil, []notes.Note{box}) || len(d.still.list.All()) != 0 {
		t.Error("others' notes come in while one is held")
	}
	d.pen.held = nil
	if !d.joinNotes(d.still.disk, nil, []notes.Note{box}) || len(d.still.list.All()) != 1 {
		t.Error("others' notes don't come in")
	}
}

// Whoever waits for the saver on the window's goroutine is not waited for in turn: what others
// did then comes in with a later save, and is not lost meanwhile.
func TestTakingOverWaitsForNobodyWhoWaits(t *testing.T) {
	d := newTestDesk(t, Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	other := stills.New(stills.Folders{Data: d.options.Stills.Folder(""), Cache: t.TempDir()})
	his, err := other.Open(d.still.ID)
	if err != nil {
		t.Fatal(err)
	}
	box := notes.New(notes.Box{From: notes.Point{X: 5, Y: 5}, To: notes.Point{X: 60, Y: 40}, Width: 2}, "his")
	if err := other.SaveNotes(his, []notes.Note{box}); err != nil {
		t.Fatal(err)
	}
	ring := func() {
		d.setTool(3)
		d.parts.mirror.drag(image.Pt(100, 100), image.Pt(200, 180))
	}
	ring()
	d.saver.flush() // the queue stands still meanwhile
	ring()
	d.saver.flush()
	if n := len(onDisk(t, d)); n != 3 || len(d.still.list.All()) != 2 {
		t.Errorf("%d notes on the disk, %d in the window", n, len(d.still.list.All()))
	}
	ring()
	settle()
	if n := len(onDisk(t, d)); n != 4 || len(d.still.list.All()) != 4 {
		t.Errorf("at last %d notes on the disk, %d in the window", n, len(d.still.list.All()))
	}
}
