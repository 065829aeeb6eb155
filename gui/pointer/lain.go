package pointer

import (
	"image"
	"slices"
	"sync"
	"time"

	"app.tonedesk/capture"
)

// repaintTime is how long who paints below the chip may take to paint again what it covered, until a
// picture of the screen counts as one without it. Our choice.
const repaintTime = 150 * time.Millisecond

// restAfter is how long after the chip has left a place what is newest counts as without it, where so
// many pictures a second are read: time to paint, and two more pictures. The automatic rate, 0, may
// come down to the slowest.
func restAfter(perSecond float64) time.Duration {
	if !(perSecond >= capture.MinRate) {
		perSecond = capture.MinRate
	}
	return repaintTime + time.Duration(2*float64(time.Second)/perSecond)
}

// lain is where the chip lies, and where it lay. Any goroutine may call it; the zero lain is ready.
type lain struct {
	mu     sync.Mutex
	places []place
}

type place struct {
	box  image.Rectangle
	left time.Time // zero while it lies there
}

// comes notes where the chip is about to lie; an empty box is nowhere.
func (l *lain) comes(box image.Rectangle) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i := range l.places {
		if l.places[i].box == box {
			l.places[i].left = time.Time{}
			return
		}
	}
	if !box.Empty() {
		l.places = append(l.places, place{box: box})
	}
}

// went notes that it has left all places but one by now.
func (l *lain) went(but image.Rectangle, now time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for i := range l.places {
		if p := &l.places[i]; p.box != but && p.left.IsZero() {
			p.left = now
		}
	}
}

// shown forgets the places that a picture read at a time is without.
func (l *lain) shown(at time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.places = slices.DeleteFunc(l.places, func(p place) bool {
		return !p.left.IsZero() && at.After(p.left.Add(repaintTime))
	})
}

// rested forgets the places that were left before some moment, where the picture that is still the
// newest was read after that: had who paints there been slower, there would be a newer one.
func (l *lain) rested(newest, before time.Time) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.places = slices.DeleteFunc(l.places, func(p place) bool {
		return !p.left.IsZero() && newest.After(p.left) && p.left.Before(before)
	})
}

// leaving reports whether there are places that it has left.
func (l *lain) leaving() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return slices.ContainsFunc(l.places, func(p place) bool { return !p.left.IsZero() })
}

// over returns the places that lie over a part of the screen, in a new slice; nil for none. Those that
// were left elsewhere are forgotten.
func (l *lain) over(part image.Rectangle) (boxes []image.Rectangle) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.places = slices.DeleteFunc(l.places, func(p place) bool { return !p.left.IsZero() && !p.box.Overlaps(part) })
	for _, p := range l.places {
		if p.box.Overlaps(part) {
			boxes = append(boxes, p.box)
		}
	}
	return boxes
}
