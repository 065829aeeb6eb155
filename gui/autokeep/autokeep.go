package autokeep

import (
	"slices"
	"time"

	"app.tonedesk/gui/host"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// Keeper keeps the picture by itself. Its zero value keeps nothing. It is used on the Fyne goroutine
// only.
type Keeper struct {
	*host.Host
	Acts
	every int    // minutes between two stills, as the timer has them; 0: none runs
	stop  func() // the timer
	kept  Seen   // the picture that was kept last
	busy  bool   // one is being kept
}

// Seen is a picture as it is watched.
type Seen struct {
	Source setup.Source
	At     time.Time // when it was read; zero before the first
}

// Acts is what the keeper asks of the window.
type Acts struct {
	Settings *settings.Settings
	Now      func() (now Seen, live bool) // what is watched; live: and can be read
	Frozen   func() bool
	ByHand   func() Seen                         // the picture that the painter kept last
	Copy     func(do func(*live.Copy))           // hands a copy of the picture
	Said     func(*live.Copy) func(*stills.Meta) // puts into a still what was said of its picture
	MetaOf   func(*live.Copy) stills.Meta        // what else is known of it, but the time; on any goroutine
	Needs    func() []string                     // IDs of stills that are in use
	Renewed  func()                              // the settings were changed
}

// Renew takes over the settings, and says what it does; the same once more costs nothing.
func (k *Keeper) Renew() {
	every := k.Settings.KeepEvery
	now, _ := k.Now()
	if k.Store == nil || every == 0 {
		k.rest()
		k.Messages.Clear(host.MessageKeeps)
		return
	}
	if every != k.every {
		k.rest()
		k.every = every
		k.wait()
	}
	if !watched(now.Source) {
		k.Messages.Clear(host.MessageKeeps)
		return
	}
	k.Messages.Offer(host.MessageKeeps, wording.SayKeepsItself(every, k.Frozen()), host.MessageAct{Name: language.Say("Stop keeping"), Do: k.end})
}

// watched reports whether a source may change while it is watched.
func watched(s setup.Source) bool {
	return s.Kind == setup.SourceRegion || s.Kind == setup.SourceWindow || s.Kind == setup.SourcePicture
}

// rest stops the timer.
func (k *Keeper) rest() {
	if k.stop != nil {
		k.stop()
	}
	k.stop, k.every = nil, 0
}

// wait has the picture kept after a while, and again.
func (k *Keeper) wait() {
	k.stop = k.Later(time.Duration(k.every)*time.Minute, func() {
		k.wait()
		k.keep()
	})
}

// end switches it off; a message offers to take that back.
func (k *Keeper) end() {
	was := k.Settings.KeepEvery
	set := func(every int) {
		k.Settings.KeepEvery = every
		k.Renewed()
		k.Renew()
	}
	set(0)
	k.Messages.NoteWith(wording.SayKeepsNoMore.String(), host.MessageAct{Name: language.Say("Undo"), Do: func() { set(was) }})
}

// wanted reports whether a picture is to be kept now: one that can be read and is not frozen, and is
// another than the last that was kept, by itself or by hand.
func (k *Keeper) wanted() bool {
	now, live := k.Now()
	return k.every > 0 && live && !k.Frozen() && watched(now.Source) && !now.At.IsZero() && !now.is(k.kept) && !now.is(k.ByHand())
}

func (s Seen) is(o Seen) bool { return s.Source == o.Source && s.At.Equal(o.At) }

// keep keeps the picture of now, if it is wanted.
func (k *Keeper) keep() {
	if k.busy || !k.wanted() {
		return
	}
	k.busy = true
	k.Copy(func(c *live.Copy) {
		k.busy = false
		if now, _ := k.Now(); c.Source == now.Source && k.wanted() { // it may have been frozen meanwhile
			k.keepCopy(c)
		}
	})
}

// keepCopy writes a still, without holding up the window, and has the oldest give way.
func (k *Keeper) keepCopy(c *live.Copy) {
	k.busy = true
	seen, at := Seen{c.Source, c.At}, time.Now()
	room := stills.Room{}
	room.Automatic, room.All = k.Settings.Room()
	said, needs, tooBig := k.Said(c), k.Needs(), false
	written := k.Writing.Begin()
	k.Background(func() error {
		defer written()
		meta := k.MetaOf(c)
		meta.Time, meta.Automatic = at, true
		said(&meta)
		id, err := k.Store.Keep(c.Pixels, meta, nil)
		if err != nil {
			return err
		}
		_, err = k.Store.MakeRoom(room, func(id string) bool { return slices.Contains(needs, id) })
		tooBig = err == nil && !k.Store.Has(id)
		return err
	}, func(err error) {
		k.busy = false
		switch {
		case err != nil:
			k.Messages.Fail(wording.ExplainWriting("keep the picture by itself", err))
			return
		case tooBig:
			k.Messages.Fail(wording.SayItselfTooBig.String())
		}
		k.kept = seen
		k.Notify(host.StillsChanged)
	})
}
