package flashes

import "time"

// What counts as a change, and how much of a picture has to change (WCAG22).
const (
	leastStep  = 0.10
	darkerThan = 0.80
	part       = 4 // a quarter
)

// Every is the least time between two opposing changes of the same place. So there are at
// most three in any one second, half of what is allowed, also where drawing comes late by a
// fifth of a second.
const Every = 400 * time.Millisecond

// mostMoves is how many opposing changes there may be in three times Every before a part of the
// window has to wait until it moves. With two pictures after them these are the six that are
// allowed in a second.
const mostMoves = 4

// Meter follows what is shown, one Levels after the other. It is ready to use; times must not
// run backwards.
type Meter struct {
	Every time.Duration // a quarter changes back after so long at the earliest; 0: no limit
	begun time.Time     // long before the first
	cells [Cells]cell
}

// cell is what a cell of the grid has gone through.
type cell struct {
	low, high float32                  // since its last change
	way       int8                     // of that: 1 lighter, -1 darker, 0 none yet
	changed   [mostMoves]time.Duration // when, the last one first
	early     time.Duration            // when it last changed back too soon
}

// turn is the way of the change against the one before that y would be; 0 if it would be none.
func (c *cell) turn(y float32) int8 {
	switch {
	case c.way <= 0 && y-c.low >= leastStep && c.low < darkerThan:
		return 1
	case c.way >= 0 && c.high-y >= leastStep && y < darkerThan:
		return -1
	}
	return 0
}

// Wait returns how long a picture with these levels has to wait until it may be shown; at most
// Every after what was shown last.
func (m *Meter) Wait(l *Levels, now time.Time) time.Duration { return m.wait(l, now, 1, m.Every) }

// WaitToMove is Wait for a part of the window that moves: only one that moves to and fro for
// some time waits, since what moves late moves away from under the pointer.
func (m *Meter) WaitToMove(l *Levels, now time.Time) time.Duration {
	return m.wait(l, now, mostMoves, 3*m.Every)
}

// wait returns how long levels have to wait until a quarter has not changed so many times
// within a span.
func (m *Meter) wait(l *Levels, now time.Time, most int, span time.Duration) (wait time.Duration) {
	if m.begun.IsZero() {
		return 0
	}
	at, early := now.Sub(m.begun), 0
	for i := range m.cells {
		c := &m.cells[i]
		if left := span - (at - c.changed[most-1]); left > 0 && c.turn(l.Y[i]) != 0 {
			wait = max(wait, left)
			early++
		} else if at-c.early < time.Second {
			early++ // so that no quarter takes turns with another one
		}
	}
	if part*early < l.Covered {
		return 0
	}
	return wait
}

// Show takes note that levels are shown from now on.
func (m *Meter) Show(l *Levels, now time.Time) {
	first := m.begun.IsZero()
	if first {
		m.begun = now.Add(-365 * 24 * time.Hour)
	}
	at := now.Sub(m.begun)
	for i := range m.cells {
		c, y := &m.cells[i], l.Y[i]
		if first {
			c.low, c.high = y, y
		}
		if way := c.turn(y); way != 0 {
			if at-c.changed[0] < m.Every {
				c.early = at
			}
			c.way, c.low, c.high = way, y, y
			copy(c.changed[1:], c.changed[:])
			c.changed[0] = at
		}
		c.low, c.high = min(c.low, y), max(c.high, y)
	}
}

// Flashes reports whether a quarter of what covered so many cells changed to and fro three
// times or more within the last second.
func (m *Meter) Flashes(covered int, now time.Time) bool {
	if m.begun.IsZero() {
		return false
	}
	n := 0
	for i := range m.cells {
		if now.Sub(m.begun)-m.cells[i].changed[2] < time.Second {
			n++
		}
	}
	return part*n >= max(covered, 1)
}
