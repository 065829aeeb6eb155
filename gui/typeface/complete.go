package typeface

import (
	"encoding/binary"
	"errors"
	"math"
)

// The signs that are given.
const (
	Minus = '\u2212'
	Arrow = '\u2192'
)

// ErrUnknown is returned of bytes that aren't a TrueType typeface as we know them.
var ErrUnknown = errors.New("complete a typeface: it isn't built as ours are")

// Complete returns a copy of a TrueType typeface that has both signs, drawn from its own plus and
// en dash. A typeface that has both is returned as it is. The error wraps ErrUnknown where the
// typeface can't be read, or has no plus or en dash; it never panics.
func Complete(ttf []byte) (whole []byte, err error) {
	defer func() { // every length in it is the file's own word
		if recover() != nil {
			whole, err = nil, ErrUnknown
		}
	}()
	tables, err := readTables(ttf)
	if err != nil {
		return nil, err
	}
	codes, err := readCodes(tables["cmap"])
	if err != nil {
		return nil, err
	}
	f := readFace(tables)
	plus, dash := codes['+'], codes['–']
	if plus == 0 || dash == 0 {
		return nil, ErrUnknown
	}
	s := strokeOf(f, plus, dash)
	added := false
	for _, sign := range []struct {
		code rune
		draw func(stroke) drawing
	}{{Minus, drawMinus}, {Arrow, drawArrow}} {
		if codes[sign.code] == 0 {
			codes[sign.code] = f.add(sign.draw(s))
			added = true
		}
	}
	if !added {
		return ttf, nil
	}
	if len(f.metrics) > mostCodes {
		return nil, ErrUnknown
	}
	f.write(tables)
	tables["cmap"] = writeCodes(codes)
	return writeTables(ttf, tables), nil
}

// point of an outline, in the typeface's units, upward.
type point struct{ x, y int16 }

// drawing is a sign: its outline, clockwise and of straight lines, and how far it moves the next one.
type drawing struct {
	outline []point
	advance uint16
}

// stroke is what the new signs have of the old ones.
type stroke struct {
	left, right int16 // ends of the plus's bar
	middle      int16 // its height
	thick       int16 // of the en dash
	advance     uint16
}

func strokeOf(f *face, plus, dash uint32) stroke {
	p, d := f.box(plus), f.box(dash)
	return stroke{left: p[0], right: p[2], middle: int16((int(p[1]) + int(p[3])) / 2), thick: d[3] - d[1], advance: f.metrics[plus].advance}
}

// drawMinus is the plus's bar, as thick as the en dash: a rectangle.
func drawMinus(s stroke) drawing {
	foot := s.middle - s.thick/2
	return drawing{[]point{{s.left, foot}, {s.left, foot + s.thick}, {s.right, foot + s.thick}, {s.right, foot}}, s.advance}
}

// drawArrow is a bar at the same height with an open head of lines at 45 degrees. It is as long as
// one and two thirds of a plus, its head as high as three fifths of one: our choice.
func drawArrow(s stroke) drawing {
	advance := s.advance * 5 / 3
	tip := int16(advance) - s.left
	arm := (s.right - s.left) * 3 / 10
	half := s.thick / 2
	side := int16(float64(s.thick) * math.Sqrt2 / 2) // of a square on a slanting line's end
	neck := tip - 2*side - half
	upper := []point{{tip - arm, s.middle + arm}, {tip, s.middle}, {tip - arm, s.middle - arm}}
	lower := []point{{tip - arm - side, s.middle - arm + side}, {neck, s.middle - half}, {s.left, s.middle - half}, {s.left, s.middle + half}, {neck, s.middle + half}, {tip - arm - side, s.middle + arm - side}}
	return drawing{append(upper, lower...), advance}
}

// glyph is a drawing as the table glyf has it (OTF): a simple one, of points on the line, in whole
// steps of two bytes.
func (d drawing) glyph() []byte {
	box := [4]int16{math.MaxInt16, math.MaxInt16, math.MinInt16, math.MinInt16}
	for _, p := range d.outline {
		box = [4]int16{min(box[0], p.x), min(box[1], p.y), max(box[2], p.x), max(box[3], p.y)}
	}
	const onLine = 1
	var xs, ys, flags []byte
	last := point{}
	for _, p := range d.outline {
		flags = append(flags, onLine)
		xs = binary.BigEndian.AppendUint16(xs, uint16(p.x-last.x))
		ys = binary.BigEndian.AppendUint16(ys, uint16(p.y-last.y))
		last = p
	}
	out := binary.BigEndian.AppendUint16(nil, 1) // outlines
	for _, side := range box {
		out = binary.BigEndian.AppendUint16(out, uint16(side))
	}
	out = binary.BigEndian.AppendUint16(out, uint16(len(d.outline)-1))
	out = binary.BigEndian.AppendUint16(out, 0) // instructions
	return padded(append(append(append(out, flags...), xs...), ys...))
}

// padded is filled up with zeros to whole steps of four bytes.
func padded(b []byte) []byte {
	for len(b)%4 != 0 {
		b = append(b, 0)
	}
	return b
}
