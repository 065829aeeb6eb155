package gui

import (
	"image"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// leaveStill is for the moment when another source is watched: was is the setup until now.
func (d *Desk) leaveStill(was setup.Setup) {
	if was.Source.Kind != setup.SourceStill {
		d.before = was
	}
	if d.still != nil {
		d.pen.leave()
		d.selectNote("") // a label without words goes
		d.saver.leave(d.still.Still)
	}
	d.still = nil
	d.pen.drawn, d.pen.held = nil, nil
	d.pen.lift()
	d.showNotes()
	d.showPen()
	if p, ok := d.page().(*stillsPage); ok {
		p.showNote()
	}
}

// rememberedBefore is what the settings remember while a still is watched: the region or the
// picture file from before.
func (d *Desk) rememberedBefore() (region *settings.Rect, picture string) {
	switch from := d.before.Source; from.Kind {
	case setup.SourceRegion:
		return settings.RectOf(from.Region), ""
	case setup.SourcePicture:
		return nil, from.Path
	}
	return nil, ""
}

// soon runs f on the Fyne goroutine, and does not wait for it.
func (d *Desk) soon(f func()) {
	if d.leaving.Load() {
		return
	}
	fyne.Do(func() {
		if !d.leaving.Load() {
			f()
		}
	})
}

// notesNotSaved says for as long as it is so that what is marked on a still is not saved, and
// why; nil says that it is.
func (d *Desk) notesNotSaved(err error) {
	if err == nil {
		d.parts.strip.Clear(widgets.MessageUnsaved)
		return
	}
	fyne.LogError("saving notes", err)
	d.parts.strip.SayWith(widgets.MessageUnsaved, wording.SayUnsaved(err), widgets.MessageAct{Name: "Try again", Do: d.saver.again})
}

// mayMark reports whether the open still, if there is one, may be marked here. If not it says
// why.
func (d *Desk) mayMark() bool {
	if d.still == nil || d.still.Barred == nil {
		return true
	}
	d.parts.strip.Say(widgets.MessageNote, wording.SayBarred(d.still.Barred))
	return false
}

// notesSaved has the shelf count notes anew where it is seen; else it does so once it is.
func (d *Desk) notesSaved() {
	if p, ok := d.page().(*stillsPage); ok && p.part.Objects[0] == p.shelf.box {
		p.shelf.load()
	}
}

// stillsChanged has the shelf read anew.
func (d *Desk) stillsChanged() {
	if p, ok := d.page().(*stillsPage); ok {
		p.shelf.load()
	}
}

// showPen gives the pointer over the mirror to the pen while a still is open on its page.
func (d *Desk) showPen() {
	p, ok := d.page().(*stillsPage)
	if !ok || d.still == nil {
		if ok {
			p.tools.show(-1)
		}
		d.parts.mirror.SetPen(nil)
		d.showPair()
		return
	}
	p.tools.show(d.pen.tool)
	d.parts.mirror.SetPen(&d.pen)
	d.showPair()
	d.trace.state(d)
}

// leaveTool goes back to holding, and reports whether another tool was in use.
func (d *Desk) leaveTool() bool {
	if d.still == nil || d.pen.tool == 0 {
		return false
	}
	d.setTool(0)
	return true
}

// setTool takes another tool. If no still is open, the picture is kept as one first: there
// is nothing else to draw on.
func (d *Desk) setTool(i int) {
	if i != 0 && !d.mayMark() {
		i = 0
	}
	d.pen.tool = i
	if d.setup.Source.Kind != setup.SourceStill {
		if d.kept.id != "" && d.kept.source == d.setup.Source && d.kept.at.Equal(d.at) {
			d.OpenStill(d.kept.id) // this very picture was kept a moment ago
			return
		}
		d.KeepStill(true)
		return
	}
	if i != 0 && d.still != nil {
		d.selectNote("")
	}
	d.showPen()
	d.focusMirror()
}

// Nudge moves the selected note by pixels of the still, and reports whether there is one.
func (p *notePen) Nudge(by image.Point) bool {
	d := p.d
	if d.still == nil {
		return false
	}
	n, ok := d.still.note()
	if !ok {
		return false
	}
	d.still.list.Replace(n.Moved(ink.Pt(float64(by.X), float64(by.Y))), "nudge")
	d.still.painted.Set(d.still.list.All())
	d.notesChanged()
	d.showMeasured()
	return true
}

// compareByKey begins or ends comparing, on the page of stills.
func (d *Desk) compareByKey() {
	if d.comparing == compareNothing {
		d.openPage(pageIndex(settings.PageStills))
	}
	d.askCompare()
}

// onStills reports whether the page of stills is open.
func (d *Desk) onStills() bool {
	_, ok := d.page().(*stillsPage)
	return ok
}

// showStillsPart shows a part of the page of stills, if the page is open.
func (d *Desk) showStillsPart(i int) {
	d.leaveKept()
	if p, ok := d.page().(*stillsPage); ok {
		p.showPart(i)
		if i == partShelf {
			p.shelf.load()
		}
	}
}

// stillGone goes back to what was watched before, since the still can't be opened.
func (d *Desk) stillGone(err error) {
	id := d.setup.Source.Path
	d.closeStill()
	d.history.Forget(func(s setup.Setup) bool { return s.Source.Kind == setup.SourceStill && s.Source.Path == id })
	d.parts.strip.Say(widgets.MessageNote, wording.Explain("open the still", err))
	d.stillsChanged()
}

// askRestore offers to bring a still back from the trash.
func (d *Desk) askRestore(e stills.Entry) {
	name := e.Name
	if name == "" {
		name = wording.TimeSay(e.Time)
	}
	d.parts.strip.SayWith(widgets.MessageNote, name+" is in the trash.", widgets.MessageAct{Name: "Bring it back", Do: func() {
		d.parts.strip.Clear(widgets.MessageNote)
		d.restoreStill(e.ID)
	}})
}
