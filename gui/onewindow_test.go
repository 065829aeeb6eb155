package gui

import (
	"image"
	"reflect"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
)

const shownOnly = "Another window writes notes on this still, so this one only shows it."

// newWindowBeside is another window, with the same stills.
func newWindowBeside(t *testing.T, d *Desk) *Desk {
	t.Helper()
	b := newTestDeskOn(t, settings.Defaults(), stills.New(stills.Folders{Data: d.Store.Folder(""), Cache: t.TempDir()}))
	b.openPage(pageIndex(settings.PageStills))
	b.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	return b
}

// showStill opens a still, and shows it.
func (d *Desk) showStill(t *testing.T, id string) {
	t.Helper()
	d.stills.open(id)
	d.seeStill(t)
}

// drawRing draws a note.
func (d *Desk) drawRing(t *testing.T) {
	t.Helper()
	d.marker.setTool(3)
	drag(d.Mirror, image.Pt(100, 100), image.Pt(200, 180))
	d.marker.setTool(0)
}

// A still that one window marks another only shows, as it lay on the disk, and says so; what
// would mark it does nothing but say so again. Once the first lets go, opening it marks it.
func TestSecondWindowOnlyShows(t *testing.T) {
	a := newTestDesk(t, settings.Defaults())
	openNewStill(t, a, guitest.Halves(guitest.Light, guitest.Shadow))
	a.drawRing(t)
	a.marker.saver.Flush()
	b := newWindowBeside(t, a)
	b.marker.setTool(2) // from before
	b.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	b.seeStill(t) // which a tool keeps first
	b.showStill(t, a.marker.Still().ID)
	said := func() string {
		words := b.Messages.Said[host.MessageError]
		b.Messages.Clear(host.MessageError)
		return words
	}
	if got := said(); got != shownOnly || len(b.marker.Notes()) != 1 || b.marker.Tool() != 0 {
		t.Errorf("opened, it says %q and shows %d notes", got, len(b.marker.Notes()))
	}
	edge := image.Pt(150, 100) // where the ring lies
	for name, act := range map[string]func(){
		"a tool":            func() { b.drawRing(t) },
		"carrying":          func() { drag(b.Mirror, edge, edge.Add(image.Pt(30, 30))) },
		"a click, Delete":   func() { press(b.Mirror, edge, 0); b.TypedKey(fyne.KeyDelete) },
		"a click, an arrow": func() { press(b.Mirror, edge, 0); b.Mirror.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) },
	} {
		before := b.marker.Notes()
		act()
		if got := said(); got != shownOnly || !reflect.DeepEqual(b.marker.Notes(), before) {
			t.Errorf("%s: it says %q, and there are %+v", name, got, b.marker.Notes())
		}
	}
	b.stills.delete(a.marker.Still().ID)
	if got := said(); got != "Can't delete the still: another window writes notes on it; close it there first." {
		t.Errorf("deleting says %q", got)
	}
	a.drawRing(t)
	a.marker.saver.Flush()
	b.showStill(t, a.marker.Still().ID)
	if got := said(); got != shownOnly || len(b.marker.Notes()) != 2 {
		t.Errorf("opened again, it says %q and shows %d notes", got, len(b.marker.Notes()))
	}
	a.drawRing(t)
	id := a.marker.Still().ID
	a.stills.back()
	a.marker.saver.Flush()
	b.showStill(t, id) // which it shows already
	b.drawRing(t)
	b.marker.saver.Flush()
	if got := said(); got != "" || len(onDisk(t, b)) != 4 {
		t.Errorf("let go of, it says %q, and on the disk are %d notes", got, len(onDisk(t, b)))
	}
	b.Close()
	a.showStill(t, id)
	if a.marker.Still().Barred != nil || len(a.marker.Notes()) != 4 {
		t.Errorf("the other window is closed: %v, %d notes", a.marker.Still().Barred, len(a.marker.Notes()))
	}
}

// What is left while it can't be saved stays this window's: opened again it is all there, in
// no other window meanwhile, and let go of once it is saved.
func TestUnsavedStillIsKeptHold(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	id, due := d.marker.Still().ID, func() {}
	d.marker.saver.After = func(_ time.Duration, f func()) { due = f }
	free := blockSaving(t, d.Store)
	d.drawRing(t)
	d.stills.back()
	settle()
	d.showStill(t, id)
	if n := len(d.marker.Notes()); n != 1 || d.marker.Still().Barred != nil {
		t.Fatalf("opened again: %d notes, %v", n, d.marker.Still().Barred)
	}
	d.drawRing(t)
	d.stills.back()
	settle()
	free()
	b := newWindowBeside(t, d)
	b.showStill(t, id)
	if b.marker.Still().Barred == nil {
		t.Error("another window marks what is not saved yet")
	}
	due()
	settle()
	b.showStill(t, id)
	if n := len(b.marker.Notes()); n != 2 || b.marker.Still().Barred != nil {
		t.Errorf("saved: %d notes in the other window, %v", n, b.marker.Still().Barred)
	}
}

// A window takes its own still back at once, and deletes it, however late its marks are saved.
func TestOwnStillIsNoOthers(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, guitest.Halves(guitest.Light, guitest.Shadow))
	id := d.marker.Still().ID
	for n := range 3 {
		d.drawRing(t)
		d.stills.back()
		d.showStill(t, id)
		if d.marker.Still().Barred != nil || len(d.marker.Notes()) != n+1 {
			t.Fatalf("taken back: %v, %d notes, want %d", d.marker.Still().Barred, len(d.marker.Notes()), n+1)
		}
	}
	if _, err := d.stills.stream(id); err != nil || d.marker.Still().Barred != nil { // the watcher asked twice
		t.Errorf("opened twice: %v, %v", err, d.marker.Still().Barred)
	}
	d.drawRing(t)
	d.stills.delete(id)
	if d.Store.Has(id) {
		t.Errorf("it is not deleted: %q", d.Messages.Said[host.MessageError])
	}
}
