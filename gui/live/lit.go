package live

import (
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
)

// lightAsk is a question about the light on what was found.
type lightAsk struct {
	found  *families.Found
	counts []bool
	tell   func(*light.Light)
}

// AskLight asks what those of the local colours that were found which count say of the light. tell
// is called on the goroutine that searches. Of questions that wait the last is answered: what was
// asked before is of no use any more. Ask on one goroutine.
func (s *Search) AskLight(found *families.Found, counts []bool, tell func(*light.Light)) {
	select {
	case <-s.lights:
	default:
	}
	s.lights <- lightAsk{found, counts, tell} // there is room: nobody else asks
}

// readLight answers such a question, on the goroutine that searches.
func (s *Search) readLight(a lightAsk) {
	defer rescue("reading the light", s.log)
	a.tell(light.Of(a.found, func(i int) bool { return a.counts[i] }, light.DefaultOptions().WithTones(s.last.agree)))
}
