package gui

import (
	"slices"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
)

// delete puts a still into the trash; a message offers to take that back.
func (k *keptStills) delete(id string) {
	if k.now().Source == asSource(id) {
		k.back()
		k.flush() // which lets go of it
	}
	k.forget(id)
	k.Try("delete the still", func() error { return k.Store.Delete(id) }, func() {
		k.deleted = append(k.deleted, id)
		k.Messages.NoteWith(language.Say("Moved to the trash"), host.MessageAct{Name: language.Say("Undo"), Do: func() { k.undoDelete() }})
		k.Notify(host.StillsChanged)
	})
}

// undoDelete brings the still back that was deleted last, and reports whether there is one.
func (k *keptStills) undoDelete() bool {
	if len(k.deleted) == 0 {
		return false
	}
	id := k.deleted[len(k.deleted)-1]
	k.deleted = k.deleted[:len(k.deleted)-1]
	k.Messages.Clear(host.MessageNote)
	k.restore(id)
	return true
}

// restore takes a still out of the trash; a message offers to put it back.
func (k *keptStills) restore(id string) {
	k.Try("restore the still", func() error { return k.Store.Restore(id) }, func() {
		k.deleted = slices.DeleteFunc(k.deleted, func(of string) bool { return of == id })
		k.Messages.NoteWith(language.Say("Restored"), host.MessageAct{Name: language.Say("Undo"), Do: func() { k.delete(id) }})
		k.Notify(host.StillsChanged)
	})
}
