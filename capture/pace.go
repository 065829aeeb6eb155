package capture

import "time"

// Rates in reads a second. A mirror at 10 follows a brush; above 60 no screen shows
// more. Both are common practice, no source.
const (
	DefaultRate = 10.0
	MinRate     = 1.0
	MaxRate     = 60.0
)

// restShare is how many times the cost of a read the automatic rate leaves between
// two beginnings, so that reading takes at most a fifth of the time. Our choice.
const restShare = 5

// pace says when to read next. Reads fall on the points of a grid of equal steps,
// so that they neither drift nor change phase; a point missed because a read or the
// reader's user was slow is made up once, at once, and the others are dropped.
type pace struct {
	every time.Duration
	auto  bool // nobody chose the rate: costly reads stretch it
	fresh bool // the next read begins a new grid
	slot  time.Time
	due   time.Time
	began time.Time
	costs [3]time.Duration // of the last reads; 0 = not known yet
	n     int
}

// set changes the rate to perSecond, held to its limits; 0, less and NaN mean the
// automatic rate. The next read comes a new step after the last.
func (p *pace) set(perSecond float64) {
	p.auto = !(perSecond > 0)
	if p.auto {
		perSecond = DefaultRate
	}
	perSecond = min(max(perSecond, MinRate), MaxRate)
	p.every = time.Duration(float64(time.Second) / perSecond)
	if !p.fresh {
		p.due = p.slot.Add(p.every)
	}
}

// restart makes the next read due at that time and begins a new grid there.
func (p *pace) restart(at time.Time) {
	p.fresh, p.due = true, at
}

// begin notes that a read begins.
func (p *pace) begin(now time.Time) {
	if p.fresh {
		p.fresh, p.slot = false, now
	} else if missed := now.Sub(p.slot) / p.every; missed > 0 {
		p.slot = p.slot.Add(missed * p.every)
	}
	p.began, p.due = now, p.slot.Add(p.every)
}

// end notes that the read that began last is over, and how long it took.
func (p *pace) end(now time.Time) {
	p.costs[p.n%len(p.costs)] = now.Sub(p.began)
	p.n++
	if !p.auto {
		return
	}
	cost := min(p.costs[0], p.costs[1], p.costs[2]) // the least: one slow read is no habit
	if late := p.began.Add(restShare * cost).Sub(p.due); late > 0 {
		steps := (late + p.every - 1) / p.every
		p.due = p.due.Add(steps * p.every)
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
