package capture

import "time"

// Rates in reads a second. A mirror at 10 follows a brush; above 60 no screen shows
// more. Both are common practice, no source.
const (
	DefaultRate = 10.0
	MinRate     = 1.0
	MaxRate     = 60.0
)

// The automatic rate leaves the program at most a share of one core: reading, what is done with
// what was read, and drawing it take a fifth of the time (restShare), but for a start: what was not used before is
// saved up to savedTime, so that one slow frame among quick ones delays nothing. Our choices.
const (
	restShare = 5
	savedTime = 100 * time.Millisecond
)

// pace says when to read next. Reads fall on the points of a grid of equal steps,
// so that they neither drift nor change phase; a point missed because a read or the
// reader's user was slow is made up once, at once, and the others are dropped.
type pace struct {
	every time.Duration
	auto  bool // nobody chose the rate: costly frames stretch it
	told  bool // the source tells of changes: the automatic rate is as high as a screen shows
	fresh bool // the next read begins a new grid
	slot  time.Time
	due   time.Time
	owed  time.Duration // rest that is to make up for what was spent; below 0: saved
	since time.Time     // when that was so
}

// set changes the rate to perSecond, held to its limits; 0, less and NaN mean the
// automatic rate. The next read comes a new step after the last.
func (p *pace) set(perSecond float64) {
	p.auto = !(perSecond > 0)
	switch {
	case p.auto && p.told:
		perSecond = MaxRate
	case p.auto:
		perSecond = DefaultRate
	}
	perSecond = min(max(perSecond, MinRate), MaxRate)
	p.every = time.Duration(float64(time.Second) / perSecond)
	if !p.fresh {
		p.due = p.slot.Add(p.every)
		p.rest()
	}
}

// restart makes the next read due at that time, or when it can be afforded, and begins a new grid
// there.
func (p *pace) restart(at time.Time) {
	p.fresh, p.due = true, at
	if free := p.since.Add(p.owed); p.auto && free.After(p.due) {
		p.due = free
	}
}

// begin notes that a read begins.
func (p *pace) begin(now time.Time) {
	if p.fresh {
		p.fresh, p.slot = false, now
	} else if missed := now.Sub(p.slot) / p.every; missed > 0 {
		p.slot = p.slot.Add(missed * p.every)
	}
	p.due = p.slot.Add(p.every)
}

// spend notes that by now so much time of one core was spent, and has it made up for.
func (p *pace) spend(now time.Time, cost time.Duration) {
	p.owed = max(p.owed-max(0, now.Sub(p.since)), -restShare*savedTime)
	if p.since.IsZero() {
		p.owed = -restShare * savedTime
	}
	p.owed, p.since = p.owed+restShare*cost, now
	if p.fresh {
		p.restart(p.due)
	} else {
		p.rest()
	}
}

// rest puts the next read off to the first point of the grid that can be afforded.
func (p *pace) rest() {
	if late := p.since.Add(p.owed).Sub(p.due); p.auto && late > 0 {
		p.due = p.due.Add((late + p.every - 1) / p.every * p.every)
	}
}

// Waits after errors: they double from the first to the last.
const (
	firstWait = 250 * time.Millisecond
	lastWait  = 2 * time.Second
)

// backoff is how long to wait after the next error; 0 after none.
type backoff time.Duration

// next returns the wait after one more error.
func (b *backoff) next() time.Duration {
	*b = min(max(2**b, backoff(firstWait)), backoff(lastWait))
	return time.Duration(*b)
}
