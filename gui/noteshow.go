package gui

import (
	"image"
	"math"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
)

// noteLayer is what is drawn of the notes, over the mirror's picture.
type noteLayer struct {
	drawer  ink.Drawer
	img     *image.RGBA
	view    notes.View // with which it was drawn
	edition uint64
	still   string
	flipped bool
}

func hundredths(v float64) float64 { return math.Round(100*v) / 100 }

// notesToDraw are the notes of the still, with that which is being drawn on top.
func (d *Desk) notesToDraw() []notes.Note {
	list := d.still.list.All()
	if n := d.pen.drawn; n != nil {
		list = append(list, *n) // a copy: the list is cut to its length
	}
	return list
}

// showNotes draws all notes anew.
func (d *Desk) showNotes() {
	l := &d.layer
	if d.still == nil {
		l.still = ""
		d.parts.mirror.SetOverlay(widgets.OverlayNotes, nil)
		return
	}
	size := d.parts.mirror.Pixels()
	if l.img == nil || l.img.Rect.Size() != size {
		l.img = image.NewRGBA(image.Rectangle{Max: size})
	}
	l.view, l.edition, l.still, l.flipped = d.notesView(), d.still.list.Edition(), d.still.ID, d.settings.Mirrored
	clear(l.img.Pix)
	l.drawer.Draw(l.img, l.img.Rect, l.view.Marks(d.notesToDraw()))
	if l.flipped {
		views.FlipLeftRight(l.img.Pix, size.X, size.Y)
	}
	d.parts.mirror.SetOverlay(widgets.OverlayNotes, l.img)
}

// showNotesIn draws the notes anew where something changed, in the layer's pixels.
func (d *Desk) showNotesIn(dirty image.Rectangle) {
	l := &d.layer
	if l.img == nil || l.flipped || l.view != d.notesView() {
		d.showNotes()
		return
	}
	dirty = dirty.Inset(-1).Intersect(l.img.Rect)
	for y := dirty.Min.Y; y < dirty.Max.Y; y++ {
		clear(l.img.Pix[l.img.PixOffset(dirty.Min.X, y):l.img.PixOffset(dirty.Max.X, y)])
	}
	l.drawer.Draw(l.img, dirty, l.view.Marks(d.notesToDraw()))
	l.edition = d.still.list.Edition()
	d.parts.mirror.SetOverlay(widgets.OverlayNotes, l.img)
}

// renewNotes draws the notes anew if the mirror shows another part of the still, or another
// still, than they were drawn for.
func (d *Desk) renewNotes() {
	switch l := &d.layer; {
	case d.still == nil && l.still == "":
	case d.still == nil || l.still != d.still.ID || l.view != d.notesView() || l.edition != d.still.list.Edition() ||
		l.flipped != d.settings.Mirrored || l.img.Rect.Size() != d.parts.mirror.Pixels():
		d.showNotes()
	}
}

// notesChanged shows changed notes and has them saved.
func (d *Desk) notesChanged() {
	d.showNotes()
	d.saver.save(d.still.Still, d.still.list.All())
	if p, ok := d.page().(*stillsPage); ok {
		p.showNote()
	}
	d.trace.state(d)
}

// selectNote selects a note by its ID, "" for none. A label without words is no use: it
// goes when it is left.
func (d *Desk) selectNote(id string) {
	if n, ok := d.still.note(); ok && id != n.ID && n.Text == "" {
		if _, label := n.Shape.(notes.Label); label {
			d.still.list.Remove(n.ID)
			d.saver.save(d.still.Still, d.still.list.All())
		}
	}
	d.still.selected = id
	d.showNotes()
	if p, ok := d.page().(*stillsPage); ok {
		p.showNote()
	}
}

// undoNotes and redoNotes walk through what was done to the notes; they report whether the
// notes are what undo is for now.
func (d *Desk) undoNotes() bool {
	return d.walkNotes((*notes.List).Undo, "There is nothing to undo on this still.")
}

func (d *Desk) redoNotes() bool {
	return d.walkNotes((*notes.List).Redo, "There is nothing to do again on this still.")
}

func (d *Desk) walkNotes(step func(*notes.List) bool, nothing string) bool {
	if _, ok := d.page().(*stillsPage); !ok || d.still == nil {
		return false
	}
	if !step(d.still.list) {
		d.parts.strip.Say(widgets.MessageNote, nothing)
		return true
	}
	d.still.painted.Set(d.still.list.All())
	d.showMeasured()
	d.notesChanged()
	return true
}

// deleteNote deletes the selected note, and reports whether there was one.
func (d *Desk) deleteNote() bool {
	if d.still == nil {
		return false
	}
	n, ok := d.still.note()
	if !ok {
		return false
	}
	d.still.list.Remove(n.ID)
	d.still.selected = ""
	d.still.painted.Set(d.still.list.All())
	d.showMeasured()
	d.notesChanged()
	return true
}

// askNoteText puts the cursor where the selected note's text is written.
func (d *Desk) askNoteText() {
	if p, ok := d.page().(*stillsPage); ok {
		d.window.Canvas().Focus(p.text)
	}
}

// showMeasured says what is painted as light and as shadow.
func (d *Desk) showMeasured() {
	if p, ok := d.page().(*stillsPage); ok {
		p.showMeasured()
	}
}
