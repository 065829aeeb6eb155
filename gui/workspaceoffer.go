package gui

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// workspaceOffer asks whether the workspace around a canvas is to be left out: once a source, and
// anew where it was left out and the canvas has surely moved since. It remembers the answers as
// long as the window is open, as what is left out is remembered.
type workspaceOffer struct {
	*host.Host
	answers map[setup.Source]workspaceAnswer
	asked   *workspaceAsked // nil: nothing is asked
	share   float64         // of the picture that is asked about, 0 to 1; 0: nothing is asked
}

type workspaceAnswer struct {
	canvas image.Rectangle
	leave  bool
}

// workspaceAsked is what is asked now.
type workspaceAsked struct {
	source         setup.Source
	bounds, canvas image.Rectangle
}

// see takes the canvas of what is shown.
func (o *workspaceOffer) see(bounds image.Rectangle, found live.Canvas) {
	now := o.Steps.Now()
	if found.Empty() || !o.wanted(now, bounds, found) {
		o.drop()
		return
	}
	o.asked = &workspaceAsked{now.Source, bounds, found.Rectangle}
	o.share = 1 - float64(found.Dx())*float64(found.Dy())/(float64(bounds.Dx())*float64(bounds.Dy()))
	o.Messages.Ask(host.MessageWorkspace, wording.SayWorkspace(o.share, now.Source.Kind == setup.SourceRegion),
		host.MessageAct{Name: language.Say("Leave it out"), Icon: icons.LeaveOut, Do: func() { o.answer(true) }},
		host.MessageAct{Name: language.Say("Count it"), Do: func() { o.answer(false) }})
}

// wanted reports whether a canvas is to be asked about.
func (o *workspaceOffer) wanted(now setup.Setup, bounds image.Rectangle, found live.Canvas) bool {
	if slices.Equal(now.Workspace, analysis.Around(bounds, found.Rectangle)) {
		return false
	}
	answer, answered := o.answers[now.Source]
	return !answered || answer.leave && found.Certain && found.Rectangle != answer.canvas
}

// answer takes the painter's answer to what is asked, if anything is.
func (o *workspaceOffer) answer(leave bool) bool {
	asked := o.asked
	if asked == nil || asked.source != o.Steps.Now().Source { // another is watched meanwhile
		o.drop()
		return false
	}
	if o.answers == nil {
		o.answers = map[setup.Source]workspaceAnswer{}
	}
	o.answers[asked.source] = workspaceAnswer{asked.canvas, leave}
	o.drop()
	if leave {
		o.Steps.Settle()
		o.Steps.Change(o.Steps.Now().LeavingOutWorkspace(asked.bounds, asked.canvas), "")
	}
	return true
}

func (o *workspaceOffer) drop() {
	o.asked, o.share = nil, 0
	o.Messages.Clear(host.MessageWorkspace)
}
