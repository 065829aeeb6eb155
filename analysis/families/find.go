package families

import (
	"app.tonedesk/analysis"
	"app.tonedesk/analysis/internal/pool"
	"app.tonedesk/analysis/reduce"
)

// mostFamilies is how many families a picture may have: as many as Found.Map can name.
const mostFamilies = 63

// Found are the local colours of a picture that are painted as a light and a shadow side.
type Found struct {
	// Width and Height are the size of Map, which covers the whole picture.
	Width, Height int
	// Map says what of List a place belongs to: 0 nothing; 4i+1 the light side of List[i],
	// 4i+2 its shadow side, 4i+3 its accent, 4i+4 its line. Rows are Width apart.
	Map  []uint8
	List []Family // the largest share first
}

// Finder finds the families of one frame after another. It owns its buffers and its
// goroutines: one call at a time, from any goroutine, and to be closed.
type Finder struct {
	reducer *reduce.Reducer
	workers *pool.Workers
	job     func(piece int) // what the workers are at
	model   *Model

	source familySource
	planes familyPlanes
	areas  familyAreas
	forms  forms
}

// NewFinder returns a Finder that works on all cores.
func NewFinder() *Finder {
	f := &Finder{reducer: reduce.New(), model: &fitted}
	f.workers = pool.New(func(_, piece int) { f.job(piece) })
	return f
}

// Close ends the finder's goroutines. It goes on working for its caller, alone.
func (f *Finder) Close() {
	f.reducer.Close()
	f.workers.Close()
}

// Find finds the families of a picture on its own. Pixels that fail Check are an
// empty picture. mask says what is left out; nil for nothing.
func Find(p analysis.Pixels, mask *analysis.Mask, rules Rules) *Found {
	f := NewFinder()
	defer f.Close()
	f.Take(p, mask)
	return f.Find(rules)
}

// rows runs job over all rows of the planes on all cores, a few at a time. Rows must not
// depend on each other.
func (f *Finder) rows(height int, job func(y int)) {
	const each = 8
	f.job = func(piece int) {
		for y := piece * each; y < min(piece*each+each, height); y++ {
			job(y)
		}
	}
	f.workers.Do((height + each - 1) / each)
	f.job = nil
}

// Find finds the families of what was taken last. The result is the caller's own.
func (f *Finder) Find(rules Rules) *Found {
	found := &Found{Width: f.source.across, Height: f.source.down} // of cells
	found.Map = make([]uint8, found.Width*found.Height)
	f.forms.found, f.forms.rules = found, rules
	if len(found.Map) == 0 {
		return found
	}
	f.smooth()
	f.segment()
	f.describe(found, f.decide().locals, rules)
	return f.source.laid(found)
}
