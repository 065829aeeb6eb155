package live

import (
	"context"
	"image"
	"runtime"
	"sync"
	"sync/atomic"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/gui/setup"
)

// familiesEvery is the least time between two searches for families: they are for reading,
// and the mirror goes first (our choice).
const familiesEvery = 500 * time.Millisecond

// Search looks for families beside the mirror, on a goroutine of its own: while it
// searches, frames go on.
type Search struct {
	Focused func(Focused) // is told of a picture's contrast, on the goroutine that searches; set before anything is offered

	found   func(Found) // told on the goroutine that searches
	log     func(error) // and so is this, of a mistake of ours
	now     func() time.Time
	wake    chan job      // a picture was taken
	asks    chan ask      // what lies around a place
	lights  chan lightAsk // what the light is
	focuses chan struct{} // a picture was taken whose contrast is to be measured
	last    job           // that was searched: the searching goroutine's
	spent   atomic.Int64  // by searches, see Spent

	mu     sync.Mutex
	finder *families.Finder // nil before families are asked for
	busy   bool             // the finder and the cells are the searching goroutine's, else the worker's
	cells  *light.Cells     // of what was taken; not changed once they are made
	began  time.Time        // the last search
	focus  focusing

	reducer *reduce.Reducer // for the cells: nil before the first
}

// job is what is known of the picture that was taken.
type job struct {
	rules  families.Rules
	light  light.Options // by which shadows agree; the zero value for as at first
	source setup.Source
	origin image.Point // of the picture in its source
	size   image.Point // of the picture
}

// Found are families, with where their picture lies in its source.
type Found struct {
	*families.Found // nil before any were looked for
	Forms           []families.Form
	Cells           *light.Cells // of their picture
	Source          setup.Source
	Origin          image.Point
	Size            image.Point // of the picture they were found in
}

// NewSearch returns a search that searches while Run or RunOnce does. Close it at the end.
func NewSearch(found func(Found), log func(error)) *Search {
	return &Search{found: found, log: log, now: time.Now, wake: make(chan job, 1), asks: make(chan ask, mostAsks), lights: make(chan lightAsk, 1), focuses: make(chan struct{}, 1)}
}

// offer has families looked for in a picture, of which nothing is kept. If it is too early,
// it says how long to wait before it is asked again. It is for the worker's goroutine only.
func (s *Search) offer(p analysis.Pixels, mask *analysis.Mask, j job) (wait time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := s.now()
	if wait = familiesEvery - now.Sub(s.began); wait > 0 && !s.began.IsZero() {
		return wait
	}
	if s.busy {
		return familiesEvery / 5
	}
	if s.finder == nil {
		s.finder = families.NewFinder()
	}
	s.finder.Take(p, mask)
	s.takeCells(p, mask)
	s.busy, s.began = true, now
	s.wake <- j // there is room: the search before is over
	return 0
}

// Run searches until ctx ends.
func (s *Search) Run(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case j := <-s.wake:
			s.search(j)
		case a := <-s.asks:
			s.answer(a)
		case a := <-s.lights:
			s.readLight(a)
		case <-s.focuses:
			s.measureFocus()
		}
	}
}

// RunOnce searches in what was offered, or else answers what was asked, and reports whether
// there was either. Run must not be under way.
func (s *Search) RunOnce() bool {
	select {
	case j := <-s.wake:
		s.search(j)
		return true
	default:
	}
	select {
	case a := <-s.asks:
		s.answer(a)
		return true
	case a := <-s.lights:
		s.readLight(a)
		return true
	case <-s.focuses:
		s.measureFocus()
		return true
	default:
		return false
	}
}

// Close lets go of what searching needs. No frame and no search may be under way.
func (s *Search) Close() {
	if s.finder != nil {
		s.finder.Close()
	}
	if s.reducer != nil {
		s.reducer.Close()
	}
	if s.focus.reducer != nil {
		s.focus.reducer.Close()
	}
}

// Spent returns the processor time that searches have taken so far, at most: as if each had had all
// cores. Any goroutine may ask.
func (s *Search) Spent() time.Duration { return time.Duration(s.spent.Load()) }

// search finds the families in what was taken and tells of them.
func (s *Search) search(j job) {
	defer func(began time.Time) {
		s.spent.Add(int64(time.Since(began)) * int64(runtime.GOMAXPROCS(0)))
	}(time.Now())
	defer s.release()
	defer rescue("looking for families", s.log)
	s.last = j
	found := s.finder.Find(j.rules)
	s.found(Found{Found: found, Forms: s.finder.Forms(), Cells: s.cells, Source: j.source, Origin: j.origin, Size: j.size})
}

// lookForFamilies has families looked for, if they are wanted and the picture changed since.
func (w *Worker) lookForFamilies(t *task) {
	rules := t.Settings.Rules
	w.due = w.due || !t.same.reading || t.Families != w.last.Families || rules != w.last.Settings.Rules || t.Settings.Light != w.last.Settings.Light
	if !t.Families || !w.due {
		return
	}
	wait := w.search.offer(t.pixels, &w.mask, job{rules, t.Settings.Light, t.Setup.Source, t.bounds.Min, t.bounds.Size()})
	w.due = wait > 0
	if now := w.now(); w.due && now.After(w.asked) {
		w.asked = now.Add(wait)
		w.owner.Again(wait)
	}
}
