package gui

import (
	"slices"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
)

// delete puts a still into the trash; a message offers to take that back.
func (k *keptStills) delete(id string) { k.discard(id, func() { k.undoDelete() }) }

// discard is delete with what takes it back; nil: it takes something back itself.
func (k *keptStills) discard(id string, undo func()) {
	if k.now().Source == asSource(id) {
		k.back()
		k.flush() // which lets go of it
	}
	k.forget(id)
	k.Try("delete the still", func() error { return k.Store.Delete(id) }, func() {
		k.deleted = append(k.deleted, id)
		k.say(language.Say("Moved to the trash"), undo)
	})
}

// say says what became of a still, and offers to undo it, by the key too while it is said.
func (k *keptStills) say(words string, undo func()) {
	act := host.MessageAct{}
	if undo != nil {
		act = host.MessageAct{Name: language.Say("Undo"), Do: undo}
	}
	k.Messages.NoteWith(words, act)
	k.offered = words
	k.Notify(host.StillsChanged)
}

// undoOffered does what is offered of a still, if that is said now.
func (k *keptStills) undoOffered() bool {
	said, act := k.Messages.Said[host.MessageNote], k.Messages.Acts[host.MessageNote]
	if said == "" || said != k.offered || act.Do == nil {
		return false
	}
	act.Do()
	return true
}

// undoDelete brings the still back that was deleted last, and reports whether there is one.
func (k *keptStills) undoDelete() bool {
	if len(k.deleted) == 0 {
		return false
	}
	id := k.deleted[len(k.deleted)-1]
	k.deleted = k.deleted[:len(k.deleted)-1]
	k.Messages.Clear(host.MessageNote)
	k.bring(id, nil)
	return true
}

// restore takes a still out of the trash; a message offers to put it back.
func (k *keptStills) restore(id string) { k.bring(id, func() { k.discard(id, nil) }) }

// bring is restore with what takes it back; nil: it takes something back itself.
func (k *keptStills) bring(id string, undo func()) {
	k.Try("restore the still", func() error { return k.Store.Restore(id) }, func() {
		k.deleted = slices.DeleteFunc(k.deleted, func(of string) bool { return of == id })
		k.say(language.Say("Restored"), undo)
	})
}
