package structure

import (
	"image"
	"math"
	"slices"

	"app.tonedesk/analysis/focus"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// Focuses owns where the painter wants the eye to go, and what is known of the contrast there and
// elsewhere. The places themselves are part of the setup, so that undo knows them. It is used on the
// Fyne goroutine only.
type Focuses struct {
	*host.Host
	colours *LocalColours
	found   live.Focused  // nil Found before it was measured
	places  []setup.Place // that were told
	open    bool          // rings are drawn in the mirror
	drawn   drawnRings    // what is drawn
	reveal  func()        // scrolls to the card
	awaited bool          // the card is to be seen once it has the answer
}

// drawnRings is all that the rings depend on.
type drawnRings struct {
	found  *focus.Found
	lay    overlay.Lay
	bounds image.Rectangle
	places []setup.Place
}

// Ask takes the next click for a place where the eye should go.
func (f *Focuses) Ask() { f.colours.Ask(FocusPlace) }

// clicked marks a place, or takes one away in whose ring the click lies.
func (f *Focuses) clicked(p setup.Place) {
	now := f.Steps.Now()
	f.colours.Ask(NoSide)
	reach := f.radius()
	if i := slices.IndexFunc(now.Focus, func(o setup.Place) bool {
		d := o.At.Sub(p.At)
		return math.Hypot(float64(d.X), float64(d.Y)) <= reach
	}); i >= 0 {
		f.Steps.Change(now.WithoutFocus(i), "")
		return
	}
	if len(now.Focus) == setup.MaxFocus {
		f.Messages.Note(wording.SayFocusFull(setup.MaxFocus))
		return
	}
	f.awaited = f.found.Found == nil
	f.Steps.Change(now.WithFocus(setup.Place{At: p.At}), "")
	f.reveal()
}

// Clear takes all places away.
func (f *Focuses) Clear() {
	next := f.Steps.Now()
	next.Focus = nil
	f.Steps.Change(next, "")
}

// radius is that of a place, in pixels of the picture.
func (f *Focuses) radius() float64 {
	size := f.Mirror.Bounds().Size()
	if f.found.Found != nil {
		size = f.found.Bounds.Size()
		return f.found.Radius() * float64(max(size.X, size.Y))
	}
	return focus.DefaultOptions().Radius * float64(max(size.X, size.Y))
}

// take takes what was measured, if it is still watched.
func (f *Focuses) take(found live.Focused) {
	if found.Source != f.Steps.Now().Source {
		return
	}
	f.found = found
	f.Show()
	f.Notify(host.FocusMeasured)
	if f.awaited {
		f.awaited = false
		f.reveal()
	}
}

// forget forgets what was measured, since something else is watched.
func (f *Focuses) forget() {
	f.found = live.Focused{}
	f.Show()
}

// renew takes over where the eye should go now, and keeps it in the still that is open.
func (f *Focuses) renew() {
	now := f.Steps.Now().Focus
	if slices.Equal(now, f.places) {
		return
	}
	f.places = now
	f.colours.KeepFocus(now)
	f.Show()
	f.Notify(host.FocusMeasured)
}

// Adopt takes over what a still that was opened says of it, which is kept already.
func (f *Focuses) Adopt() { f.places = f.Steps.Now().Focus }

// Opened says whether the page that tells of it is open.
func (f *Focuses) Opened(open bool) {
	f.open = open
	f.Show()
}

// answer says how the places stand to the strongest contrast; ok is false while it isn't known.
func (f *Focuses) answer() (a focus.Answer, ok bool) {
	if f.found.Found == nil {
		return a, false
	}
	var marks []focus.Mark
	for _, p := range f.Steps.Now().Focus {
		marks = append(marks, focus.MarkOf(p.At.Sub(f.found.Bounds.Min), f.found.Bounds.Size()))
	}
	return f.found.Of(marks), true
}

// Text is what the card says; empty where nothing is marked. in has the names of groups.
func (f *Focuses) Text(in wording.NamesIn) wording.FocusCardText {
	now := f.Steps.Now().Focus
	if len(now) == 0 {
		return wording.FocusCardText{}
	}
	a, _ := f.answer()
	groups := in.Groups
	in = f.colours.namesIn(f.found.Source)
	in.Groups = groups
	in.Flipped = f.Lay().Flipped
	return wording.SayFocusCard(f.found.Found, a, in, slices.ContainsFunc(now, func(p setup.Place) bool { return p.Moved }))
}

// Show draws the rings anew, if they or the mirror have changed.
func (f *Focuses) Show() {
	next := drawnRings{f.found.Found, f.Lay(), f.Mirror.Bounds(), f.Steps.Now().Focus}
	if !f.open || len(next.places) == 0 || next.bounds.Empty() {
		f.drawn = drawnRings{}
		f.Mirror.SetOverlay(widgets.OverlayFocus, nil)
		return
	}
	if d := f.drawn; next.found == d.found && next.lay == d.lay && next.bounds == d.bounds && slices.Equal(next.places, d.places) {
		return
	}
	f.drawn = next
	f.Mirror.SetOverlay(widgets.OverlayFocus, overlay.Rings(f.rings(next), next.bounds, next.lay))
}

// rings are those round the marked places, and the one round the strongest contrast.
func (f *Focuses) rings(of drawnRings) (rings []overlay.Ring) {
	size := of.bounds.Size()
	radius := f.radius() / float64(max(size.X, size.Y))
	for _, p := range of.places {
		m := focus.MarkOf(p.At.Sub(of.bounds.Min), size)
		rings = append(rings, overlay.Ring{X: m.X, Y: m.Y, Radius: radius, Wanted: true})
	}
	a, ok := f.answer()
	if !ok || len(f.found.Places) == 0 || f.found.Bounds != of.bounds {
		return rings
	}
	best := f.found.Places[0]
	if a.There {
		best = a.Marks[a.Strongest].Place
	}
	return append(rings, overlay.Ring{X: best.X, Y: best.Y, Radius: 0.7 * radius})
}
