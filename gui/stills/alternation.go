package stills

import "time"

// LeastAlternateEvery is how long each of two pictures is shown at least, however they are driven.
// WCAG 2.2, success criterion 2.3.1, allows three flashes in any one second; a flash takes two
// switches, so that three switches are half of what it allows, however the two pictures differ.
// Four are 1.2 seconds apart: drawing may come late by a fifth of one.
const LeastAlternateEvery = 400 * time.Millisecond

// Alternation decides which of two pictures is shown. However it is driven, in no second
// does it switch more than three times. A window has one, for as long as it lives: a new
// one would know nothing of what was shown a moment ago. Not for concurrent use.
type Alternation struct {
	every  time.Duration // 0: by hand only
	since  time.Time     // since when the shown picture counts as shown
	shown  int
	wanted int
	last   time.Time // when it switched last; zero: never
	latest time.Time
}

// Run has the pictures alternate by themselves, every so long but no faster than
// LeastAlternateEvery; 0 stops that.
func (a *Alternation) Run(every time.Duration, now time.Time) {
	if every > 0 {
		every = max(every, LeastAlternateEvery)
	}
	if every == a.every {
		return
	}
	now = a.clock(now)
	a.every, a.since = max(every, 0), now
}

// Ask asks for the other picture, as by a key. It is shown as soon as the limit allows;
// asked twice before that, it stays.
func (a *Alternation) Ask() { a.wanted = 1 - a.wanted }

// Shown returns which picture is shown.
func (a *Alternation) Shown() int { return a.shown }

// Due reports whether At would switch now.
func (a *Alternation) Due(now time.Time) bool {
	now = a.clock(now)
	if a.every > 0 && a.wanted == a.shown && now.Sub(a.since) >= a.every {
		a.wanted = 1 - a.shown
	}
	return a.wanted != a.shown && a.allowedIn(now) == 0
}

// At returns which picture, 0 or 1, is to be shown now, and after how long it has to be
// asked again; 0 if that is only after the next call of another method. Time that runs
// backwards counts as standing still.
func (a *Alternation) At(now time.Time) (picture int, again time.Duration) {
	if a.Due(now) {
		a.shown, a.since, a.last = a.wanted, a.latest, a.latest
	}
	now = a.latest
	switch {
	case a.wanted != a.shown:
		again = a.allowedIn(now)
	case a.every > 0:
		again = max(a.since.Add(a.every).Sub(now), time.Millisecond)
	}
	return a.shown, again
}

// allowedIn returns after how long a switch is allowed.
func (a *Alternation) allowedIn(now time.Time) time.Duration {
	return max(LeastAlternateEvery-now.Sub(a.last), 0)
}

// clock returns now, or the latest time that was seen if that is later.
func (a *Alternation) clock(now time.Time) time.Time {
	if now.After(a.latest) {
		a.latest = now
	}
	return a.latest
}
