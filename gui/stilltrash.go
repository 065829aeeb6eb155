package gui

import (
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
	k.background(func() {
		err := k.store.Delete(id)
		k.onWindow(func() {
			if err != nil {
				k.messages.note(wording.ExplainWriting("delete the still", err))
				return
			}
			k.deleted = append(k.deleted, id)
			k.messages.offer(messageNote, "The still is in the trash.", messageAct{name: "Bring it back", do: func() { k.undoDelete() }})
			k.tellPage(stillsChanged)
		})
	})
}

// undoDelete brings the still back that was deleted last, and reports whether there is one.
func (k *keptStills) undoDelete() bool {
	if len(k.deleted) == 0 {
		return false
	}
	id := k.deleted[len(k.deleted)-1]
	k.deleted = k.deleted[:len(k.deleted)-1]
	k.messages.clear(messageNote)
	k.restore(id)
	return true
}

// askRestore offers to bring a still back from the trash.
func (k *keptStills) askRestore(e stills.Entry) {
	name := e.Name
	if name == "" {
		name = wording.TimeSay(e.Time)
	}
	k.messages.offer(messageNote, name+" is in the trash.", messageAct{name: "Bring it back", do: func() {
		k.messages.clear(messageNote)
		k.restore(e.ID)
	}})
}

// restore takes a still out of the trash.
func (k *keptStills) restore(id string) {
	k.background(func() {
		err := k.store.Restore(id)
		k.onWindow(func() {
			if err != nil {
				k.messages.note(wording.ExplainWriting("bring the still back", err))
				return
			}
			k.messages.note("The still is back.")
			k.tellPage(stillsChanged)
		})
	})
}
