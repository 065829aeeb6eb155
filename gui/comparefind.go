package gui

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// compareEvery is the least time between two comparisons with a picture that changes.
const compareEvery = time.Second

// compared is what was found out about two pictures.
type compared struct {
	aligned stills.Aligned
	change  *analysis.Change
	before  *analysis.Reading // of the picture before
	place   image.Rectangle   // of what is compared, in the picture after
}

// renew compares anew, if the picture changed and it is time.
func (c *comparer) renew() {
	w := &c.with
	if !c.on() || w.busy || c.bounds.Empty() || w.found != nil && c.at.Equal(w.of) && c.bounds == w.bounds {
		return
	}
	if wait := compareEvery - time.Since(w.begun); w.found != nil && wait > 0 && c.bounds == w.bounds {
		c.comeBack(wait)
		return
	}
	w.busy, w.begun = true, time.Now()
	id, side := w.id, w.side
	c.copyPicture(func(after *live.Copy) {
		c.background(func() {
			found := compareCopies(side, after, c.sourceOf(after))
			c.onWindow(func() { c.take(id, after, found) })
		})
	})
}

// take takes what was found, if it is still wanted.
func (c *comparer) take(id string, after *live.Copy, found *compared) {
	w := &c.with
	if w.id != id {
		return
	}
	w.busy, w.of, w.bounds = false, after.At, after.Bounds
	if found == nil {
		c.messages.note(wording.Sentence("compare the two pictures", "their sizes contradict each other", "choose another still"))
		return
	}
	w.found = found
	c.tellPage(comparisonChanged)
	c.draw()
}

// sourceOf says where a copied picture is from; that of a still is from where the still is.
// It is called on the goroutine that compares.
func (c *comparer) sourceOf(p *live.Copy) stills.Source {
	if p.Source.Kind == setup.SourceStill {
		if s, err := c.store.Open(p.Source.Path); err == nil {
			return s.Meta.Source
		}
	}
	return stills.SourceOf(p.Source, p.Bounds)
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
