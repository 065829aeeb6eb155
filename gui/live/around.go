package live

import (
	"image"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/setup"
)

// mostAsks is how many questions may wait; a click more is none.
const mostAsks = 8

// Around is what lies around a place, in pixels of the source.
type Around struct {
	At        image.Point
	Lightness float64        // there, L*
	Sides     families.Sides // that are proposed
	Err       error          // why none are: families.ErrUnsearched, and no lightness is known, or ErrNoSides
}

// ask is a question about a place.
type ask struct {
	at     image.Point
	source setup.Source
	tell   func(Around)
}

// Ask asks what lies around a place of a source, in the picture that was searched last. tell
// is called on the goroutine that searches.
func (s *Search) Ask(at image.Point, source setup.Source, tell func(Around)) {
	select {
	case s.asks <- ask{at, source, tell}:
	default:
	}
}

// answer answers a question, on the goroutine that searches.
func (s *Search) answer(a ask) {
	defer rescue("looking around a place", s.log)
	a.tell(s.around(a))
}

// around looks around a place, while the finder is ours.
func (s *Search) around(a ask) (r Around) {
	r = Around{At: a.at, Err: families.ErrUnsearched}
	s.take()
	defer s.release()
	if s.finder == nil || s.last.source != a.source {
		return r
	}
	at := a.at.Sub(s.last.origin)
	var err error
	if r.Lightness, err = s.finder.LightnessAt(at.X, at.Y); err != nil {
		return r
	}
	r.Sides, r.Err = s.finder.At(at.X, at.Y)
	r.Sides.Light, r.Sides.Shadow = r.Sides.Light.Add(s.last.origin), r.Sides.Shadow.Add(s.last.origin)
	return r
}

// take makes the finder ours. If the worker has given it a picture meanwhile, that is searched
// first: what is known of it belongs to the one before.
func (s *Search) take() {
	for !s.tryTake() {
		s.search(<-s.wake)
	}
}

func (s *Search) tryTake() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	was := s.busy
	s.busy = true
	return !was
}

func (s *Search) release() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.busy = false
}
