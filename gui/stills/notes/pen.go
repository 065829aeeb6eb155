package notes

import (
	"image"
	"math"
	"strconv"

	"app.tonedesk/gui/stills/ink"
)

// Sizes of what doesn't scale with the still, in units of View.Pixel.
const (
	leastLine = 1.25 // width of a line's core
	leastText = 11   // size of a label's letters
	leastRim  = 1
	halo      = 2 // width of a selected note's second rim
	areaEdge  = 1.5
)

// pen collects what notes draw, in drawn pixels. Shapes draw by at, width, line, text and
// wash.
type pen struct {
	view    View
	areas   map[Side]ink.Mark
	marks   []ink.Mark
	badges  []ink.Mark
	rim     float64 // halo of the present note
	counted int     // number of the present note, 0 for none
	worded  bool    // the words of a label, or the reading of a spot, are drawn
	first   int     // index of the present note's first mark
}

func (v View) pen() *pen { return &pen{view: v, areas: map[Side]ink.Mark{}, worded: true} }

// note draws one note, with its number unless that is 0.
func (p *pen) note(n Note, number int) {
	if !n.Known() {
		return
	}
	p.rim, p.counted, p.first = 0, number, len(p.marks)
	if n.ID != "" && n.ID == p.view.Selected {
		p.rim = halo * p.view.Pixel
	}
	n.Shape.draw(p, n.Text)
}

// all returns the marks, lowest first.
func (p *pen) all() []ink.Mark {
	var all []ink.Mark
	for _, side := range []Side{Light, Shadow} {
		if m, ok := p.areas[side]; ok {
			all = append(all, m)
		}
	}
	return append(append(all, p.marks...), p.badges...)
}

// at returns where a still's place lies.
func (p *pen) at(q ink.Point) ink.Point { return p.view.To(q) }

// width returns how wide a line of a width in still pixels is drawn.
func (p *pen) width(still float64) float64 {
	return max(still*p.view.Scale, leastLine*p.view.Pixel)
}

// line draws a line. Lines of one note and one width cross without a rim between them.
func (p *pen) line(points []ink.Point, closed bool, width float64) {
	l := ink.Line{Points: points, Closed: closed, Width: width}
	for i := p.first; i < len(p.marks); i++ {
		if m := &p.marks[i]; len(m.Lines) > 0 && m.Lines[0].Width == width {
			m.Lines = append(m.Lines, l)
			return
		}
	}
	p.marks = append(p.marks, p.rimmed(ink.Mark{Lines: []ink.Line{l}}, width/4))
}

// ring draws a ring as a disc of which the edge is left: two outlines, and its inside counts as the
// note where it is taken hold of.
func (p *pen) ring(middle ink.Point, radius, width float64) {
	disc := ink.Line{Points: []ink.Point{middle}, Width: 2*radius + width}
	p.marks = append(p.marks, p.rimmed(ink.Mark{Lines: []ink.Line{disc}, Hollow: width}, width/4))
}

// textRim is how many times as large as the rim around them letters are.
const textRim = 9

// text draws text whose first line's foot begins at at.
func (p *pen) text(words string, at ink.Point, size float64) {
	p.marks = append(p.marks, p.rimmed(ink.Mark{Text: bold(words, at, size)}, size/textRim))
}

// bold is text as notes have it.
func bold(words string, at ink.Point, size float64) ink.Text {
	return ink.Text{Face: ink.Bold, Words: words, At: at, Size: size}
}

// beside writes to the right of at, away from it, or to the left where it would not fit; below
// a number that it would lie under.
func (p *pen) beside(text string, at ink.Point, away float64, number room) {
	if !p.near(at) {
		return
	}
	size := p.view.letters()
	rim := p.rimOf(size/textRim) + 0.5 // letters stand on whole pixels, where they are large
	left, wide, high := at.X+away, ink.Width(ink.Bold, text, size), 0.8*size
	if in := p.view.Inside; !in.Empty() && left+wide+rim > float64(in.Max.X) {
		left = at.X - away - wide
	}
	foot := p.kept(ink.Pt(left, at.Y+0.35*size), wide, high, rim)
	if foot.X < number.right && number.left < foot.X+wide && foot.Y-high < number.bottom {
		foot = p.kept(ink.Pt(left, number.bottom+2*rim+high), wide, high, rim)
	}
	p.text(text, foot, size)
}

// rimmed gives a mark the colours of notes, and a rim that goes with its size.
func (p *pen) rimmed(m ink.Mark, rim float64) ink.Mark {
	m.Grey, m.RimGrey = ink.LightGrey, ink.DarkGrey
	m.Rim, m.Halo = p.rimOf(rim), p.rim
	return m
}

// rimOf returns how wide a rim is drawn that goes with a size.
func (p *pen) rimOf(rim float64) float64 { return max(leastRim*p.view.Pixel, rim) }

// wash adds a brush stroke to the areas of a side. A selected one has a line of its own.
func (p *pen) wash(side Side, points []ink.Point, width float64) {
	l := ink.Line{Points: points, Width: width}
	m, ok := p.areas[side]
	if !ok {
		m = p.hollow(side, 0)
	}
	m.Lines = append(m.Lines, l)
	p.areas[side] = m
	if p.rim > 0 {
		own := p.hollow(side, p.rim)
		own.Hatch, own.Lines = ink.NoHatch, []ink.Line{l}
		p.marks = append(p.marks, own)
	}
}

// hollow returns the mark of a side's areas, still without lines.
func (p *pen) hollow(side Side, halo float64) ink.Mark {
	m := ink.Mark{
		Grey: ink.LightGrey, RimGrey: ink.DarkGrey, Rim: leastRim * p.view.Pixel, Halo: halo,
		Hollow: areaEdge * p.view.Pixel, Hatch: ink.Rising,
	}
	if side == Shadow {
		m.Hatch = ink.Falling
	}
	zero := p.at(ink.Point{}) // the hatch lies still on the still
	if zero.Fine() {
		m.Phase = image.Pt(int(math.Round(zero.X)), int(math.Round(zero.Y)))
	}
	return m
}

// number puts the present note's number, if it has one, to the upper left of at: dark on a
// light disc. It returns where.
func (p *pen) number(at ink.Point) room {
	if p.counted == 0 {
		return room{}
	}
	across, high := p.badge()
	return p.disc(at.Minus(ink.Pt(across, high/2-0.2*p.view.letters())))
}

// disc puts the present note's number on a disc that begins at foot, and returns where it lies.
func (p *pen) disc(foot ink.Point) room {
	if p.counted == 0 || !p.near(foot) {
		return room{}
	}
	text, size, rim := strconv.Itoa(p.counted), p.view.letters(), leastRim*p.view.Pixel
	across, high := p.badge()
	foot = p.kept(foot, across, high, rim)
	middle := foot.Plus(ink.Pt(across/2, -high/2))
	half := ink.Pt((across-high)/2, 0)
	disc := ink.Line{Points: []ink.Point{middle.Minus(half), middle.Plus(half)}, Width: high}
	wide := ink.Width(ink.Bold, text, size)
	p.badges = append(p.badges,
		ink.Mark{Lines: []ink.Line{disc}, Grey: ink.LightGrey, Rim: rim, RimGrey: ink.DarkGrey},
		ink.Mark{Text: bold(text, middle.Plus(ink.Pt(-wide/2, 0.36*size)), size), Grey: ink.DarkGrey})
	return room{foot.X, foot.Y - high, foot.X + across, foot.Y}
}

// badge returns how wide and high the disc of the present note's number is.
func (p *pen) badge() (across, high float64) {
	size := p.view.letters()
	high = 1.35 * size
	return max(ink.Width(ink.Bold, strconv.Itoa(p.counted), size)+0.55*size, high), high
}

// near reports whether a place lies in View.Inside or close by: a number or a reading of one
// that lies elsewhere would only pile up at the edge.
func (p *pen) near(at ink.Point) bool {
	reach := 3 * int(p.view.letters())
	return p.view.Inside.Empty() || image.Pt(int(at.X), int(at.Y)).In(p.view.Inside.Inset(-reach))
}

// kept moves the left foot of something so wide and high, with a rim around it, into View.Inside.
func (p *pen) kept(at ink.Point, wide, high, rim float64) ink.Point {
	in := p.view.Inside
	if in.Empty() {
		return at
	}
	at.X = max(float64(in.Min.X)+rim, min(at.X, float64(in.Max.X)-wide-rim))
	at.Y = max(float64(in.Min.Y)+high+rim, min(at.Y, float64(in.Max.Y)-rim))
	return at
}
