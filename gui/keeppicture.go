package gui

import (
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// keptStill is the still that was kept last, and of what.
type keptStill struct {
	id     string
	source setup.Source
	at     time.Time // when its picture was read
}

// keep keeps the picture that is in the mirror; opened asks to open it then.
func (k *keptStills) keep(opened bool) {
	bounds, _ := k.seen()
	switch {
	case k.Store == nil:
		k.Messages.Note(wording.Explain("keep the picture", errNoStills))
	case k.now().Source.Kind == setup.SourceStill:
		k.Messages.Note("This is a still already: it is kept, with its notes.")
	case bounds.Empty():
		k.Messages.Note("There is no picture to keep yet.")
	default:
		k.Messages.Note("Keeping the picture.")
		kept := k.asked.Begin()
		k.copy(func(c *live.Copy) {
			k.keepCopy(c, opened)
			kept()
		})
	}
}

// keepCopy writes a still, without holding up the window. Its time is now, however old its
// picture is: a picture file or an unchanged screen was read long ago.
func (k *keptStills) keepCopy(c *live.Copy, opened bool) {
	at, id := time.Now(), ""
	var judged []stills.LocalColour
	if c.Source == k.now().Source { // else what is said now is said of another picture
		judged = stills.LocalColoursOf(k.judged(), c.Bounds.Min)
	}
	k.Try("keep the picture", func() (err error) {
		meta := metaOf(c)
		meta.Time, meta.LocalColours = at, judged
		id, err = k.Store.Keep(c.Pixels, meta, nil)
		return err
	}, func() {
		k.last = keptStill{id, c.Source, c.At}
		k.Messages.Note(keptWords)
		k.Notify(host.StillsChanged)
		k.checkLimit()
		if opened {
			k.open(id)
		}
	})
}

// needed has a still opened to draw on, and reports false if one is watched already.
func (k *keptStills) needed() bool {
	from := k.now().Source
	if from.Kind == setup.SourceStill {
		return false
	}
	if _, at := k.seen(); k.last.id != "" && k.last.source == from && k.last.at.Equal(at) {
		k.open(k.last.id) // this very picture was kept a moment ago
	} else {
		k.keep(true)
	}
	return true
}

// keptWords answer keeping a picture, until something else is done.
const keptWords = "Kept as a still."

// leaveAnswer takes the answer away.
func (k *keptStills) leaveAnswer() {
	if k.Messages.Said[host.MessageNote] == keptWords {
		k.Messages.Clear(host.MessageNote)
	}
}

// leaveAnswerFor is leaveAnswer where another source is watched: opening what was kept
// belongs to keeping it.
func (k *keptStills) leaveAnswerFor(from setup.Source) {
	if from != asSource(k.last.id) {
		k.leaveAnswer()
	}
}

// metaOf says what is known of a copied picture, but the time.
func metaOf(c *live.Copy) stills.Meta {
	o := c.Settings.Grouping()
	o.Mask = &c.Mask
	reading := analysis.Read(c.Pixels, o)
	return stills.Meta{
		Source:  stills.SourceOf(c.Source, c.Bounds),
		Display: c.Settings.Display, LeftOut: stills.LeftOutOf(&c.Mask), Reading: stills.FiguresOf(reading),
	}
}
