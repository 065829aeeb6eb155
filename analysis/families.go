package analysis

// mostFamilies is how many families a picture may have: as many as Families.Map can name.
const mostFamilies = 63

// Families are the local colours of a picture that are painted as a light and a shadow side.
type Families struct {
	// Width and Height are the size of Map, which covers the whole picture.
	Width, Height int
	// Map says what of List a place belongs to: 0 nothing; 4i+1 the light side of List[i],
	// 4i+2 its shadow side, 4i+3 its accent, 4i+4 its line. Rows are Width apart.
	Map  []uint8
	List []Family // the largest share first
}

// FamilyFinder finds the families of one frame after another. It owns its buffers and its
// goroutines: one call at a time, from any goroutine, and to be closed.
type FamilyFinder struct {
	reducer *Reducer
	crew    *crew
	job     func(piece int) // what the crew is at

	source familySource
	planes familyPlanes
	areas  familyAreas
}

// NewFamilyFinder returns a FamilyFinder that works on all cores.
func NewFamilyFinder() *FamilyFinder {
	f := &FamilyFinder{reducer: NewReducer()}
	f.crew = newCrew(func(_, piece int) { f.job(piece) })
	return f
}

// Close ends the finder's goroutines. It goes on working for its caller, alone.
func (f *FamilyFinder) Close() {
	f.reducer.Close()
	f.crew.close()
}

// FindFamilies finds the families of a picture on its own. Pixels that fail Check are an
// empty picture. out says what is left out; nil for nothing.
func FindFamilies(p Pixels, out *Out, rules FamilyRules) *Families {
	f := NewFamilyFinder()
	defer f.Close()
	f.Take(p, out)
	return f.Find(rules)
}

// rows runs job over all rows of the planes on all cores, a few at a time. Rows must not
// depend on each other.
func (f *FamilyFinder) rows(height int, job func(y int)) {
	const each = 8
	f.job = func(piece int) {
		for y := piece * each; y < min(piece*each+each, height); y++ {
			job(y)
		}
	}
	f.crew.do((height + each - 1) / each)
	f.job = nil
}

// Find finds the families of what was taken last. The result is the caller's own.
func (f *FamilyFinder) Find(rules FamilyRules) *Families {
	found := &Families{Width: f.source.across, Height: f.source.down}
	found.Map = make([]uint8, found.Width*found.Height)
	if len(found.Map) == 0 {
		return found
	}
	f.smooth()
	f.segment()
	f.describe(found, f.gather(f.pairs()), rules)
	return found
}
