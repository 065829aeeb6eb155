package gui

import (
	"errors"
	"image"
	"math"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// openStill is the still that is watched, with what is marked on it.
type openStill struct {
	*stills.Still
	list     *notes.List
	painted  *notes.Painted
	selected string // ID of a note, or ""; none of a still that can't be marked here
}

func newOpenStill(s *stills.Still) *openStill {
	o := &openStill{Still: s, list: notes.NewList(s.Notes.Notes), painted: notes.NewPainted(s.Picture)}
	o.painted.Set(o.list.All())
	return o
}

// note returns the selected note, and whether there is one.
func (o *openStill) note() (notes.Note, bool) {
	if i := o.list.Find(o.selected); i >= 0 && o.selected != "" {
		return o.list.All()[i], true
	}
	return notes.Note{}, false
}

// errNoStills says that there is no folder for stills.
var errNoStills = errors.New("no folder for stills")

// stillStream opens a still for the watcher, and tells the window of it.
func (d *Desk) stillStream(id string) (capture.Stream, error) {
	if d.options.Stills == nil {
		return nil, errNoStills
	}
	d.opening.Lock() // what the window does not want any more is let go of before the next
	defer d.opening.Unlock()
	s := d.saver.takeBack(id)
	if s == nil {
		var err error
		if s, err = d.options.Stills.Mark(id); err != nil {
			return nil, err
		}
	}
	d.onWindow(func() { d.stillOpened(s) })
	return capture.NewPictureStream(s.Picture.Pix, s.Picture.Stride, image.Pt(s.Picture.Width, s.Picture.Height)), nil
}

// stillOpened takes a still that was opened, if it is still wanted and not open already.
func (d *Desk) stillOpened(s *stills.Still) {
	if d.setup.Source != (setup.Source{Kind: setup.SourceStill, Path: s.ID}) || d.still != nil {
		d.saver.leave(s)
		return
	}
	d.still = newOpenStill(s)
	d.setup.Areas, d.setup.Tones = leftOut(s.Meta.LeftOut)
	if !d.mayMark() {
		d.pen.tool = 0
	}
	if s.Trouble != nil {
		d.parts.strip.Say(widgets.MessageNote, wording.Explain("show the notes of this still", s.Trouble))
	}
	d.tell()
	d.showNotes()
	d.showStrip()
	if p, ok := d.page().(*stillsPage); ok {
		p.showNote()
		if d.comparing == compareNothing {
			p.showPart(partMarks)
		}
	}
	d.showPen()
}

// leftOut says what a still leaves out, as a setup has it.
func leftOut(l stills.LeftOut) (areas []image.Rectangle, tones []float64) {
	for _, a := range l.Areas {
		areas = append(areas, a.Rectangle())
	}
	const reach = setup.ToneReach * colour.BinsPerLightness
	for _, r := range l.Lightness {
		for bin := float64(r[0]) + reach; ; bin += 2 * reach {
			tones = append(tones, min(bin, float64(r[1])-reach)/colour.BinsPerLightness)
			if bin+reach >= float64(r[1]) {
				break
			}
		}
	}
	return areas, tones
}

// OpenStill shows a still that was kept. One that could only be shown is opened anew: it may
// have been let go of.
func (d *Desk) OpenStill(id string) {
	if d.still != nil && d.still.ID == id && d.still.Barred != nil {
		d.leaveStill(d.setup)
		d.watcher.Reopen(d.opener(d.setup.Source))
	}
	d.watch(setup.Source{Kind: setup.SourceStill, Path: id})
}

// closeStill goes back to what was watched before stills, spots and all, or to the demo
// painting.
func (d *Desk) closeStill() {
	if d.setup.Source.Kind != setup.SourceStill {
		return
	}
	next := d.setup
	back := d.before
	next.Source, next.Places, next.Areas, next.Tones, next.Edges, next.Families = back.Source, back.Places, back.Areas, back.Tones, back.Edges, back.Families
	d.history.Settle()
	d.change(next, "")
}

// KeepStill keeps the picture that is in the mirror; opened asks to open it then.
func (d *Desk) KeepStill(opened bool) {
	switch {
	case d.options.Stills == nil:
		d.parts.strip.Say(widgets.MessageNote, wording.Explain("keep the picture", errNoStills))
	case d.setup.Source.Kind == setup.SourceStill:
		d.parts.strip.Say(widgets.MessageNote, "This is a still already: it is kept, with its notes.")
	case d.bounds.Empty():
		d.parts.strip.Say(widgets.MessageNote, "There is no picture to keep yet.")
	default:
		d.parts.strip.Say(widgets.MessageNote, "Keeping the picture.")
		d.copyPicture(func(c *live.Copy) { d.keepCopy(c, opened) })
	}
}

// keepCopy writes a still, without holding up the window. Its time is now, however old its
// picture is: a picture file or an unchanged screen was read long ago.
func (d *Desk) keepCopy(c *live.Copy, opened bool) {
	at := time.Now()
	d.aside(func() {
		meta := metaOf(c)
		meta.Time = at
		id, err := d.options.Stills.Keep(c.Pixels, meta, nil)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.ExplainWriting("keep the picture", err))
				fyne.LogError("keeping a still", err)
				return
			}
			d.kept = keptStill{id, c.Source, c.At}
			d.parts.strip.Say(widgets.MessageNote, keptWords)
			d.stillsChanged()
			d.checkLimit()
			if opened {
				d.OpenStill(id)
			}
		})
	})
}

// keptWords answer keeping a picture, until something else is done.
const keptWords = "Kept as a still."

// leaveKept takes the answer away.
func (d *Desk) leaveKept() {
	if d.parts.strip.Said(widgets.MessageNote) == keptWords {
		d.parts.strip.Clear(widgets.MessageNote)
	}
}

// keptStill is the still that was kept last, and of what.
type keptStill struct {
	id     string
	source setup.Source
	at     time.Time // when its picture was read
}

// stillKinds are how stills call the kinds of sources.
var stillKinds = map[setup.SourceKind]string{
	setup.SourceDemo: stills.FromDemo, setup.SourcePicture: stills.FromPicture, setup.SourceRegion: stills.FromScreen,
}

// metaOf says what is known of a copied picture, but the time.
func metaOf(c *live.Copy) stills.Meta {
	reading := analysis.Read(c.Pixels, analysis.Options{Groups: c.Settings.Groups, Out: &c.Out})
	return stills.Meta{
		Source:  stills.Source{Kind: stillKinds[c.Source.Kind], Path: c.Source.Path, Region: stills.RectOf(c.Bounds)},
		Display: c.Settings.Display, LeftOut: stills.LeftOutOf(&c.Out), Reading: stills.FiguresOf(reading),
	}
}

// notesView returns how a still lies in the mirror, for drawing on it.
func (d *Desk) notesView() notes.View {
	m := d.parts.mirror
	size := m.Pixels()
	scale := float64(m.Scale())
	v := notes.View{
		Origin: ink.Pt(float64(m.Fit().Bounds.Min.X), float64(m.Fit().Bounds.Min.Y)),
		Scale:  math.Max(float64(size.X)/math.Max(float64(m.Fit().Bounds.Dx()), 1), 1e-3),
		Pixel:  scale, Numbers: true, Readings: true,
		Inside: image.Rectangle{Max: size},
	}
	if d.still != nil {
		v.Selected = d.still.selected
	}
	return v
}
