package live

import (
	"image"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/gui/setup"
)

// focusEvery is the least time between two measurements of a picture's contrast: they are for
// reading, and the mirror goes first (our choice).
const focusEvery = 500 * time.Millisecond

// Focused is a picture's contrast, with where the picture lies in its source.
type Focused struct {
	*focus.Found
	Source setup.Source
	Bounds image.Rectangle
}

// focusing measures a picture's contrast beside the mirror, on the goroutine that searches. Its
// fields are under the search's mu, but for the finder.
type focusing struct {
	reducer *reduce.Reducer // nil before it is asked for
	taken   *reduce.Picture // waits to be measured, or is; nil for none
	began   time.Time       // the last one
	next    Focused         // what is taken is of
	options focus.Options   // by which it is measured
	finder  focus.Finder    // the searching goroutine's
}

// offerFocus takes a picture to be measured, of which nothing is kept. If it is too early, it says how
// long to wait before it is asked again. It is for the worker's goroutine only.
func (s *Search) offerFocus(p analysis.Pixels, mask *analysis.Mask, of Focused, o focus.Options) (wait time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	f, now := &s.focus, s.now()
	if wait = focusEvery - now.Sub(f.began); wait > 0 && !f.began.IsZero() {
		return wait
	}
	if f.taken != nil {
		return focusEvery / 5
	}
	if f.reducer == nil {
		f.reducer = reduce.New()
	}
	size := focus.SizeOf(of.Bounds.Size())
	f.options = o
	f.taken, f.next, f.began = f.reducer.Reduce(p, size.X, size.Y, mask), of, now
	s.focuses <- struct{}{} // there is room: what was taken before is measured
	return 0
}

// measureFocus measures what was taken and tells of it, on the goroutine that searches.
func (s *Search) measureFocus() {
	defer rescue("measuring the contrast", s.log)
	defer func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.focus.taken = nil
	}()
	s.mu.Lock()
	taken, next, options := s.focus.taken, s.focus.next, s.focus.options
	s.mu.Unlock()
	next.Found = s.focus.finder.Find(taken, options)
	if s.Focused != nil {
		s.Focused(next)
	}
}

// lookForFocus has a picture's contrast measured, if places are marked on it, and it changed since.
func (w *Worker) lookForFocus(t *task) {
	wanted := t.Families && len(t.Setup.Focus) > 0
	w.focusDue = w.focusDue || !t.same.reading || wanted != w.focusWanted ||
		t.Settings.Focus != w.last.Settings.Focus
	w.focusWanted = wanted
	if !wanted || !w.focusDue {
		return
	}
	wait := w.search.offerFocus(t.pixels, &w.mask, Focused{Source: t.Setup.Source, Bounds: t.bounds}, t.Settings.Focus)
	w.focusDue = wait > 0
	if now := w.now(); w.focusDue && now.After(w.focusAsked) {
		w.focusAsked = now.Add(wait)
		w.owner.Again(wait)
	}
}
