package ink

import (
	"math"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
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

// Width returns how wide the widest line of text is, in pixels, at a size of letters in
// pixels. Characters that the typeface lacks count as its empty box.
func Width(face Face, text string, size float64) float64 {
	var buf sfnt.Buffer
	widest := 0.0
	for line := range strings.SplitSeq(text, "\n") {
		wide := 0.0
		for _, r := range line {
			_, advance := glyphOf(face, &buf, r)
			wide += advance * size
		}
		widest = max(widest, wide)
	}
	return widest
}

// glyphOf returns a character's glyph, and how far it moves the next one at size 1. The
// built-in typefaces give no errors: what they lack is glyph 0, an empty box.
func glyphOf(face Face, buf *sfnt.Buffer, r rune) (sfnt.GlyphIndex, float64) {
	f := faces()[face]
	index, _ := f.GlyphIndex(buf, drawable(r))
	wide, _ := f.GlyphAdvance(buf, index, fixed.I(gridSize), font.HintingNone)
	return index, float64(wide) / 64 / gridSize
}

// drawable keeps characters that have no picture from being drawn as one.
func drawable(r rune) rune {
	if r < ' ' || r == '\u00a0' {
		return ' '
	}
	return r
}

// Letters returns the outlines of text: the first line's foot begins at at, further lines
// follow below.
func Letters(face Face, text string, at Point, size float64) [][]Point {
	var buf sfnt.Buffer
	var shapes [][]Point
	y := at.Y
	for line := range strings.SplitSeq(text, "\n") {
		x := at.X
		for _, r := range line {
			index, advance := glyphOf(face, &buf, r)
			segments, _ := faces()[face].LoadGlyph(&buf, index, fixed.I(gridSize), nil)
			shapes = appendGlyph(shapes, segments, Point{x, y}, size)
			x += advance * size
		}
		y += LineHeight * size
	}
	return shapes
}

// appendGlyph appends the outlines of one character.
func appendGlyph(shapes [][]Point, segments sfnt.Segments, at Point, size float64) [][]Point {
	place := func(p fixed.Point26_6) Point {
		return at.Plus(Point{float64(p.X), float64(p.Y)}.Times(size / 64 / gridSize))
	}
	for _, s := range segments {
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

// appendCurve appends a Bézier curve from the shape's last point to end. With pull 2/3 and
// both handles the same it is the quadratic one; with 1 the cubic.
func appendCurve(shape []Point, h1, h2, end Point, pull float64) []Point {
	begin := shape[len(shape)-1]
	h1 = begin.Plus(h1.Minus(begin).Times(pull))
	h2 = end.Plus(h2.Minus(end).Times(pull))
	bend := h1.Minus(begin).Length() + h2.Minus(h1).Length() + end.Minus(h2).Length() - end.Minus(begin).Length()
	steps := max(1, min(16, int(math.Ceil(math.Sqrt(bend/arcMiss)))))
	for k := 1; k <= steps; k++ {
		t := float64(k) / float64(steps)
		u := 1 - t
		p := begin.Times(u * u * u).Plus(h1.Times(3 * u * u * t)).Plus(h2.Times(3 * u * t * t)).Plus(end.Times(t * t * t))
		shape = append(shape, p)
	}
	return shape
}
