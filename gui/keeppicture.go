package gui

import (
	"strings"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
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
		k.Messages.Fail(wording.Explain("keep the picture", errNoStills))
	case k.now().Source.Kind == setup.SourceStill:
		k.Messages.Note(language.Say("A still already: it is kept, with its notes"))
	case bounds.Empty():
		k.Messages.Note(language.Say("No picture to keep yet"))
	default:
		k.Messages.Note(language.Say("Keeping the picture"))
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
	at, id, said := time.Now(), "", k.saidOf(c)
	k.Try("keep the picture", func() (err error) {
		meta := metaOf(c)
		meta.Time = at
		said(&meta)
		id, err = k.Store.Keep(c.Pixels, meta, nil)
		return err
	}, func() {
		k.last = keptStill{id, c.Source, c.At}
		k.Messages.NoteWith(keptWords.String(), host.MessageAct{Name: language.Say("Name it"), Do: func() { k.askName(id) }})
		k.Notify(host.StillsChanged)
		k.checkLimit()
		if opened {
			k.open(id)
		}
	})
}

// saidOf puts into a still what was said of a copied picture, its local colours and its focus: nothing
// where another one is watched by now.
func (k *keptStills) saidOf(c *live.Copy) func(*stills.Meta) {
	if c.Source != k.now().Source {
		return func(*stills.Meta) {}
	}
	judged, marked := stills.LocalColoursOf(k.judged(), c.Bounds.Min), stills.FocusOf(k.now().Focus, c.Bounds.Min)
	return func(m *stills.Meta) { m.LocalColours, m.Focus = judged, marked }
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
const keptWords language.Words = "Kept as a still"

// askName asks for the name of a still that was kept.
func (k *keptStills) askName(id string) {
	k.Messages.Clear(host.MessageNote)
	name := widgets.NewEntry(k.Keys, language.Say("Name of this still"))
	name.Most, name.OnFull = func() int { return stills.MostName }, func() {}
	rename := func() {
		words := strings.TrimSpace(name.Text)
		if words == "" {
			return
		}
		k.Try("rename the still", func() error { return k.Store.Rename(id, words) }, func() { k.Notify(host.StillsChanged) })
	}
	name.OnSubmitted = func(string) {
		rename()
		k.CloseDialog()
	}
	name.OnEscape = k.CloseDialog
	k.Question(language.Say("Name it"), name, nil, host.Choice{Name: language.Say("Name it"), Do: rename}, host.Choice{Name: language.Say("Leave it without a name")})
	k.Window.Canvas().Focus(name)
}

// metaOf says what is known of a copied picture, but the time.
func metaOf(c *live.Copy) stills.Meta {
	o := c.Settings.Grouping()
	o.Mask = &c.Mask
	reading := analysis.Read(c.Pixels, o)
	display := c.Settings.Display
	if c.Pixels.Space != nil { // a file's own
		display = c.Pixels.Space.Name
	}
	return stills.Meta{
		Source:  stills.SourceOf(c.Source, c.Bounds),
		Display: display, LeftOut: stills.LeftOutOf(&c.Mask), Reading: stills.FiguresOf(reading),
	}
}
