package live

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
	"app.tonedesk/gui/setup"
)

// familiesEvery is the least time between two searches for families: they are for reading,
// and the mirror goes first.
const familiesEvery = 500 * time.Millisecond

// Search looks for families beside the mirror, on a goroutine of its own: while it
// searches, frames go on. offer is called on the worker's goroutine only.
type Search struct {
	finder *families.Finder
	found  func(Found) // told on the goroutine that searches
	Now    func() time.Time

	Wake  chan Job // a picture was taken
	mu    sync.Mutex
	busy  bool
	began time.Time // the last search
}

// Job is what is known of the picture that was taken.
type Job struct {
	rules  families.Rules
	source setup.Source
	origin image.Point // of the picture in its source
	size   image.Point // of the picture
}

// Found are families, with where their picture lies in its source.
type Found struct {
	*families.Found // nil before any were looked for
	Source          setup.Source
	Origin          image.Point
	Size            image.Point // of the picture they were found in
	Order           []int       // in which they are listed, as indices
}

func NewSearch(found func(Found)) *Search {
	return &Search{found: found, Now: time.Now, Wake: make(chan Job, 1)}
}

// Offer has families looked for in a picture, of which nothing is kept. If it is too early,
// it says how long to wait before it is asked again.
func (f *Search) Offer(p analysis.Pixels, out *analysis.Mask, s Job) (wait time.Duration) {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.Now()
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
	f.Wake <- s // there is room: the search before is over
	return 0
}

// Run searches until ctx ends.
func (f *Search) Run(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case s := <-f.Wake:
			f.Search(s)
		}
	}
}

// Close lets go of what searching needs. Neither offer nor run may be under way.
func (f *Search) Close() {
	if f.finder != nil {
		f.finder.Close()
	}
}

// Search finds the families in what was taken and tells of them.
func (f *Search) Search(s Job) {
	defer func() {
		if r := recover(); r != nil { // a mistake of ours must not end the painter's session
			fyne.LogError(fmt.Sprintf("looking for families: %v\n%s", r, debug.Stack()), nil)
		}
		f.mu.Lock()
		defer f.mu.Unlock()
		f.busy = false
	}()
	f.found(Found{Found: f.finder.Find(s.rules), Source: s.source, Origin: s.origin, Size: s.size})
}
