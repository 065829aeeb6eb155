package gui

import (
	"cmp"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// delete puts a still into the trash; a message offers to bring it back.
func (k *keptStills) delete(id string) {
	if k.now().Source == asSource(id) {
		k.back()
		k.flush() // which lets go of it
	}
	k.forget(id)
	k.Try("delete the still", func() error { return k.Store.Delete(id) }, func() {
		k.deleted = append(k.deleted, id)
		k.Messages.Offer(host.MessageNote, "The still is in the trash.", host.MessageAct{Name: "Bring it back", Do: func() { k.undoDelete() }})
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

// askRestore offers to bring a still back from the trash.
func (k *keptStills) askRestore(e stills.Entry) {
	name := cmp.Or(e.Name, wording.TimeSay(e.Time))
	k.Messages.Offer(host.MessageNote, name+" is in the trash.", host.MessageAct{Name: "Bring it back", Do: func() {
		k.Messages.Clear(host.MessageNote)
		k.restore(e.ID)
	}})
}

// restore takes a still out of the trash.
func (k *keptStills) restore(id string) {
	k.Try("bring the still back", func() error { return k.Store.Restore(id) }, func() {
		k.Messages.Note("The still is back.")
		k.Notify(host.StillsChanged)
	})
}
