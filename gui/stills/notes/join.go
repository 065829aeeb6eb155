package notes

import "slices"

// Join takes over what others did to the same notes, beside the history: there is no step to
// undo it. base is what was in the list when others were looked for last, there is what they
// made of it together with that. It reports whether anything has changed.
//
//   - What others added lies on top, in every state that can be gone back to: undoing
//     everything gives the first state with it.
//   - What others changed is changed, also where the last step that was done to it here is
//     done again; undoing that step gives what it was before. If it was changed here too since
//     base, this stays and theirs is added.
//   - What others removed is gone, with all that was done to it here, unless it was changed
//     here since base or is the note with the ID keep.
//
// So nothing is lost that either has, and the list as saved next, compared with there, says
// what was done here.
func (l *List) Join(base, there []Note, keep string) bool {
	edition := l.edition
	for _, n := range there {
		was, mine := find(base, n.ID), l.Find(n.ID)
		switch {
		case was >= 0 && Equal(n, base[was]): // left alone
		case mine >= 0 && Equal(n, l.notes[mine]):
		case was >= 0 && mine >= 0 && Equal(l.notes[mine], base[was]):
			l.changedByOthers(mine, n)
		default:
			if l.knows(n.ID) {
				n.ID = newID()
			}
			l.notes = replaced(l.notes, len(l.notes), false, &n)
			l.edition++
		}
	}
	for _, was := range base {
		mine := l.Find(was.ID)
		if mine >= 0 && was.ID != keep && find(there, was.ID) < 0 && Equal(l.notes[mine], was) {
			l.removedByOthers(mine, was.ID)
		}
	}
	return l.edition != edition
}

// changedByOthers puts n in the place of the note at index i, and in the history where the
// present state stands.
func (l *List) changedByOthers(i int, n Note) {
	l.notes = replaced(l.notes, i, true, &n)
	l.edition++
	for _, step := range slices.Backward(l.past) {
		if c := changeTo(step, n.ID); c != nil {
			c.after = &n
			break
		}
	}
	for _, step := range slices.Backward(l.future) {
		if c := changeTo(step, n.ID); c != nil {
			c.before = &n
			break
		}
	}
}

// removedByOthers takes the note at index i away, and from the history.
func (l *List) removedByOthers(i int, id string) {
	l.notes = replaced(l.notes, i, true, nil)
	l.edition++
	for _, steps := range []*[][]change{&l.past, &l.future} {
		for k, step := range *steps {
			(*steps)[k] = slices.DeleteFunc(step, func(c change) bool { return c.id() == id })
		}
		*steps = slices.DeleteFunc(*steps, func(step []change) bool { return len(step) == 0 })
	}
	l.joined = ""
}

// knows reports whether the list has, or had or can have again, a note with an ID.
func (l *List) knows(id string) bool {
	has := func(step []change) bool { return changeTo(step, id) != nil }
	return l.Find(id) >= 0 || slices.ContainsFunc(l.past, has) || slices.ContainsFunc(l.future, has)
}

// changeTo returns the change of a step to the note with an ID, nil if there is none.
func changeTo(step []change, id string) *change {
	for i := range step {
		if step[i].id() == id {
			return &step[i]
		}
	}
	return nil
}

func (c *change) id() string {
	if c.before != nil {
		return c.before.ID
	}
	return c.after.ID
}
