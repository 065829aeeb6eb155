package pointer

import (
	"context"
	"image"
	"slices"
	"sync/atomic"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Acts are what the reader asks of the window.
type Acts struct {
	Use     func(func(capture.Backend) error) error          // the way to the screen
	SpaceAt func(context.Context, image.Point) *colour.Space // the colours of the display at a place; nil for sRGB
	A       func() *analysis.Spot                            // spot A; nil where it isn't read
	Watched func() image.Rectangle                           // the region that is watched; none where it is no region
	Spots   func() []image.Rectangle                         // what is measured in it: the chip keeps off where it can
	Hides   func(renew bool)                                 // Covers is another now; renew: what is shown is to be read anew for it
	Off     func()                                           // reading can't be done: it is to be switched off
}

// Reader reads under the pointer: over the mirror what that shows of its source, elsewhere what is on
// the screen. It is used on the Fyne goroutine.
type Reader struct {
	*host.Host
	Acts
	Strip *widgets.Strip

	Over   image.Point       // pixel of the source under the pointer, or the key cursor
	Inside bool              // it is over the mirror
	Covers []image.Rectangle // where the chip hides a part of what is watched; never written to

	settings settings.Settings
	running  context.Context // for as long as the window watches; nil before
	stop     func()          // ends the goroutine; nil: there is none
	seen     look            // what was read; none without its picture
	drawn    look            // of it, what the loupe shows
	under    analysis.Spot   // its reading
	from     *analysis.Spot  // spot A as it was then
	box      image.Rectangle // where the chip belongs
	written  time.Time       // when the window was last drawn for it
	newest   time.Time       // when the picture that is shown was read
	unwait   func()          // ends the wait for it to rest; nil: there is none
	asides   int             // so many need the picture without the chip
	waits    []func()        // what they do once it is away

	lain  lain
	own   atomic.Pointer[image.Rectangle] // our own window, desktop pixels
	away  atomic.Bool                     // the pointer is over the mirror: nothing is to be read
	stale atomic.Bool                     // what is shown is to be worked out anew
	looks atomic.Int64                    // so many so far
}

// Begin lets it read for as long as ctx lasts.
func (r *Reader) Begin(ctx context.Context) {
	r.running = ctx
	r.Set(r.settings)
}

// Set takes settings over: it begins to read, or ends.
func (r *Reader) Set(s settings.Settings) {
	r.settings = s
	r.stale.Store(true)
	switch {
	case s.UnderPointer && r.stop == nil && r.running != nil:
		var ctx context.Context
		ctx, r.stop = context.WithCancel(r.running)
		go r.Guarded("read under the pointer", func() { r.run(ctx) })
	case !s.UnderPointer && r.stop != nil:
		r.stop()
		r.stop = nil
		r.forget()
	}
}

// Look says where over the mirror the pointer is, or the key cursor, or that it is not.
func (r *Reader) Look(at image.Point, inside bool) {
	r.Over, r.Inside = at, inside
	r.away.Store(inside)
	r.stale.Store(true)
	if inside {
		r.forget()
	}
}

// Own says where our own window is, nowhere if it is hidden.
func (r *Reader) Own(box image.Rectangle) { r.own.Store(&box) }

// outside reports whether what was read lies outside of our own window.
func (r *Reader) outside() bool { own := r.own.Load(); return own == nil || !r.seen.at.In(*own) }

// Shown says that a picture read at a time is shown: what the chip had left before is counted again.
func (r *Reader) Shown(at time.Time) {
	r.newest = at
	r.lain.shown(at)
	r.hide(true)
}

// ShowUnder shows what lies under the pointer in the mirror, nil for nothing, unless it is elsewhere;
// melts is what is said of a lost edge there, "" for none. Spot A may be another now.
func (r *Reader) ShowUnder(under *analysis.Spot, melts [3]string) {
	a := r.A()
	if r.seen.img == nil {
		words := r.words(under, a)
		words.Melts = melts
		r.Strip.SetReading(words)
	} else if !sameValue(a, r.from) {
		r.measureFrom(a)
		r.write()
		r.stale.Store(true) // for the chip
	}
}

// Colour is the colour that is read outside of our window, if there is one.
func (r *Reader) Colour() (c colour.RGB, ok bool) {
	return r.under.Colour, r.seen.img != nil && r.outside()
}

// forget shows nothing of the screen any more.
func (r *Reader) forget() {
	if r.seen.img != nil {
		r.seen, r.drawn, r.box, r.written = look{}, look{}, image.Rectangle{}, time.Time{}
		r.Host.Mirror.SetNear(nil)
		r.Strip.SetReading(widgets.StripReading{})
	}
}

// show shows what was seen, and returns what the chip is to look like and where it is to lie; it is
// noted to lie there.
func (r *Reader) show(l look, screens []image.Rectangle) (f face, box image.Rectangle) {
	if r.away.Load() || !r.settings.UnderPointer {
		return f, box
	}
	if r.Inside { // the toolkit does not tell that the pointer has left
		r.Host.Mirror.MouseOut()
	}
	rests := l.at == r.seen.at && l.at != r.drawn.at
	if l.img != nil {
		if under, err := l.spot(r.settings.SpotSize); err == nil {
			r.seen, r.under = l, under
		}
	}
	if r.seen.img == nil {
		return f, box
	}
	r.seen.at = l.at
	r.measureFrom(r.A())
	r.draw(rests)
	defer func() {
		r.box = box
		r.Changed()
	}()
	if !r.settings.PointerChip || !r.outside() {
		return f, box
	}
	f = r.face()
	box = r.chipAt(l, f, screens)
	r.lain.comes(box)
	r.hide(false) // the chip's coming is a change that is read anyway
	return f, box
}

// How long the window waits at least between two drawings for the reading: the toolkit draws all of it, which takes
// most of what a reading costs. Where the pointer comes to rest it is drawn at once, and with the chip the
// painter looks there. Our choice, by the figures in DEVELOPERS.md.
const (
	drawEvery     = 500 * time.Millisecond
	drawEveryChip = time.Second
)

// draw shows the reading in the window: at once or, where it was drawn only just, with a later look.
func (r *Reader) draw(once bool) {
	pause := drawEvery
	if r.settings.PointerChip && !r.box.Empty() {
		pause = drawEveryChip
	}
	now := time.Now()
	if !once && now.Sub(r.written) < pause {
		r.stale.Store(true)
		return
	}
	r.written = now
	if !r.seen.same(r.drawn) {
		r.drawn = r.seen
		r.Host.Mirror.SetNear(r.seen.loupe())
	}
	r.write()
}

// Told is what is read under the pointer, for tests that look from outside.
type Told struct {
	widgets.StripReading
	Near  bool            // the square around the pointer is shown enlarged
	Chip  image.Rectangle // where the chip is to lie; empty for nowhere
	Looks int64           // how often the screen was read so far
}

// Told tells it.
func (r *Reader) Told() Told {
	return Told{StripReading: r.Strip.Reading(), Near: r.seen.img != nil, Chip: r.box, Looks: r.looks.Load()}
}

// measureFrom has tones counted from a spot; from none where it is nil.
func (r *Reader) measureFrom(a *analysis.Spot) {
	r.from = nil
	if a != nil {
		r.from = new(*a)
	}
}

// write puts the reading into the strip.
func (r *Reader) write() {
	words := r.words(&r.under, r.from)
	words.Far = r.outside()
	r.Strip.SetReading(words)
}

func (r *Reader) words(under, a *analysis.Spot) (w widgets.StripReading) {
	if under == nil {
		return w
	}
	w = widgets.StripReading{
		Colour: under.Colour, Grey: colour.GreyOf(under.Lightness),
		Lightness: wording.Tenth(under.Lightness), Value: wording.ValueSay(under.Value, r.settings.FromWhite),
	}
	if a != nil {
		w.FromA = wording.SayFromA(*under, *a, r.settings.FromWhite)
	}
	return w
}

// face is what the chip looks like now.
func (r *Reader) face() face {
	return face{
		words:  wording.SayAtPointer(r.under, r.from, r.settings.FromWhite),
		widest: wording.WidestAtPointer(r.from != nil),
		colour: r.under.Colour, grey: colour.GreyOf(r.under.Lightness),
		text: float64(widgets.TextSize() * r.Host.Mirror.Scale()),
	}
}

// hide works out anew what the chip hides of what is watched.
func (r *Reader) hide(renew bool) {
	covers := r.lain.over(r.Watched())
	if !slices.Equal(covers, r.Covers) {
		r.Covers = covers
		r.Hides(renew && len(covers) < 2) // while it goes on there is news anyway
	}
	if len(covers) == 0 {
		r.parted()
	}
	if r.unwait != nil {
		r.unwait()
		r.unwait = nil
	}
	if r.lain.leaving() {
		rest := restAfter(r.settings.PerSecond)
		r.unwait = r.Later(rest, func() {
			r.lain.rested(r.newest, time.Now().Add(-rest))
			r.hide(true)
		})
	}
}

func sameValue(a, b *analysis.Spot) bool {
	return (a == nil) == (b == nil) && (a == nil || a.Value == b.Value)
}
