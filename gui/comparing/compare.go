package comparing

import (
	"cmp"
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Way says how two pictures are compared in the mirror.
type Way uint8

const (
	Nothing Way = iota
	Asked       // the next click on the shelf says with what
	Wipe        // before left of the pointer, after right of it
	Sides       // both beside each other
	Turns       // one after the other
	Map         // the difference of lightness
)

// Comparer compares what is watched with a still from before, in words and in the mirror.
type Comparer struct {
	*host.Host
	Acts
	How    Way
	With   comparison
	turns  stills.Alternation
	at     time.Time       // when the picture that is watched was read
	bounds image.Rectangle // of that picture; empty before the first
}

// Acts are what a comparer asks of the window.
type Acts struct {
	CopyPicture func(func(*live.Copy))
	ComeBack    func(after time.Duration)              // has the picture shown once more
	View        func() (view views.View, knob float64) // that the mirror shows
	Wait        func(now time.Time) time.Duration      // before all of the picture may look otherwise
	Wish        func(how Way)                          // calls as once that may be
	OpenPage    func()                                 // that shows what is compared
}

// comparison is a picture from before, laid over the one that is watched.
type comparison struct {
	ID     string // of the still from before
	name   string
	side   stills.Side
	line   float32 // where the wipe is, a share of the mirror's picture
	busy   bool
	begun  time.Time
	of     time.Time       // when the picture after was read
	bounds image.Rectangle // of the picture after
	Found  *compared       // nil until the first is made
	drawn  drawnOver
	wiped  wipedBefore
}

// New returns one that compares nothing yet.
func New(h *host.Host, acts Acts) *Comparer { return &Comparer{Host: h, Acts: acts} }

// Asked reports whether the next click on the shelf says with what to compare.
func (c *Comparer) Asked() bool { return c.How == Asked }

// On reports whether two pictures are compared.
func (c *Comparer) On() bool { return c.How >= Wipe }

// Idle reports whether nothing is compared, nor asked for.
func (c *Comparer) Idle() bool { return c.How == Nothing }

// ByKey begins or ends comparing, on its page.
func (c *Comparer) ByKey() {
	if c.Idle() {
		c.OpenPage()
	}
	c.Ask()
}

// Ask asks for the still to compare with, or ends comparing.
func (c *Comparer) Ask() {
	if !c.Idle() {
		c.End()
		return
	}
	c.How = Asked
	c.Messages.Note("Click the still from before on the shelf.")
	c.Notify(host.ShelfAsked)
	c.Notify(host.ComparisonChanged)
}

// End shows only what is watched.
func (c *Comparer) End() {
	if c.Asked() {
		c.Messages.Clear(host.MessageNote)
	}
	c.How, c.With = Nothing, comparison{}
	c.turns.Run(0, time.Now())
	c.Mirror.SetHalves(false)
	c.Mirror.SetOverlay(widgets.OverlayBefore, nil)
	c.Notify(host.ComparisonChanged)
}

// Begin compares what is watched with a still from before.
func (c *Comparer) Begin(id string) {
	c.Messages.Clear(host.MessageNote)
	var s *stills.Still
	c.Background(func() (err error) {
		s, err = c.Store.Open(id)
		return err
	}, func(err error) {
		if err != nil {
			c.Messages.Note(wording.Explain("open the still from before", err))
			return
		}
		name := cmp.Or(s.Meta.Name, wording.TimeSay(s.Meta.Time))
		c.How = Wipe
		s.Picture.LayOver(analysis.White) // it is ours alone
		c.With = comparison{ID: id, name: name, line: 0.5,
			side: stills.Side{Picture: s.Picture, Source: s.Meta.Source, LeftOut: s.Meta.LeftOut}}
		c.refresh()
		c.Notify(host.ComparisonChanged)
		c.Notify(host.ComparisonAsked)
	})
}

// Set has the two shown in another way, as soon as that may be.
func (c *Comparer) Set(how Way) {
	if c.On() {
		c.Wish(how)
	}
}

// As shows the two in another way.
func (c *Comparer) As(how Way) {
	if !c.On() || how < Wipe {
		return
	}
	c.How, c.With.wiped = how, wipedBefore{}
	every := time.Duration(0)
	if how == Turns {
		every = stills.AlternateEvery
	}
	c.turns.Run(every, time.Now())
	c.Notify(host.ComparisonChanged)
	c.draw()
}

// Other shows the other of two pictures that are shown in turns, as soon as the limit on
// switches allows.
func (c *Comparer) Other() {
	if c.How != Turns {
		return
	}
	c.turns.Ask()
	c.draw()
}

// Follow moves the line of the wipe to the pointer.
func (c *Comparer) Follow(at image.Point, inside bool) {
	part := c.Mirror.Fit().Bounds
	if c.How != Wipe || !inside || part.Empty() {
		return
	}
	c.With.line = (float32(at.X-part.Min.X) + 0.5) / float32(part.Dx())
	if c.Mirror.Flipped() {
		c.With.line = 1 - c.With.line
	}
	c.draw()
}

// Shown is for the moment when the mirror shows a picture, or shows it again.
func (c *Comparer) Shown(at time.Time, bounds image.Rectangle) {
	c.at, c.bounds = at, bounds
	c.refresh()
	c.draw()
}

// Forget forgets what was found: another source is watched.
func (c *Comparer) Forget() { c.With.Found = nil }

// say says what changed from the picture before to the one of now.
func (c *Comparer) say() string {
	said := wording.Compared{With: c.With.name, AsMap: c.How == Map}
	if found := c.With.Found; found != nil {
		said.Change, said.Aligned = found.change, found.aligned
	}
	return wording.SayCompared(said)
}
