package ink

import (
	"math"
	"strings"
)

// Text is words in a typeface, as Shown has them: the first line's foot begins at At, further
// lines follow below.
type Text struct {
	Face  Face
	Words string
	At    Point
	Size  float64 // of the letters, in pixels
}

// letter is one letter of a text, where it stands.
type letter struct {
	glyph
	at Point // left end of its foot
}

// placeSteps returns how many places a letter may have within a pixel, along either side, so that
// one letter looks one of a few ways: fewer where letters are larger, which all have to be kept
// (our choice: half a step is a hundredth of their size).
func placeSteps(size float64) float64 {
	switch {
	case size <= 25:
		return 8
	case size <= 50:
		return 2
	}
	return 1
}

// overhang is how far from its foot no letter of the typefaces reaches, in sizes.
const overhang = 1.5

// each tells of the letters that may touch in when they are grown by so much, in their order.
func (t *Text) each(in box, grow float64, tell func(letter)) {
	far := overhang*t.Size + grow
	y := t.At.Y
	for line := range strings.SplitSeq(Shown(t.Words), "\n") {
		if y-far > in.most.Y {
			return
		}
		if y+far >= in.least.Y {
			t.inLine(line, y, in, grow, tell)
		}
		y += LineHeight * t.Size
	}
}

func (t *Text) inLine(line string, y float64, in box, grow float64, tell func(letter)) {
	x := t.At.X
	for _, r := range line {
		if x-overhang*t.Size-grow > in.most.X {
			return // a long text costs no more than what is seen of it
		}
		l := letter{glyphOf(t.Face, r), Point{onStep(x, t.Size), onStep(y, t.Size)}}
		if l.box.least != l.box.most && l.around(t.Size, grow).meets(in) { // a space shows nothing
			tell(l)
		}
		x += l.advance * t.Size
	}
}

// onStep returns the nearest place that a letter may have.
func onStep(v, size float64) float64 {
	steps := placeSteps(size)
	return math.Round(v*steps) / steps
}

// around returns the box of a letter grown by so much.
func (l *letter) around(size, grow float64) box {
	b := noBox
	b.add(grow, l.at.Plus(l.box.least.Times(size)), l.at.Plus(l.box.most.Times(size)))
	return b
}

// addText makes b hold those letters of a text, grown by so much, that may touch in.
func (b *box) addText(t *Text, in box, grow float64) {
	t.each(in, grow, func(l letter) {
		around := l.around(t.Size, grow)
		b.add(0, around.least, around.most)
	})
}
