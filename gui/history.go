package gui

import "slices"

// history keeps the setups to go back to, without limit. Its zero value is empty.
type history struct {
	past, future []setup
	joined       string // what the last step was, if steps like it join it
}

// step keeps now, before it is changed. Steps of the same kind in a row, such as the
// moves of one drag, are one; the empty kind joins nothing.
func (h *history) step(now setup, kind string) {
	if kind != "" && kind == h.joined {
		return
	}
	h.past, h.future, h.joined = append(h.past, now), nil, kind
}

// settle ends a row of joined steps.
func (h *history) settle() { h.joined = "" }

// forget drops the setups for which gone reports true: there is no way back to them.
func (h *history) forget(gone func(setup) bool) {
	h.past, h.future = slices.DeleteFunc(h.past, gone), slices.DeleteFunc(h.future, gone)
	h.joined = ""
}

// undo returns the setup before the last step, and whether there is one.
func (h *history) undo(now setup) (setup, bool) { return swap(h, &h.past, &h.future, now) }

// redo returns the setup after the step last undone, and whether there is one.
func (h *history) redo(now setup) (setup, bool) { return swap(h, &h.future, &h.past, now) }

// swap takes the last of from, and puts now on to.
func swap(h *history, from, to *[]setup, now setup) (setup, bool) {
	if len(*from) == 0 {
		return now, false
	}
	last := len(*from) - 1
	back := (*from)[last]
	*from, *to = (*from)[:last], append(*to, now)
	h.joined = ""
	return back, true
}
