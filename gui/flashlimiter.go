package gui

import (
	"time"

	"app.tonedesk/analysis/flashes"
	"app.tonedesk/gui/comparing"
)

// lookEvery is the least time between two changes of how all of the picture looks, however
// they are driven, held keys and clicks included.
const lookEvery = flashes.Every

// flashLimiter keeps changes of how all of the picture looks apart. What the painter asks for
// in the meantime is put together and shown when it is time. That the mirror doesn't flash is
// the mirror's own concern (widgets.Mirror), and not left to this: it keeps apart also what
// changes colours alone, and the words of views. Fyne goroutine only.
type flashLimiter struct {
	every   time.Duration
	current func() look                 // how the picture looks now
	apply   func(from, to look)         // has it look otherwise
	later   func(time.Duration, func()) // runs a function after a while

	last    time.Time
	asked   look
	waiting bool // for its time: asked is not yet what is shown
}

// look is what changes all of the picture at once.
type look struct {
	view    string
	flipped bool
	how     comparing.Way
}

// requested is how the picture is to look: it may have to wait for that.
func (l *flashLimiter) requested() look {
	if l.waiting {
		return l.asked
	}
	return l.current()
}

// request has the picture look otherwise, as soon as the last change is long enough ago.
func (l *flashLimiter) request(next look) {
	l.asked = next
	if !l.waiting {
		l.waiting = true
		l.applyLook()
	}
}

// applyLook shows what was asked for, or comes back when it may.
func (l *flashLimiter) applyLook() {
	now := l.current()
	if l.asked == now {
		l.waiting = false
		return
	}
	if wait := l.wait(time.Now()); wait > 0 {
		l.later(wait, l.applyLook)
		return
	}
	l.waiting = false
	l.apply(now, l.asked)
}

// wait returns how long the next change has to wait, and takes note of it if it hasn't.
func (l *flashLimiter) wait(now time.Time) time.Duration {
	if left := l.every - now.Sub(l.last); left > 0 && !l.last.IsZero() {
		return min(left, l.every) // also if the clock was set back
	}
	l.last = now
	return 0
}
