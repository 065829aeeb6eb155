package gui

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// comparing says how two pictures are compared in the mirror.
type comparing uint8

const (
	compareNothing comparing = iota
	compareAsked             // the next click on the shelf says with what
	compareWipe              // before left of the pointer, after right of it
	compareSides             // both beside each other
	compareTurns             // one after the other
	compareMap               // the difference of lightness
)

// compareEvery is the least time between two comparisons with a picture that changes.
const compareEvery = time.Second

// comparison is a picture from before, laid over the one that is watched.
type comparison struct {
	id     string // of the still from before
	name   string
	side   stills.Side
	at     float32 // where the wipe is, a share of the mirror's picture
	busy   bool
	begun  time.Time
	of     time.Time       // when the picture after was read
	bounds image.Rectangle // of the picture after
	found  *compared       // nil until the first is made
	drawn  drawnBefore
	wipe   wipedBefore
}

// compared is what was found out about two pictures.
type compared struct {
	aligned stills.Aligned
	change  *analysis.Change
	before  *analysis.Reading // of the picture before
	place   image.Rectangle   // of what is compared, in the picture after
}

// drawnBefore is the picture before as the mirror shows it, and for what it was drawn.
type drawnBefore struct {
	img  *image.RGBA
	look beforeLook
}

// wipedBefore is the part of the picture before that the wipe shows.
type wipedBefore struct {
	of  *image.RGBA
	x   int
	img *image.RGBA
}

// beforeLook is what a drawing of the picture before depends on.
type beforeLook struct {
	found   *compared
	view    string
	knob    float64
	part    image.Rectangle
	size    image.Point
	flipped bool
}

// askCompare asks for the still to compare with, or ends comparing.
func (d *Desk) askCompare() {
	if d.comparing != compareNothing {
		d.endCompare()
		return
	}
	d.comparing = compareAsked
	d.parts.strip.Say(widgets.MessageNote, "Click the still from before on the shelf.")
	d.showStillsPart(partShelf)
	d.showCompare()
}

// endCompare shows only what is watched.
func (d *Desk) endCompare() {
	if d.comparing == compareAsked {
		d.parts.strip.Clear(widgets.MessageNote)
	}
	d.comparing, d.comparison = compareNothing, comparison{}
	d.turns.Run(0, time.Now())
	d.parts.mirror.SetHalves(false)
	d.parts.mirror.SetOverlay(widgets.OverlayBefore, nil)
	d.showCompare()
}

// compareWith compares what is watched with a still from before.
func (d *Desk) compareWith(id string) {
	d.parts.strip.Clear(widgets.MessageNote)
	d.aside(func() {
		s, err := d.options.Stills.Open(id)
		d.onWindow(func() {
			if err != nil {
				d.parts.strip.Say(widgets.MessageNote, wording.Explain("open the still from before", err))
				return
			}
			name := s.Meta.Name
			if name == "" {
				name = wording.TimeSay(s.Meta.Time)
			}
			d.comparing = compareWipe
			d.comparison = comparison{id: id, name: name, at: 0.5,
				side: stills.Side{Picture: s.Picture, Source: s.Meta.Source, LeftOut: s.Meta.LeftOut}}
			d.renewCompare()
			d.showCompare()
			d.showStillsPart(partCompare)
		})
	})
}

// setCompare changes how the two are shown.
func (d *Desk) setCompare(how comparing) {
	if d.comparing < compareWipe {
		return
	}
	wish := d.wished()
	wish.how = how
	d.wishFor(wish)
}

// compareAs shows the two in another way.
func (d *Desk) compareAs(how comparing) {
	d.comparing, d.comparison.wipe = how, wipedBefore{}
	every := time.Duration(0)
	if how == compareTurns {
		every = stills.AlternateEvery
	}
	d.turns.Run(every, time.Now())
	d.showCompare()
	d.drawCompare()
}

// otherPicture shows the other of two pictures that are shown in turns, as soon as the
// limit on switches allows.
func (d *Desk) otherPicture() {
	if d.comparing != compareTurns {
		return
	}
	d.turns.Ask()
	d.drawCompare()
}

// renewCompare compares anew, if the picture changed and it is time.
func (d *Desk) renewCompare() {
	c := &d.comparison
	if d.comparing < compareWipe || c.busy || d.bounds.Empty() || c.found != nil && d.at.Equal(c.of) && d.bounds == c.bounds {
		return
	}
	if wait := compareEvery - time.Since(c.begun); c.found != nil && wait > 0 && d.bounds == c.bounds {
		d.comeBack(wait)
		return
	}
	c.busy, c.begun = true, time.Now()
	id, side := c.id, c.side
	d.copyPicture(func(after *live.Copy) {
		d.aside(func() {
			found := compareCopies(side, after, d.stillSource(after))
			d.onWindow(func() { d.showCompared(id, after, found) })
		})
	})
}

// stillSource says where a copied picture is from; that of a still is from where the still
// is. It is called on the goroutine that compares.
func (d *Desk) stillSource(c *live.Copy) stills.Source {
	if c.Source.Kind == setup.SourceStill {
		if s, err := d.options.Stills.Open(c.Source.Path); err == nil {
			return s.Meta.Source
		}
	}
	return metaOf(c).Source
}

// compareCopies compares a picture from before with a copied one; nil if it can't be.
func compareCopies(before stills.Side, after *live.Copy, from stills.Source) *compared {
	aligned := stills.Align(before, stills.Side{Picture: after.Pixels, Source: from, LeftOut: stills.LeftOutOf(&after.Out)})
	change, err := analysis.ChangeOf(aligned.Before, aligned.After, aligned.OutBefore, aligned.OutAfter, after.Settings.Groups)
	if err != nil {
		return nil
	}
	found := &compared{aligned: aligned, change: change, place: after.Bounds}
	found.before = analysis.Read(aligned.Before, analysis.Options{Groups: after.Settings.Groups, Out: aligned.OutBefore})
	if aligned.How == stills.ByPosition {
		found.place = aligned.Region.Rectangle().Sub(from.Region.Rectangle().Min).Add(after.Bounds.Min)
	}
	return found
}

// showCompared takes a comparison, if it is still wanted.
func (d *Desk) showCompared(id string, after *live.Copy, found *compared) {
	c := &d.comparison
	if d.comparing < compareWipe || c.id != id {
		return
	}
	c.busy, c.of, c.bounds = false, after.At, after.Bounds
	if found == nil {
		d.parts.strip.Say(widgets.MessageNote, wording.Sentence("compare the two pictures", "their sizes contradict each other", "choose another still"))
		return
	}
	c.found = found
	d.showCompare()
	d.drawCompare()
}

// showCompare renews the words on the page.
func (d *Desk) showCompare() {
	if p, ok := d.page().(*stillsPage); ok {
		p.compare.show()
	}
}
