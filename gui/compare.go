package gui

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/live"
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

// comparer compares what is watched with a still from before, in words and in the mirror.
type comparer struct {
	*host
	compareActs
	how    comparing
	with   comparison
	turns  stills.Alternation
	at     time.Time       // when the picture that is watched was read
	bounds image.Rectangle // of that picture; empty before the first
}

// compareActs are what a comparer asks of the window.
type compareActs struct {
	copyPicture func(func(*live.Copy))
	comeBack    func(after time.Duration)              // has the picture shown once more
	view        func() (view views.View, knob float64) // that the mirror shows
	wait        func(now time.Time) time.Duration      // before all of the picture may look otherwise
	wish        func(how comparing)                    // calls as once that may be
	openPage    func()                                 // that shows what is compared
}

// comparison is a picture from before, laid over the one that is watched.
type comparison struct {
	id     string // of the still from before
	name   string
	side   stills.Side
	line   float32 // where the wipe is, a share of the mirror's picture
	busy   bool
	begun  time.Time
	of     time.Time       // when the picture after was read
	bounds image.Rectangle // of the picture after
	found  *compared       // nil until the first is made
	drawn  drawnOver
	wiped  wipedBefore
}

// newComparer returns one that compares nothing yet.
func newComparer(h *host, acts compareActs) *comparer { return &comparer{host: h, compareActs: acts} }

// asked reports whether the next click on the shelf says with what to compare.
func (c *comparer) asked() bool { return c.how == compareAsked }

// on reports whether two pictures are compared.
func (c *comparer) on() bool { return c.how >= compareWipe }

// idle reports whether nothing is compared, nor asked for.
func (c *comparer) idle() bool { return c.how == compareNothing }

// byKey begins or ends comparing, on its page.
func (c *comparer) byKey() {
	if c.idle() {
		c.openPage()
	}
	c.ask()
}

// ask asks for the still to compare with, or ends comparing.
func (c *comparer) ask() {
	if !c.idle() {
		c.end()
		return
	}
	c.how = compareAsked
	c.messages.note("Click the still from before on the shelf.")
	c.tellPage(shelfAsked)
	c.tellPage(comparisonChanged)
}

// end shows only what is watched.
func (c *comparer) end() {
	if c.asked() {
		c.messages.clear(messageNote)
	}
	c.how, c.with = compareNothing, comparison{}
	c.turns.Run(0, time.Now())
	c.mirror.SetHalves(false)
	c.mirror.SetOverlay(widgets.OverlayBefore, nil)
	c.tellPage(comparisonChanged)
}

// begin compares what is watched with a still from before.
func (c *comparer) begin(id string) {
	c.messages.clear(messageNote)
	c.background(func() {
		s, err := c.store.Open(id)
		c.onWindow(func() {
			if err != nil {
				c.messages.note(wording.Explain("open the still from before", err))
				return
			}
			name := s.Meta.Name
			if name == "" {
				name = wording.TimeSay(s.Meta.Time)
			}
			c.how = compareWipe
			c.with = comparison{id: id, name: name, line: 0.5,
				side: stills.Side{Picture: analysis.Opaque(s.Picture), Source: s.Meta.Source, LeftOut: s.Meta.LeftOut}}
			c.renew()
			c.tellPage(comparisonChanged)
			c.tellPage(comparisonAsked)
		})
	})
}

// set has the two shown in another way, as soon as that may be.
func (c *comparer) set(how comparing) {
	if c.on() {
		c.wish(how)
	}
}

// as shows the two in another way.
func (c *comparer) as(how comparing) {
	if !c.on() || how < compareWipe {
		return
	}
	c.how, c.with.wiped = how, wipedBefore{}
	every := time.Duration(0)
	if how == compareTurns {
		every = stills.AlternateEvery
	}
	c.turns.Run(every, time.Now())
	c.tellPage(comparisonChanged)
	c.draw()
}

// other shows the other of two pictures that are shown in turns, as soon as the limit on
// switches allows.
func (c *comparer) other() {
	if c.how != compareTurns {
		return
	}
	c.turns.Ask()
	c.draw()
}

// follow moves the line of the wipe to the pointer.
func (c *comparer) follow(at image.Point, inside bool) {
	part := c.mirror.Fit().Bounds
	if c.how != compareWipe || !inside || part.Empty() {
		return
	}
	c.with.line = (float32(at.X-part.Min.X) + 0.5) / float32(part.Dx())
	if c.mirror.Flipped() {
		c.with.line = 1 - c.with.line
	}
	c.draw()
}

// shown is for the moment when the mirror shows a picture, or shows it again.
func (c *comparer) shown(at time.Time, bounds image.Rectangle) {
	c.at, c.bounds = at, bounds
	c.renew()
	c.draw()
}

// forget forgets what was found: another source is watched.
func (c *comparer) forget() { c.with.found = nil }

// say says what changed from the picture before to the one of now.
func (c *comparer) say() string {
	said := wording.Compared{With: c.with.name, AsMap: c.how == compareMap}
	if found := c.with.found; found != nil {
		said.Change, said.Aligned = found.change, found.aligned
	}
	return wording.SayCompared(said)
}
