package marking

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
)

// Board is the still that is open, if one is, with what is marked on it. It is used on one
// goroutine, on which it calls its Acts.
type Board struct {
	acts  Acts
	saver *Saver
	tool  int // place in Tools

	still    *stills.Still  // nil: none is open
	list     *notes.List    // empty without a still
	painted  *notes.Painted // nil without one
	selected string         // ID of a note, or ""; none of a still that can't be marked here
	fresh    string         // ID of the note that was drawn last, until something else is done
	pen      pen
	layer    layer
}

// Acts are what the board asks and tells. All are there.
type Acts struct {
	Look     func() Look          // how the still lies in the picture that is drawn on, now
	SpotSize func() int           // side of the square that a spot reads, in pixels
	Drawn    func(*image.RGBA)    // the notes, or some of them, were drawn anew; nil without a still
	Selected func()               // another still or note is selected, or its words are others
	Measured func()               // other parts are painted as light and shadow
	Changed  func()               // the notes are others
	Words    func()               // the painter is to write the words of the selected note
	Barred   func(why error)      // the still can't be marked here
	Pan      func(by image.Point) // the picture is dragged, by pixels of the still
}

// NewBoard returns a board without a still.
func NewBoard(saver *Saver, acts Acts) *Board {
	return &Board{acts: acts, saver: saver, list: notes.NewList(nil)}
}

// Open takes a still that was opened, with the tool that selects: what is there is looked at
// before more is drawn. One that can't be marked here says so.
func (b *Board) Open(s *stills.Still) {
	b.still, b.list, b.selected, b.tool = s, notes.NewList(s.Notes.Notes), "", 0
	b.painted = notes.NewPainted(analysis.Opaque(s.Picture))
	b.painted.Set(b.list.All())
	b.mayMark()
	b.draw()
	b.acts.Selected()
}

// Close leaves the still, if one is open, and lets go of it once all is saved.
func (b *Board) Close() {
	if b.still != nil {
		b.Leave()
		b.saver.Leave(b.still)
	}
	b.still, b.list, b.painted = nil, notes.NewList(nil), nil
	b.draw()
	b.acts.Selected()
}

// Still is the one that is open, or nil.
func (b *Board) Still() *stills.Still { return b.still }

// Notes are those of the still, lowest first. They are not written to.
func (b *Board) Notes() []notes.Note { return b.list.All() }

// Measure returns what is painted as light and as shadow.
func (b *Board) Measure() notes.Measured {
	if b.still == nil {
		return notes.Measured{}
	}
	return b.painted.Measure()
}

// mayMark reports whether the still, if there is one, may be marked here. If not it says why.
func (b *Board) mayMark() bool {
	if b.still == nil || b.still.Barred == nil {
		return true
	}
	b.acts.Barred(b.still.Barred)
	return false
}

// Tool is the place in Tools of the tool in use.
func (b *Board) Tool() int { return b.tool }

// SetTool takes another tool, but only to hold where the still can't be marked.
func (b *Board) SetTool(i int) {
	if i != 0 && !b.mayMark() {
		i = 0
	}
	b.tool, b.fresh = i, ""
	if i != 0 && b.still != nil {
		b.Select("")
	}
}

// Selected returns the selected note, and whether there is one.
func (b *Board) Selected() (notes.Note, bool) {
	if i := b.list.Find(b.selected); i >= 0 && b.selected != "" {
		return b.list.All()[i], true
	}
	return notes.Note{}, false
}

// Select selects a note by its ID, "" for none.
func (b *Board) Select(id string) {
	b.selectOnly(id)
	b.draw()
	b.acts.Selected()
}

// Unselect selects none, and reports whether one was selected.
func (b *Board) Unselect() bool {
	if b.selected == "" {
		return false
	}
	b.Select("")
	return true
}

// selectOnly selects a note without drawing it. A label without words is no use: it goes when
// it is left.
func (b *Board) selectOnly(id string) {
	if n, ok := b.Selected(); ok && id != n.ID && n.Text == "" {
		if _, label := n.Shape.(notes.Label); label {
			b.list.Remove(n.ID)
			b.saver.Save(b.still, b.list.All())
		}
	}
	b.selected, b.fresh = id, ""
}

// Fresh reports whether a note was drawn just now that can have words: what is typed then is meant for
// it.
func (b *Board) Fresh() bool { return b.fresh != "" && b.fresh == b.selected }

// Room is how many letters the selected note may have.
func (b *Board) Room() int { return b.list.Room(b.selected) }

// Write gives the selected note other words.
func (b *Board) Write(text string) {
	if n, ok := b.Selected(); ok && n.Known() {
		b.list.Replace(n.WithText(text), "text")
		b.changed()
	}
}

// Settle ends a row of changes: the next is a step of undo of its own.
func (b *Board) Settle() { b.list.Settle() }

// Undo takes back what was done to the notes last, and Redo does it again. They report
// whether there is something.
func (b *Board) Undo() bool { return b.walk((*notes.List).Undo) }

func (b *Board) Redo() bool { return b.walk((*notes.List).Redo) }

// CanUndo and CanRedo report whether there is something.
func (b *Board) CanUndo() bool { return b.list.CanUndo() }

func (b *Board) CanRedo() bool { return b.list.CanRedo() }

func (b *Board) walk(step func(*notes.List) bool) bool {
	if !step(b.list) {
		return false
	}
	b.repaint()
	b.changed()
	return true
}

// Delete deletes the selected note, and reports whether there was one.
func (b *Board) Delete() bool {
	n, ok := b.Selected()
	if !ok {
		return false
	}
	b.list.Remove(n.ID)
	b.selected = ""
	b.repaint()
	b.changed()
	return true
}

// Nudge moves the selected note by pixels of the still, and reports whether there is one.
func (b *Board) Nudge(by image.Point) bool {
	n, ok := b.Selected()
	if !ok {
		return false
	}
	b.list.Replace(n.Moved(ink.Pt(float64(by.X), float64(by.Y))), "nudge")
	b.repaint()
	b.changed()
	return true
}

// repaint measures anew what is painted, after areas changed.
func (b *Board) repaint() {
	b.painted.Set(b.list.All())
	b.acts.Measured()
}

// changed shows changed notes and has them saved.
func (b *Board) changed() {
	b.draw()
	b.saver.Save(b.still, b.list.All())
	b.acts.Selected()
	b.acts.Changed()
}
