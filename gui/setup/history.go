package setup

import "slices"

// mostSteps is how many setups there are to go back to. Each is half a kilobyte and what only it has,
// such as a target's small picture. Our choice: more than anybody goes back.
const mostSteps = 1000

// History keeps the setups to go back to, the newest mostSteps. Its zero value is empty.
type History struct {
	Past, future []Setup
	joined       string // what the last step was, if steps like it join it
}

// Step keeps now, before it is changed. Steps of the same kind in a row, such as the
// moves of one drag, are one; the empty kind joins nothing.
func (h *History) Step(now Setup, kind string) {
	if kind != "" && kind == h.joined {
		return
	}
	if len(h.Past) >= mostSteps {
		h.Past = slices.Delete(h.Past, 0, len(h.Past)-mostSteps+1)
	}
	h.Past, h.future, h.joined = append(h.Past, now), nil, kind
}

// Settle ends a row of joined steps.
func (h *History) Settle() { h.joined = "" }

// Forget drops the setups for which gone reports true: there is no way back to them.
func (h *History) Forget(gone func(Setup) bool) {
	h.Past, h.future = slices.DeleteFunc(h.Past, gone), slices.DeleteFunc(h.future, gone)
	h.joined = ""
}

// Each changes every setup that can be gone back to, as one that the painter did not do.
func (h *History) Each(change func(Setup) Setup) {
	for _, list := range [][]Setup{h.Past, h.future} {
		for i := range list {
			list[i] = change(list[i])
		}
	}
}

// Rename gives a source that is called otherwise now its new name in all setups, so that no way
// back leads to the old one. now is the setup of now.
func (h *History) Rename(now Setup, title string) Setup {
	was := now.Source
	rename := func(s Setup) Setup {
		if s.Source.SameWindow(was) {
			s.Source.Title = title
		}
		return s
	}
	h.Each(rename)
	return rename(now)
}

// Undo returns the setup before the last step, and whether there is one.
func (h *History) Undo(now Setup) (Setup, bool) { return swap(h, &h.Past, &h.future, now) }

// Redo returns the setup after the step last undone, and whether there is one.
func (h *History) Redo(now Setup) (Setup, bool) { return swap(h, &h.future, &h.Past, now) }

// swap takes the last of from, and puts now on to.
func swap(h *History, from, to *[]Setup, now Setup) (Setup, bool) {
	if len(*from) == 0 {
		return now, false
	}
	last := len(*from) - 1
	back := (*from)[last]
	(*from)[last] = Setup{} // what only it has is let go
	*from, *to = (*from)[:last], append(*to, now)
	h.joined = ""
	return back, true
}
