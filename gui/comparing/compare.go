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
	Divided     // before left of a line, after right of it
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
	line   float32 // where the dividing line is, a share of the mirror's picture
	turns  stills.Alternation
	at     time.Time       // when the picture that is watched was read
	bounds image.Rectangle // of that picture; empty before the first
}

// Acts are what a comparer asks of the window.
type Acts struct {
	CopyPicture func(func(*live.Copy))
	ComeBack    func(after time.Duration)                 // has the picture shown once more
	View        func() (view views.View, look views.Look) // that the mirror shows
	Wait        func(now time.Time) time.Duration         // before all of the picture may look otherwise
	Wish        func(how Way)                             // calls as once that may be
	OpenPage    func()                                    // that shows what is compared
	Every       func() time.Duration                      // for which each of two pictures in turns is shown
	Now         func() string                             // what the picture that is watched is called; "" for just now
}

// comparison is a picture from before, laid over the one that is watched.
type comparison struct {
	ID     string // of the still from before
	name   string
	side   stills.Side
	busy   bool
	begun  time.Time
	of     time.Time       // when the picture after was read
	bounds image.Rectangle // of the picture after
	Found  *compared       // nil until the first is made
	drawn  drawnOver
	parted partedBefore
}

// New returns one that compares nothing yet.
func New(h *host.Host, acts Acts) *Comparer { return &Comparer{Host: h, Acts: acts} }

// On reports whether two pictures are compared.
func (c *Comparer) On() bool { return c.How != Nothing }

// ByKey ends comparing, or has its part of the page opened, which begins it.
func (c *Comparer) ByKey() {
	if c.On() {
		c.End()
		return
	}
	c.OpenPage()
	c.Notify(host.ComparisonAsked)
}

// End shows only what is watched.
func (c *Comparer) End() {
	c.How, c.With = Nothing, comparison{}
	c.turns.Run(0, time.Now())
	c.Mirror.SetHalves(false)
	c.Mirror.SetDivider(0, nil)
	c.Mirror.SetOverlay(widgets.OverlayBefore, nil)
	c.Mirror.SetOverlay(widgets.OverlayNames, nil)
	c.Notify(host.ComparisonChanged)
	c.Changed()
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
			c.Messages.Fail(wording.Explain("open the still from before", err))
			return
		}
		name := cmp.Or(s.Meta.Name, wording.SayWhen(s.Meta.Time, time.Now()))
		c.How, c.line = Divided, 0.5
		s.Picture.LayOver(analysis.White) // it is ours alone
		c.With = comparison{ID: id, name: name,
			side: stills.Side{Picture: s.Picture, Source: s.Meta.Source, LeftOut: s.Meta.LeftOut}}
		c.refresh()
		c.Notify(host.ComparisonChanged)
		c.Notify(host.ComparisonAsked)
	})
}

// Line is where the line that divides the two lies, a share of the picture's width; 0 without one.
func (c *Comparer) Line() float32 {
	if c.How != Divided || c.With.Found == nil {
		return 0
	}
	return c.line
}

// Set has the two shown in another way, as soon as that may be.
func (c *Comparer) Set(how Way) {
	if c.On() {
		c.Wish(how)
	}
}

// As shows the two in another way.
func (c *Comparer) As(how Way) {
	if !c.On() || how == Nothing {
		return
	}
	c.How, c.With.parted = how, partedBefore{}
	every := time.Duration(0)
	if how == Turns {
		every = c.Every()
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

// MoveLine moves the dividing line to a share of the picture's width, from the left of what is
// seen.
func (c *Comparer) MoveLine(share float32) {
	if c.How == Divided {
		c.line = max(0, min(share, 1))
		c.draw()
	}
}

// lineStep is by how much of the picture's width a key moves the dividing line.
const lineStep = 0.05

// StepLine moves the dividing line by some steps.
func (c *Comparer) StepLine(steps int) { c.MoveLine(c.line + lineStep*float32(steps)) }

// Shown is for the moment when the mirror shows a picture, or shows it again.
func (c *Comparer) Shown(at time.Time, bounds image.Rectangle) {
	c.at, c.bounds = at, bounds
	c.refresh()
	c.draw()
}

// Forget forgets what was found: another source is watched.
func (c *Comparer) Forget() { c.With.Found = nil }

// Change is what was found to have changed; nil as long as nothing was.
func (c *Comparer) Change() *analysis.Change {
	if c.With.Found == nil {
		return nil
	}
	return c.With.Found.change
}

// Sentence is that of the page: what happened overall.
func (c *Comparer) Sentence() wording.Sentence { return wording.SayOverall(c.Change()) }

// lines say what went where, and how the two were laid over each other.
func (c *Comparer) lines() []string {
	found := c.With.Found
	if found == nil {
		return nil
	}
	lines := wording.SayWentWhere(found.change)
	if how := wording.SayAlignment(found.aligned); how != "" {
		lines = append(lines, wording.Stopped(how))
	}
	return lines
}
