package gui

import (
	"bytes"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills/notes"
)

// A note that is carried is drawn anew where it was and where it is, no further, and looks
// as if all were drawn anew; it is saved when it is let go of, and not before.
func TestCarryingDrawsWhatMoved(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, halves(testLight, testShadow))
	m := d.parts.mirror
	for tool, kind := range noteTools() {
		if kind.to == nil {
			continue
		}
		d.setTool(tool)
		drag(m, image.Pt(60, 100), image.Pt(120, 180))
		if kind.text {
			d.page().(*stillsPage).text.SetText("words")
		}
	}
	d.selectNote("")
	d.setTool(0)
	for i, n := range d.still.list.All() {
		d.still.list.Replace(n.WithText("numbered"), "")
		d.notesChanged()
		d.saver.flush()
		before := onDisk(t, d)
		n := d.still.list.All()[i]
		d.selectNote(n.ID)
		d.pen.held, d.pen.from, d.pen.moved = &n, notes.Point{X: 90, Y: 140}, false
		size := d.layer.img.Rect.Max
		far := d.layer.img.PixOffset(size.X-2, size.Y-2)
		d.layer.img.Pix[far] = 77
		for _, to := range []float64{95, 110, 130, 118} {
			d.pen.Move(to, 150, false)
			if d.layer.img.Pix[far] != 77 {
				t.Fatalf("%T: all is drawn anew", n.Shape)
			}
		}
		d.layer.img.Pix[far] = 0
		drawn := bytes.Clone(d.layer.img.Pix)
		d.showNotes()
		if !bytes.Equal(drawn, d.layer.img.Pix) {
			t.Errorf("%T looks otherwise when all is drawn anew", n.Shape)
		}
		d.saver.flush()
		if now := onDisk(t, d); !writtenAlike(now[i], before[i]) {
			t.Errorf("%T is saved while it is carried", n.Shape)
		}
		d.pen.Up()
		d.saver.flush()
		if now := onDisk(t, d); !writtenAlike(now[i], d.still.list.All()[i]) || writtenAlike(now[i], before[i]) {
			t.Errorf("%T is not saved when it is let go of", n.Shape)
		}
	}
}

// A still that is left while a note is carried keeps it where it is by then.
func TestLeavingWhileCarrying(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	openNewStill(t, d, halves(testLight, testShadow))
	m := d.parts.mirror
	d.setTool(4)
	drag(m, image.Pt(100, 100), image.Pt(200, 180))
	d.setTool(0)
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = m.Fit().Pane(image.Pt(150, 100))
	m.MouseDown(e)
	m.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: m.Fit().Pane(image.Pt(180, 130))}})
	still, want := d.still.ID, d.still.list.All()[0]
	d.closeStill()
	d.saver.flush()
	again, err := d.options.Stills.Open(still)
	if err != nil || len(again.Notes.Notes) != 1 || !writtenAlike(again.Notes.Notes[0], want) || d.pen.held != nil {
		t.Errorf("on the disk: %v, %v; want %v", again.Notes.Notes, err, want)
	}
}

// writtenAlike reports whether two notes are written down alike.
func writtenAlike(a, b notes.Note) bool {
	x, errX := a.MarshalJSON()
	y, errY := b.MarshalJSON()
	return errX == nil && errY == nil && bytes.Equal(x, y)
}
