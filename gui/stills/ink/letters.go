package ink

import (
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"app.tonedesk/gui/language"
)

// Face is one of the built-in typefaces: the Go fonts, which have the Latin, Greek and
// Cyrillic letters of WGL4.
type Face uint8

const (
	Regular Face = iota
	Bold
)

// faces are parsed once. They are used with a buffer of the caller's own.
var faces = sync.OnceValue(func() [2]*sfnt.Font {
	var f [2]*sfnt.Font
	for i, data := range [][]byte{goregular.TTF, gobold.TTF} {
		parsed, err := sfnt.Parse(data)
		if err != nil {
			panic("ink: a built-in typeface can't be read: " + err.Error())
		}
		f[i] = parsed
	}
	return f
})

// LineHeight is the distance of lines of text, in sizes of its letters.
const LineHeight = 1.3

// gridSize is the size at which outlines are taken, in pixels; they are scaled from there,
// so that text has the same shape at all sizes.
const gridSize = 1024

// glyph is a letter of a typeface, at size 1: how far it moves the next one, and the box
// around it, from the left end of its foot.
type glyph struct {
	index   sfnt.GlyphIndex
	lent    *lent // what is borrowed instead
	advance float64
	box     box
}

// glyphOf returns a letter; the zero value for one that is lacking.
func glyphOf(face Face, r rune) glyph {
	if g, ok := glyphs()[face][r]; ok || !language.Eastern(r) {
		return g
	}
	return borrowed(face, r)
}

// glyphs are the letters of the typefaces, looked up once: all of them lie below U+FFFF. The
// built-in typefaces give no errors.
var glyphs = sync.OnceValue(func() (all [2]map[rune]glyph) {
	var buf sfnt.Buffer
	for face, f := range faces() {
		all[face] = map[rune]glyph{}
		for r := ' '; r < 0xffff; r++ {
			if index, _ := f.GlyphIndex(&buf, r); index != 0 {
				in, wide, _ := f.GlyphBounds(&buf, index, fixed.I(gridSize), font.HintingNone)
				around := box{atSizeOne(in.Min), atSizeOne(in.Max)}
				all[face][r] = glyph{index: index, advance: float64(wide) / 64 / gridSize, box: around}
			}
		}
	}
	return all
})

// Advance returns how far a letter of Shown moves the next one, in sizes of the letters. The
// width of a text is the sum: the typefaces have no kerning.
func Advance(face Face, r rune) float64 { return glyphOf(face, r).advance }

// Width returns how wide the widest line of text is, in pixels, at a size of letters in
// pixels.
func Width(face Face, text string, size float64) float64 {
	widest, wide := 0.0, 0.0
	for _, r := range Shown(text) {
		if r == '\n' {
			wide = 0
			continue
		}
		wide += Advance(face, r) * size
		widest = max(widest, wide)
	}
	return widest
}

// atSizeOne returns a place of an outline as it lies at size 1.
func atSizeOne(p fixed.Point26_6) Point {
	return Point{float64(p.X), float64(p.Y)}.Times(1.0 / 64 / gridSize)
}

// segments returns how a letter is drawn, at gridSize.
func (g glyph) segments(face Face) []sfnt.Segment {
	if g.lent != nil {
		return g.lent.segments
	}
	var buf sfnt.Buffer
	segments, _ := faces()[face].LoadGlyph(&buf, g.index, fixed.I(gridSize), nil)
	return segments
}

// outline returns the outlines of a letter from the left end of its foot.
func (g glyph) outline(face Face, size float64) (shapes [][]Point) {
	place := func(p fixed.Point26_6) Point { return atSizeOne(p).Times(size) }
	for _, s := range g.segments(face) {
		if s.Op == sfnt.SegmentOpMoveTo { // always the first
			shapes = append(shapes, []Point{place(s.Args[0])})
			continue
		}
		shape := &shapes[len(shapes)-1]
		switch s.Op {
		case sfnt.SegmentOpLineTo:
			*shape = append(*shape, place(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			*shape = appendCurve(*shape, place(s.Args[0]), place(s.Args[0]), place(s.Args[1]), 2.0/3)
		case sfnt.SegmentOpCubeTo:
			*shape = appendCurve(*shape, place(s.Args[0]), place(s.Args[1]), place(s.Args[2]), 1)
		}
	}
	return shapes
}

// curveMiss is how far a letter's straight pieces may stay from its curve, in pixels: a
// twentieth is not seen.
const curveMiss = 0.05

// appendCurve appends a Bézier curve from the shape's last point to end. With pull 2/3 and
// both handles the same it is the quadratic one; with 1 the cubic.
func appendCurve(shape []Point, h1, h2, end Point, pull float64) []Point {
	begin := shape[len(shape)-1]
	h1 = begin.Plus(h1.Minus(begin).Times(pull))
	h2 = end.Plus(h2.Minus(end).Times(pull))
	bend := h1.Minus(begin).Length() + h2.Minus(h1).Length() + end.Minus(h2).Length() - end.Minus(begin).Length()
	steps := max(1, min(16, int(math.Ceil(math.Sqrt(bend/curveMiss)))))
	for k := 1; k <= steps; k++ {
		t := float64(k) / float64(steps)
		u := 1 - t
		p := begin.Times(u * u * u).Plus(h1.Times(3 * u * u * t)).Plus(h2.Times(3 * u * t * t)).Plus(end.Times(t * t * t))
		shape = append(shape, p)
	}
	return shape
}
