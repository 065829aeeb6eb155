package notes

import (
	"errors"
	"slices"
	"unicode/utf8"
)

// List is the notes of one still, lowest first, with all that was done to them. Its zero
// value is empty. Not for concurrent use; what All returns is, and stays as it is.
type List struct {
	notes  []Note   // never written to: a step makes another
	past   [][]Note // what undo goes back to, the newest last
	future [][]Note // what redo goes on to, the nearest last
	joined string   // what the last step was, if steps like it join it
}

// NewList returns a list that begins with notes, with nothing to undo.
func NewList(notes []Note) *List { return &List{notes: slices.Clone(notes)} }

// All returns the notes, lowest first. It is not written to by anybody.
func (l *List) All() []Note { return slices.Clip(l.notes) }

// Find returns the index of the note with an ID, -1 if there is none.
func (l *List) Find(id string) int {
	return slices.IndexFunc(l.notes, func(n Note) bool { return n.ID == id })
}

// Most is how many notes of a still there may be for another to be added: far more than can
// be read (our choice). Another program may have left more.
const Most = 1000

// MostLetters is how many letters the notes of a still may have together for another to be
// written: twenty-five pages (our choice). Another program, or this one before, may have left more.
const MostLetters = 50_000

// ErrFull: there are as many notes as there may be.
var ErrFull = errors.New("no more notes")

// Full is ErrFull if no more may be added, else nil.
func (l *List) Full() error {
	if len(l.notes) >= Most {
		return ErrFull
	}
	return nil
}

// Room returns how many letters the note with an ID may have, beside what the others have.
func (l *List) Room(id string) int {
	room := MostLetters
	for _, n := range l.notes {
		if n.ID != id {
			room -= utf8.RuneCountInString(n.Text)
		}
	}
	return max(0, min(room, MostText))
}

// Add puts a note on top.
func (l *List) Add(n Note) { l.step(append(l.All(), n), "") }

// Remove takes the note with an ID away; without one it does nothing.
func (l *List) Remove(id string) {
	if i := l.Find(id); i >= 0 {
		l.step(slices.Delete(slices.Clone(l.notes), i, i+1), "")
	}
}

// Replace puts n in the place of the note with its ID; without one it does nothing. Steps
// of the same kind in a row, such as the moves of one drag, are one; the empty kind joins
// nothing.
func (l *List) Replace(n Note, kind string) {
	i := l.Find(n.ID)
	if i < 0 {
		return
	}
	if kind != "" {
		kind += " " + n.ID
	}
	notes := slices.Clone(l.notes)
	notes[i] = n
	l.step(notes, kind)
}

// step goes on to other notes.
func (l *List) step(notes []Note, kind string) {
	if kind == "" || kind != l.joined {
		l.past = append(l.past, l.notes)
		l.forget()
	}
	l.notes, l.future, l.joined = notes, nil, kind
}

// mostPast is what all steps to go back to may weigh together, a step stepWeight and its notes: 2,000 steps,
// and 181 with the most notes that there may be. A note is a tenth of a kilobyte, so that these are 20 MB.
// Our choices.
const (
	mostPast   = 200_000
	stepWeight = 100
)

// forget takes away the oldest steps where all weigh too much; the newest always stays.
func (l *List) forget() {
	weight, from := 0, len(l.past)
	for from > 0 {
		if weight += stepWeight + len(l.past[from-1]); weight > mostPast && from < len(l.past) {
			break
		}
		from--
	}
	l.past = slices.Delete(l.past, 0, from)
}

// Settle ends a row of joined steps, as at the end of a drag.
func (l *List) Settle() { l.joined = "" }

// Undo takes the last step back. It reports false if there is none.
func (l *List) Undo() bool { return l.walk(&l.past, &l.future) }

// Redo does the step that was undone last again. It reports false if there is none.
func (l *List) Redo() bool { return l.walk(&l.future, &l.past) }

// CanUndo and CanRedo report whether there is something to undo, or to do again.
func (l *List) CanUndo() bool { return len(l.past) > 0 }

func (l *List) CanRedo() bool { return len(l.future) > 0 }

// walk goes to the last of from, and keeps in to what leads back.
func (l *List) walk(from, to *[][]Note) bool {
	last := len(*from) - 1
	if last < 0 {
		return false
	}
	*to = append(*to, l.notes)
	l.notes, (*from)[last] = (*from)[last], nil
	*from = (*from)[:last]
	l.joined = ""
	return true
}
