package overlay

import (
	"image"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/stills/ink"
)

// Lengths of what is drawn along forms, in units (our choice). Shapes tell them apart, not hues: a
// solid line is an accent, rungs across it are where that leaves the lightness, and rings are where
// a line vanishes.
const (
	accentWide   = 3
	rungLong     = 9 // across
	rungWide     = 2
	rungEvery    = 6 // along
	vanishRadius = 2.5
	vanishWide   = 1.5
	vanishEvery  = 10
)

// Along draws over an outline of forms where their accents run, where these leave the lightness, and
// where their lines vanish, light on dark. The picture's place is whole.
func Along(img *image.RGBA, forms []families.Form, whole image.Rectangle, lay Lay) {
	var marks []ink.Mark
	mark := func(lines ...ink.Line) {
		if len(lines) > 0 {
			marks = append(marks, ink.Mark{Lines: lines, Grey: ink.LightGrey, Rim: rim * lay.Unit, RimGrey: ink.DarkGrey})
		}
	}
	for i := range forms {
		if e := forms[i].Edge; e != nil {
			for _, s := range e.Accents {
				mark(ink.Line{Points: pointsOf(s.Way, whole, lay), Width: accentWide * lay.Unit})
			}
			for _, s := range e.Leaves {
				mark(rungs(pointsOf(s.Way, whole, lay), lay.Unit)...)
			}
		}
		if o := forms[i].Outline; o != nil {
			for _, s := range o.Vanishes {
				mark(rings(pointsOf(s.Way, whole, lay), lay.Unit)...)
			}
		}
	}
	new(ink.Drawer).Draw(img, img.Rect, marks)
}

// pointsOf returns a way in the mirror, no finer than a unit.
func pointsOf(way []families.At, whole image.Rectangle, lay Lay) (points []ink.Point) {
	for i, p := range way {
		at := lay.at(float64(whole.Min.X)+p.X*float64(whole.Dx()), float64(whole.Min.Y)+p.Y*float64(whole.Dy()))
		if n := len(points); n > 0 && i < len(way)-1 && distance(points[n-1], at) < lay.Unit {
			continue
		}
		points = append(points, at)
	}
	return points
}

func distance(p, q ink.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// every calls do at equal steps along a way, half a step from its ends on, with the direction there.
func every(way []ink.Point, step float64, do func(at, along ink.Point)) {
	left := step / 2
	for i := 1; i < len(way); i++ {
		p, q := way[i-1], way[i]
		long := distance(p, q)
		for ; left <= long && long > 0; left += step {
			along := q.Minus(p).Times(1 / long)
			do(p.Plus(along.Times(left)), along)
		}
		left -= long
	}
}

func rungs(way []ink.Point, unit float64) (lines []ink.Line) {
	every(way, rungEvery*unit, func(at, along ink.Point) {
		half := ink.Pt(-along.Y, along.X).Times(rungLong / 2.0 * unit)
		lines = append(lines, ink.Line{Points: []ink.Point{at.Minus(half), at.Plus(half)}, Width: rungWide * unit})
	})
	return lines
}

func rings(way []ink.Point, unit float64) (lines []ink.Line) {
	every(way, vanishEvery*unit, func(at, _ ink.Point) {
		r := vanishRadius * unit
		lines = append(lines, ink.Line{Points: ink.Ellipse(at, ink.Pt(r, r)), Closed: true, Width: vanishWide * unit})
	})
	return lines
}

// Words puts chips at the foot of an image, or at its top, that say something: in one line the first of
// several ways that has room; else the last of them in a line for each of its parts, and if need be in
// smaller letters.
func Words(img *image.RGBA, top bool, unit float64, ways ...string) {
	for _, words := range ways {
		if words != "" && saidIn(img, top, unit, []string{words}) {
			return
		}
	}
	if len(ways) == 0 || ways[len(ways)-1] == "" {
		return
	}
	last := ways[len(ways)-1]
	for _, small := range [...]float64{1, smallLetters} {
		for _, stops := range [...]string{";；", ";；,、"} {
			if saidIn(img, top, small*unit, parts(last, stops)) {
				return
			}
		}
	}
}

// parts are what stands between stops; a comma within a figure is none.
func parts(words, stops string) (list []string) {
	from, before := 0, rune(0)
	take := func(to int) {
		if part := strings.TrimSpace(words[from:to]); part != "" {
			list = append(list, part)
		}
	}
	for at, r := range words {
		if strings.ContainsRune(stops, r) && !(r == ',' && unicode.IsDigit(before) && startsWithDigit(words[at+1:])) {
			take(at)
			from = at + utf8.RuneLen(r)
		}
		before = r
	}
	take(len(words))
	return list
}

func startsWithDigit(words string) bool { return words != "" && words[0] >= '0' && words[0] <= '9' }

// Lines below each other, in units (our choices): closer than a chip alone is high, and of letters no
// smaller than can be read.
const (
	lineHigh     = 20
	lineGap      = 2
	smallLetters = 0.85 // beside those of a line alone
	mostOfHeight = 0.7  // of the picture, that lines may cover
)

// saidIn draws lines at the foot of an image, or at its top, if they have room.
func saidIn(img *image.RGBA, top bool, unit float64, lines []string) bool {
	size, high, gap, edge, most := figureSize*unit, chipHigh*unit, 0.0, step*unit, float64(img.Rect.Dy())
	if len(lines) > 1 {
		high, gap, most = lineHigh*unit, lineGap*unit, mostOfHeight*most
	}
	all := float64(len(lines))*(high+gap) - gap
	if all > min(most, float64(img.Rect.Dy())-2*edge) {
		return false
	}
	wide := func(words string) float64 { return ink.Width(ink.Bold, words, size) + 2*chipInner*unit }
	if slices.ContainsFunc(lines, func(words string) bool { return wide(words) > float64(img.Rect.Dx())-2*edge }) {
		return false
	}
	y := edge + high/2
	if !top {
		y += float64(img.Rect.Dy()) - 2*edge - all
	}
	for _, words := range lines {
		chip(img, words, ink.Pt(edge, y), ink.Pt(wide(words), high), size, unit)
		y += high + gap
	}
	return true
}
