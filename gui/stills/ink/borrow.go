package ink

import (
	"sync"

	"golang.org/x/image/font/sfnt"
)

// Lender says how a letter is drawn that the built-in typefaces lack, bold where it can: how far it
// moves the next one, in sizes of the letters, and its lines at a size of 1024 pixels, as package
// sfnt has them. Without lines it lacks the letter too.
type Lender func(r rune, bold bool) (advance float64, segments []sfnt.Segment)

// lent is a letter that is borrowed. Its address stands for it.
type lent struct{ segments []sfnt.Segment }

// borrowing is from whom letters are borrowed, and those that were asked for, lacking ones too.
var borrowing struct {
	sync.RWMutex
	from  Lender
	known map[borrowedKey]glyph
}

type borrowedKey struct {
	face Face
	r    rune
}

// mostBorrowed is how many letters are kept before they are forgotten: a dense page has fewer, and
// they take a few megabytes (our choice).
const mostBorrowed = 4000

// Borrow has letters of East Asia drawn as from says, since the built-in typefaces have none; nil
// takes that back. To be called before something is drawn, so that a text has one look.
func Borrow(from Lender) {
	borrowing.Lock()
	defer borrowing.Unlock()
	borrowing.from, borrowing.known = from, nil
}

// Draws reports whether there is a letter, built in or borrowed.
func Draws(r rune) bool { return glyphOf(Regular, r).advance > 0 } // the bold typeface has the same letters

// borrowed returns a letter of the lender's; the zero value for one that is lacking.
func borrowed(face Face, r rune) glyph {
	key := borrowedKey{face, r}
	borrowing.RLock()
	g, ok := borrowing.known[key]
	from := borrowing.from
	borrowing.RUnlock()
	if ok || from == nil {
		return g
	}
	borrowing.Lock()
	defer borrowing.Unlock()
	if g, ok := borrowing.known[key]; ok { // another was faster: one letter has one address
		return g
	}
	if advance, segments := from(r, face == Bold); advance > 0 && len(segments) > 0 {
		g = glyph{lent: &lent{segments}, advance: advance, box: boxAround(segments)}
	}
	if borrowing.known == nil || len(borrowing.known) >= mostBorrowed {
		borrowing.known = map[borrowedKey]glyph{}
	}
	borrowing.known[key] = g
	return g
}

// Borrowed returns the outlines of a letter at size 1, from the left end of its foot, as finely as at
// a size of 64 pixels; none for one that is built in or lacking.
func Borrowed(face Face, r rune) (shapes [][]Point) {
	const fine = 64
	g := glyphOf(face, r)
	if g.lent == nil {
		return nil
	}
	shapes = g.outline(face, fine)
	for _, shape := range shapes {
		for i, p := range shape {
			shape[i] = p.Times(1.0 / fine)
		}
	}
	return shapes
}

// boxAround returns the box around the lines of a letter, handles and all, at size 1.
func boxAround(segments []sfnt.Segment) box {
	b := noBox
	for _, s := range segments {
		for _, p := range s.Args[:pointsOf(s.Op)] {
			b.add(0, atSizeOne(p))
		}
	}
	return b
}

// pointsOf is how many points a line has beside the one that it begins at.
func pointsOf(op sfnt.SegmentOp) int {
	switch op {
	case sfnt.SegmentOpQuadTo:
		return 2
	case sfnt.SegmentOpCubeTo:
		return 3
	}
	return 1
}
