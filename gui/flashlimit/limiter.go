package flashlimit

import (
	"time"

	"app.tonedesk/analysis/flashes"
)

// Every is the least time between two changes of how all of the picture looks, however
// they are driven, held keys and clicks included.
const Every = flashes.Every

// Limiter keeps changes of how all of the picture looks apart. What the painter asks for
// in the meantime is put together and shown when it is time. That the mirror doesn't flash is
// the mirror's own concern (widgets.Mirror), and not left to this: it keeps apart also what
// changes colours alone, and the words of views. Fyne goroutine only.
type Limiter[Look comparable] struct {
	Every   time.Duration               // at least between two changes
	Current func() Look                 // how the picture looks now
	Apply   func(from, to Look)         // has it look otherwise
	Later   func(time.Duration, func()) // runs a function after a while

	last    time.Time
	asked   Look
	waiting bool // for its time: asked is not yet what is shown
}

// Requested is how the picture is to look: it may have to wait for that.
func (l *Limiter[Look]) Requested() Look {
	if l.waiting {
		return l.asked
	}
	return l.Current()
}

// Request has the picture look otherwise, as soon as the last change is long enough ago.
func (l *Limiter[Look]) Request(next Look) {
	l.asked = next
	if !l.waiting {
		l.waiting = true
		l.look()
	}
}

// look shows what was asked for, or comes back when it may.
func (l *Limiter[Look]) look() {
	now := l.Current()
	if l.asked == now {
		l.waiting = false
		return
	}
	if wait := l.Wait(time.Now()); wait > 0 {
		l.Later(wait, l.look)
		return
	}
	l.waiting = false
	l.Apply(now, l.asked)
}

// Wait returns how long the next change has to wait, and takes note of it if it hasn't.
func (l *Limiter[Look]) Wait(now time.Time) time.Duration {
	if left := l.Every - now.Sub(l.last); left > 0 && !l.last.IsZero() {
		return min(left, l.Every) // also if the clock was set back
	}
	l.last = now
	return 0
}
