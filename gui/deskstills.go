package gui

import (
	"image"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/stills/ink"
)

// leaveStill is for the moment when another source is watched: before is the one until now.
func (d *Desk) leaveStill(before source) {
	if before.Kind != sourceStill {
		d.before = before
	}
	if d.still != nil {
		d.selectNote("") // a label without words goes
	}
	d.still = nil
	d.pen.drawn, d.pen.held = nil, nil
	d.showNotes()
	d.showPen()
}

// rememberedBefore is what the settings remember while a still is watched: the region or the
// picture file from before.
func (d *Desk) rememberedBefore() (region *Rect, picture string) {
	switch d.before.Kind {
	case sourceRegion:
		return RectOf(d.before.Region), ""
	case sourcePicture:
		return nil, d.before.Path
	}
	return nil, ""
}

// notesNotSaved says that what is marked on a still could not be saved. Any goroutine.
func (d *Desk) notesNotSaved(err error) {
	fyne.LogError("saving notes", err)
	d.onWindow(func() {
		d.parts.strip.say(stripNote, Explain("save the notes of this still", err))
	})
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
		d.parts.mirror.SetPen(nil)
		return
	}
	p.tools.show(d.pen.tool)
	d.parts.mirror.SetPen(&d.pen)
	d.trace.state(d)
}

// leaveTool goes back to the hand, and reports whether another tool was in use.
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
	d.pen.tool = i
	if d.setup.Source.Kind != sourceStill {
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
		d.openPage(pageIndex(stillsName))
	}
	d.askCompare()
}
