package notes

import "slices"

// List is the notes of one still, lowest first, with all that was done to them. Its zero
// value is empty. Not for concurrent use; what All returns is, and stays as it is.
type List struct {
	notes   []Note
	past    [][]change // what can be undone, the newest last
	future  [][]change // what can be done again, the nearest last
	joined  string     // what the last step was, if steps like it join it
	edition uint64
}

// change is one place of the list before and after: a note added where before is nil, one
// removed where after is nil.
type change struct {
	at            int
	before, after *Note
}

// NewList returns a list that begins with notes, with nothing to undo.
func NewList(notes []Note) *List { return &List{notes: slices.Clone(notes)} }

// All returns the notes, lowest first. It is not written to by anybody.
func (l *List) All() []Note { return slices.Clip(l.notes) }

// Edition counts the changes, undone and done again ones too: the list was changed since if
// it is another than before.
func (l *List) Edition() uint64 { return l.edition }

// Find returns the index of the note with an ID, -1 if there is none.
func (l *List) Find(id string) int {
	return slices.IndexFunc(l.notes, func(n Note) bool { return n.ID == id })
}

// Add puts notes on top, as one step.
func (l *List) Add(notes ...Note) {
	var step []change
	for i := range notes {
		step = append(step, change{at: len(l.notes) + i, after: &notes[i]})
	}
	l.do(step, "")
}

// Remove takes the notes with these IDs away, as one step. IDs of none are passed over.
func (l *List) Remove(ids ...string) {
	var step []change
	for i, n := range slices.Backward(l.notes) {
		if slices.Contains(ids, n.ID) {
			step = append(step, change{at: i, before: &n})
		}
	}
	l.do(step, "")
}

// Replace puts n in the place of the note with its ID; without one it does nothing. Steps
// of the same kind in a row, such as the moves of one drag, are one; the empty kind joins
// nothing.
func (l *List) Replace(n Note, kind string) {
	i := l.Find(n.ID)
	if i < 0 {
		return
	}
	before := l.notes[i]
	if kind != "" {
		kind += " " + n.ID
	}
	l.do([]change{{i, &before, &n}}, kind)
}

// Settle ends a row of joined steps, as at the end of a drag.
func (l *List) Settle() { l.joined = "" }

// Undo takes the last step back. It reports false if there is none.
func (l *List) Undo() bool {
	if len(l.past) == 0 {
		return false
	}
	step := pop(&l.past)
	l.future = append(l.future, step)
	for _, c := range slices.Backward(step) {
		l.apply(c.at, c.after, c.before)
	}
	l.joined = ""
	return true
}

// Redo does the step that was undone last again. It reports false if there is none.
func (l *List) Redo() bool {
	if len(l.future) == 0 {
		return false
	}
	step := pop(&l.future)
	l.past = append(l.past, step)
	for _, c := range step {
		l.apply(c.at, c.before, c.after)
	}
	l.joined = ""
	return true
}

// Steps returns how many steps can be undone and done again.
func (l *List) Steps() (undo, redo int) { return len(l.past), len(l.future) }

// do carries a step out and keeps it.
func (l *List) do(step []change, kind string) {
	if len(step) == 0 {
		return
	}
	for _, c := range step {
		l.apply(c.at, c.before, c.after)
	}
	l.future = nil
	if kind != "" && kind == l.joined {
		last := l.past[len(l.past)-1]
		last[0].after = step[0].after // a replaced note: the same place
		return
	}
	l.past, l.joined = append(l.past, step), kind
}

// apply puts after in the place of before. The notes that were handed out stay as they are.
func (l *List) apply(at int, before, after *Note) {
	l.edition++
	notes := make([]Note, 0, len(l.notes)+1)
	notes = append(notes, l.notes[:at]...)
	if after != nil {
		notes = append(notes, *after)
	}
	if before != nil {
		at++
	}
	l.notes = append(notes, l.notes[at:]...)
}

// pop takes the last of steps.
func pop(steps *[][]change) []change {
	last := len(*steps) - 1
	step := (*steps)[last]
	(*steps)[last] = nil
	*steps = (*steps)[:last]
	return step
}
