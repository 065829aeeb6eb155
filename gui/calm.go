package gui

import "time"

// calmEvery is the least time between two changes of how all of the picture looks, however
// they are driven, held keys and clicks included. WCAG 2.2, success criterion 2.3.1, allows
// three flashes, which are six changes, in any one second; these are three, also where
// drawing comes late by a fifth of a second.
const calmEvery = 400 * time.Millisecond

// calm keeps changes of how all of the picture looks apart. What the painter asks for in
// the meantime is put together and shown when it is time. Fyne goroutine only.
type calm struct {
	every   time.Duration
	last    time.Time
	wish    look
	waiting bool // for its time: wish is not yet what is shown
}

// Look is what changes all of the picture at once.
type look struct {
	view     string
	mirrored bool
	how      comparing
}

// seen is how the picture looks now.
func (d *Desk) seen() look { return look{d.settings.View, d.settings.Mirrored, d.comparison.how} }

// wished is how it is to look: it may have to wait for that.
func (d *Desk) wished() look {
	if d.calm.waiting {
		return d.calm.wish
	}
	return d.seen()
}

// wait returns how long the next change has to wait, and takes note of it if it hasn't.
func (c *calm) wait(now time.Time) time.Duration {
	if left := c.every - now.Sub(c.last); left > 0 && !c.last.IsZero() {
		return min(left, c.every) // also if the clock was set back
	}
	c.last = now
	return 0
}

// wishFor has the picture look otherwise, as soon as the last change is long enough ago.
func (d *Desk) wishFor(wish look) {
	d.calm.wish = wish
	if !d.calm.waiting {
		d.calm.waiting = true
		d.fulfil()
	}
}

// fulfil shows what is wished for, or comes back when it may.
func (d *Desk) fulfil() {
	now, wish := d.seen(), d.calm.wish
	if wish == now {
		d.calm.waiting = false
		return
	}
	if wait := d.calm.wait(time.Now()); wait > 0 {
		d.later(wait, d.fulfil)
		return
	}
	d.calm.waiting = false
	if wish.view != now.view || wish.mirrored != now.mirrored {
		d.settings.View, d.settings.Mirrored = wish.view, wish.mirrored
		d.settled()
	}
	if wish.how != now.how {
		d.comparison.as(wish.how)
	}
}
