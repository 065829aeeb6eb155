package comparing

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
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

// refresh compares anew, if the picture changed and it is time.
func (c *Comparer) refresh() {
	w := &c.With
	if !c.On() || w.busy || c.bounds.Empty() || w.Found != nil && c.at.Equal(w.of) && c.bounds == w.bounds {
		return
	}
	if wait := compareEvery - time.Since(w.begun); w.Found != nil && wait > 0 && c.bounds == w.bounds {
		c.ComeBack(wait)
		return
	}
	w.busy, w.begun = true, time.Now()
	id, side := w.ID, w.side
	c.CopyPicture(func(after *live.Copy) {
		var found *compared
		c.Background(func() (err error) {
			found, err = compareCopies(side, after, c.sourceOf(after))
			return err
		}, func(err error) { c.take(id, after, found, err) })
	})
}

// take takes what was found, if it is still wanted.
func (c *Comparer) take(id string, after *live.Copy, found *compared, err error) {
	w := &c.With
	if w.ID != id {
		return
	}
	w.busy, w.of, w.bounds = false, after.At, after.Bounds
	if err != nil { // the next try would end alike
		c.End()
		c.Messages.Fail(wording.Explain("compare the two pictures", err))
		return
	}
	w.Found = found
	c.Notify(host.ComparisonChanged)
	c.draw()
	c.Changed()
}

// sourceOf says where a copied picture is from; that of a still is from where the still is.
// It is called on the goroutine that compares.
func (c *Comparer) sourceOf(p *live.Copy) stills.Source {
	if p.Source.Kind == setup.SourceStill {
		if meta, err := c.Store.Meta(p.Source.Path); err == nil {
			return meta.Source
		}
	}
	return stills.SourceOf(p.Source, p.Bounds)
}

// compareCopies compares a picture from before with a copied one.
func compareCopies(before stills.Side, after *live.Copy, from stills.Source) (*compared, error) {
	aligned, err := stills.Align(before, stills.Side{Picture: after.Pixels, Source: from, LeftOut: stills.LeftOutOf(&after.Mask)})
	if err != nil {
		return nil, err
	}
	change, err := analysis.ChangeOf(aligned.Before, aligned.After, aligned.MaskBefore, aligned.MaskAfter, after.Settings.Groups)
	if err != nil {
		return nil, err
	}
	aligned.After = analysis.Pixels{} // which is not looked at any more: there may be a newer one
	found := &compared{aligned: aligned, change: change, place: after.Bounds}
	o := after.Settings.Grouping()
	o.Mask = aligned.MaskBefore
	found.before = analysis.Read(aligned.Before, o)
	if aligned.How == stills.ByPosition {
		found.place = aligned.Region.Rectangle().Sub(from.Region.Rectangle().Min).Add(after.Bounds.Min)
	}
	return found, nil
}
