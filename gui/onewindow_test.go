package gui

import (
	"image"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
)

const shownOnly = "Another window marks this still, so this one only shows it."

// newWindowBeside is another window, with the same stills.
func newWindowBeside(t *testing.T, d *Desk) *Desk {
	t.Helper()
	b := newTestDesk(t, settings.Defaults())
	b.options.Stills = stills.New(stills.Folders{Data: d.options.Stills.Folder(""), Cache: t.TempDir()})
	b.saver.store = b.options.Stills
	b.openPage(pageIndex(settings.PageStills))
	b.see(t, halves(testLight, testShadow))
	return b
}

// showStill opens a still, and shows it.
func (d *Desk) showStill(t *testing.T, id string) {
	t.Helper()
	d.OpenStill(id)
	d.seeStill(t)
}

// drawRing draws a note.
func (d *Desk) drawRing(t *testing.T) {
	t.Helper()
	d.setTool(3)
	drag(d.parts.mirror, image.Pt(100, 100), image.Pt(200, 180))
	d.setTool(0)
}

// A still that one window marks another only shows, as it lay on the disk, and says so; what
// would mark it does nothing but say so again. Once the first lets go, opening it marks it.
func TestSecondWindowOnlyShows(t *testing.T) {
	a := newTestDesk(t, settings.Defaults())
	openNewStill(t, a, halves(testLight, testShadow))
	a.drawRing(t)
	a.saver.flush()
	b := newWindowBeside(t, a)
	b.setTool(2) // from before
	b.see(t, halves(testLight, testShadow))
	b.seeStill(t) // which a tool keeps first
	b.showStill(t, a.still.ID)
	said := func() string {
		words := b.parts.strip.Said(widgets.MessageNote)
		b.parts.strip.Clear(widgets.MessageNote)
		return words
	}
	if got := said(); got != shownOnly || len(b.still.list.All()) != 1 || b.pen.tool != 0 {
		t.Errorf("opened, it says %q and shows %d notes", got, len(b.still.list.All()))
	}
	if words := b.page().(*stillsPage).head.words.Text; !strings.HasSuffix(words, shownOnly) {
		t.Errorf("over the tools it says %q", words)
	}
	edge := image.Pt(150, 100) // where the ring lies
	for name, act := range map[string]func(){
		"a tool":            func() { b.drawRing(t) },
		"carrying":          func() { drag(b.parts.mirror, edge, edge.Add(image.Pt(30, 30))) },
		"a click, Delete":   func() { press(b.parts.mirror, edge, 0); b.TypedKey(fyne.KeyDelete) },
		"a click, an arrow": func() { press(b.parts.mirror, edge, 0); b.parts.mirror.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) },
	} {
		edition := b.still.list.Edition()
		act()
		if got := said(); got != shownOnly || b.still.list.Edition() != edition {
			t.Errorf("%s: it says %q, and changes %d things", name, got, b.still.list.Edition()-edition)
		}
	}
	b.deleteStill(a.still.ID)
	if got := said(); got != "Can't delete the still: a window marks it; close it there first." {
		t.Errorf("deleting says %q", got)
	}
	a.drawRing(t)
	a.saver.flush()
	b.showStill(t, a.still.ID)
	if got := said(); got != shownOnly || len(b.still.list.All()) != 2 {
		t.Errorf("opened again, it says %q and shows %d notes", got, len(b.still.list.All()))
	}
	a.drawRing(t)
	id := a.still.ID
	a.closeStill()
	a.saver.flush()
	b.showStill(t, id) // which it shows already
	b.drawRing(t)
	b.saver.flush()
	if got := said(); got != "" || len(onDisk(t, b)) != 4 {
		t.Errorf("let go of, it says %q, and on the disk are %d notes", got, len(onDisk(t, b)))
	}
	b.Close()
	a.showStill(t, id)
	if a.still.Barred != nil || len(a.still.list.All()) != 4 {
		t.Errorf("the other window is closed: %v, %d notes", a.still.Barred, len(a.still.list.All()))
	}
}

// What is left while it can't be saved stays this window's: opened again it is all there, in
// no other window meanwhile, and let go of once it is saved.
func TestUnsavedStillIsKeptHold(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	settle := queueSoon(d)
	openNewStill(t, d, halves(testLight, testShadow))
	id, due := d.still.ID, func() {}
	d.saver.after = func(_ time.Duration, f func()) { due = f }
	free := blockSaving(t, d.options.Stills)
	d.drawRing(t)
	d.closeStill()
	settle()
	d.showStill(t, id)
	if n := len(d.still.list.All()); n != 1 || d.still.Barred != nil {
		t.Fatalf("opened again: %d notes, %v", n, d.still.Barred)
	}
	d.drawRing(t)
	d.closeStill()
	settle()
	free()
	b := newWindowBeside(t, d)
	b.showStill(t, id)
	if b.still.Barred == nil {
		t.Error("another window marks what is not saved yet")
	}
	due()
	settle()
	b.showStill(t, id)
	if n := len(b.still.list.All()); n != 2 || b.still.Barred != nil {
		t.Errorf("saved: %d notes in the other window, %v", n, b.still.Barred)
	}
}

// A window takes its own still back at once, and deletes it, however late its marks are saved.
func TestOwnStillIsNoOthers(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, halves(testLight, testShadow))
	id := d.still.ID
	for n := range 3 {
		d.drawRing(t)
		d.closeStill()
		d.showStill(t, id)
		if d.still.Barred != nil || len(d.still.list.All()) != n+1 {
			t.Fatalf("taken back: %v, %d notes, want %d", d.still.Barred, len(d.still.list.All()), n+1)
		}
	}
	if _, err := d.stillStream(id); err != nil || d.still.Barred != nil { // the watcher asked twice
		t.Errorf("opened twice: %v, %v", err, d.still.Barred)
	}
	d.drawRing(t)
	d.deleteStill(id)
	if d.options.Stills.Has(id) {
		t.Errorf("it is not deleted: %q", d.parts.strip.Said(widgets.MessageNote))
	}
}
