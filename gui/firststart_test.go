package gui

import (
	"testing"

	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
)

// Undo never leads back to where nothing was chosen, and there nothing is kept.
func TestFirstChoiceIsNoStepOfUndo(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	demo := d.setup.Source
	d.setup.Source = setup.Source{Kind: setup.SourceNothing}
	d.history = setup.History{}
	d.showState()
	d.stills.keep(false)
	if said := d.Messages.Said[host.MessageNote]; said != "No picture to keep yet" {
		t.Errorf("with nothing chosen, keeping says %q", said)
	}
	d.watch(demo)
	d.Undo()
	if d.setup.Source != demo {
		t.Errorf("after undo %+v is watched", d.setup.Source)
	}
}
