package gui

import (
	"errors"

	"app.tonedesk/analysis"
	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/menus"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// showFrame puts what the worker made of a frame into the parts.
func (d *Desk) showFrame(s *live.Shown) {
	d.last.at, d.last.counted = s.At, s.Reading.Share()
	d.last.bounds, d.last.space, d.last.flashes = s.Bounds, s.Space, s.Flashes
	followed := d.memory.Seen(s.Bounds) || d.memory.Follow(s.Move, s.Bounds.Min)
	if s.Picked != nil && s.Picked == d.pick {
		d.pick = nil
		d.leaveOutColour(*s.Picked, s.Colour)
	}
	if proportion, first := d.last.shape.Seen(s.Bounds); first {
		d.parts.frame.SetProportion(proportion)
	}
	d.standing.show(d)
	d.standing.workspace.see(s.Bounds, s.Canvas)
	d.Mirror.SetPicture(s.Img, s.Beside, s.Bounds, s.Part, s.Flipped)
	d.marker.Renew()
	d.comparison.Shown(s.At, s.Bounds)
	d.families.ShowLight()
	d.families.Focus.Show()
	d.Mirror.SetLoupe(s.Loupe, d.settings.SpotSize)
	d.copies.Take(s.Copied)
	d.parts.strip.SetZoom(d.Mirror.ZoomRoom())
	d.parts.views.Take(s.Previews)
	d.pointer.Shown(s.At)
	if s.Text && !followed {
		d.last.spots = append(d.last.spots[:0], s.Spots...)
		d.pointer.ShowUnder(s.Under, d.families.SayMelting(s.Melting))
		d.families.TakeKept(s.Kept)
		if d.families.TakeManual(s.Manual) {
			d.showMarks()
		}
		d.last.small = append(d.last.small[:0], s.Small...)
		d.showFigures(s.Reading)
		d.showState()
		d.trace.shown(d, s)
	}
}

// showFigures renews the sentence and the open page. The reading is nil before the first
// picture; pages keep nothing of it.
func (d *Desk) showFigures(r *analysis.Reading) {
	d.page().show(r)
	d.showSentence()
}

// showNoPicture is the window before its first picture.
func (d *Desk) showNoPicture() {
	d.showMarks()
	d.showFigures(nil)
	d.showSettings()
	d.showState()
}

// showMarks puts the spots on the mirror.
func (d *Desk) showMarks() {
	marks := make([]widgets.Mark, len(d.setup.Places))
	for i, p := range d.setup.Places {
		marks[i] = widgets.Mark{Name: setup.SpotName(i), At: p.At, Area: p.Area, Moved: p.Moved, Fixed: p.Fixed != nil, Selected: i == d.selected}
	}
	if d.page().wantsFamilies() {
		marks = append(marks, d.families.Marks()...)
	}
	d.Mirror.SetMarks(marks)
}

// showSettings takes changed settings over to the parts.
func (d *Desk) showSettings() {
	if !widgets.IsTheme(d.App.Settings().Theme(), d.settings.Theme, d.settings.TextPercent) {
		host.WithGraphics(d.Window, func() {
			widgets.SetTheme(d.App, widgets.NewTheme(d.settings.Theme, d.settings.TextPercent), d.Window.Canvas().Size().Width)
		})
	}
	d.parts.bar.SetView(menus.ViewName(d.settings.View))
	d.parts.bar.View.Explain(d.Tips, viewTip(d.settings.View))
	d.parts.bar.OnTop.SetOn(d.settings.KeepAbove)
	d.parts.strip.SetKnob(knobWords(d.settings))
	d.parts.strip.Under.SetOn(d.settings.UnderPointer)
	d.pointer.Set(d.settings)
	d.showState()
}

// setStatus takes what the watcher says of the source.
func (d *Desk) setStatus(s capture.Status) {
	reading := s.State == capture.NotAnswering && !d.setup.Source.Kind.OnScreen()
	if reading { // a large file takes its time; only a screen can fail to answer
		s.State, s.Err = capture.Waiting, nil
	}
	d.status = s
	if s.Err != nil && d.setup.Source.Kind == setup.SourceStill {
		d.stills.openFailed(s.Err)
		return
	}
	d.standing.loading = reading && d.setup.Source.Kind == setup.SourcePicture
	if s.Err != nil && !errors.Is(s.Err, capture.ErrNoWindow) { // else the chip says all there is to say
		d.Messages.Say(host.MessageTrouble, d.explain(s.Err))
	} else {
		d.Messages.Clear(host.MessageTrouble)
	}
	d.standing.show(d)
	d.showState()
	d.Changed()
}

// explain says what is wrong with the source.
func (d *Desk) explain(err error) string {
	switch d.setup.Source.Kind {
	case setup.SourcePicture:
		return wording.Explain(wording.On("read %s", d.setup.Source.Path), err)
	case setup.SourceRegion:
		return wording.Explain("watch the region", err)
	case setup.SourceWindow:
		return wording.ExplainFollowing(wording.On("follow %s", wording.SayWindow(d.setup.Source.Title, d.setup.Source.Class)), err)
	case setup.SourceShared:
		return wording.ExplainSharing("watch what is shared", err)
	case setup.SourceStill:
		return wording.Explain("open the still", err)
	}
	return wording.Explain("show the demo painting", err)
}
