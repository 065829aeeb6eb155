package live

import (
	"cmp"
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/reduce"
)

// lightAsk is a question about the light on what was found.
type lightAsk struct {
	found  *families.Found
	cells  *light.Cells
	counts []bool
	tell   func(*light.Light)
}

// AskLight asks what those of the local colours that were found which count say of the light, in a
// picture of those cells (nil for none). tell
// is called on the goroutine that searches. Of questions that wait the last is answered: what was
// asked before is of no use any more. Ask on one goroutine.
func (s *Search) AskLight(found *families.Found, cells *light.Cells, counts []bool, tell func(*light.Light)) {
	select {
	case <-s.lights:
	default:
	}
	s.lights <- lightAsk{found, cells, counts, tell} // there is room: nobody else asks
}

// readLight answers such a question, on the goroutine that searches.
func (s *Search) readLight(a lightAsk) {
	defer rescue("reading the light", s.log)
	a.tell(light.OfPicture(a.found, a.cells, func(i int) bool { return a.counts[i] }, cmp.Or(s.last.light, light.DefaultOptions())))
}

// takeCells takes a picture as its light is read from it, of which nothing is kept.
func (s *Search) takeCells(p analysis.Pixels, mask *analysis.Mask) {
	if s.reducer == nil {
		s.reducer = reduce.New()
	}
	size := reduce.Within(image.Pt(p.Width, p.Height), light.LongestCells)
	s.cells = light.CellsOf(s.reducer.Reduce(p, size.X, size.Y, mask))
}
