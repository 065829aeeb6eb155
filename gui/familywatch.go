package gui

import (
	"context"
	"fmt"
	"image"
	"runtime/debug"
	"sync"
	"time"

	"fyne.io/fyne/v2"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
)

// familiesEvery is the least time between two searches for families: they are for reading,
// and the mirror goes first.
const familiesEvery = 500 * time.Millisecond

// familyWatch looks for families beside the mirror, on a goroutine of its own: while it
// searches, frames go on. offer is called on the worker's goroutine only.
type familyWatch struct {
	finder *families.Finder
	found  func(foundFamilies) // told on the goroutine that searches
	now    func() time.Time

	wake  chan familySearch // a picture was taken
	mu    sync.Mutex
	busy  bool
	began time.Time // the last search
}

// familySearch is what is known of the picture that was taken.
type familySearch struct {
	rules  families.Rules
	source source
	origin image.Point // of the picture in its source
	size   image.Point // of the picture
}

// foundFamilies are families, with where their picture lies in its source.
type foundFamilies struct {
	*families.Found // nil before any were looked for
	source          source
	origin          image.Point
	size            image.Point // of the picture they were found in
	order           []int       // in which they are listed, as indices
}

func newFamilyWatch(found func(foundFamilies)) *familyWatch {
	return &familyWatch{found: found, now: time.Now, wake: make(chan familySearch, 1)}
}

// offer has families looked for in a picture, of which nothing is kept. If it is too early,
// it says how long to wait before it is asked again.
func (f *familyWatch) offer(p analysis.Pixels, out *analysis.Mask, s familySearch) (wait time.Duration) {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.now()
	if wait = familiesEvery - now.Sub(f.began); wait > 0 && !f.began.IsZero() {
		return wait
	}
	if f.busy {
		return familiesEvery / 5
	}
	if f.finder == nil {
		f.finder = families.NewFinder() // not before families are asked for
	}
	f.finder.Take(p, out)
	f.busy, f.began = true, now
	f.wake <- s // there is room: the search before is over
	return 0
}

// run searches until ctx ends.
func (f *familyWatch) run(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case s := <-f.wake:
			f.search(s)
		}
	}
}

// close lets go of what searching needs. Neither offer nor run may be under way.
func (f *familyWatch) close() {
	if f.finder != nil {
		f.finder.Close()
	}
}

// search finds the families in what was taken and tells of them.
func (f *familyWatch) search(s familySearch) {
	defer func() {
		if r := recover(); r != nil { // a mistake of ours must not end the painter's session
			fyne.LogError(fmt.Sprintf("looking for families: %v\n%s", r, debug.Stack()), nil)
		}
		f.mu.Lock()
		defer f.mu.Unlock()
		f.busy = false
	}()
	f.found(foundFamilies{Found: f.finder.Find(s.rules), source: s.source, origin: s.origin, size: s.size})
}
