package workspace

import (
	"image"

	"app.tonedesk/analysis/colour"
)

// What a canvas must have, for it to be likely.
const (
	leastSide = 64   // pixels
	leastPart = 0.25 // of the picture
	leastGap  = 4    // pixels of surround on a side
	leastOut  = 0.02 // part of the picture that is left out
)

// What parts of lines and places have to be as they should, for a canvas that is likely and for
// one that is certain.
const (
	likelyEdge, certainEdge   = 0.85, 0.97  // of its first line, that is not of the surround's colour
	likelyAround, cleanAround = 0.97, 0.998 // of the surround, that is
)

// What makes a canvas certain besides.
const (
	surelyOpened = 3    // sides
	neutralMost  = 14   // codes between the channels of a workspace's grey
	blackest     = 6.0  // L*: a workspace is no black
	whitest      = 92.0 // and no white
	hardPart     = 0.88 // of the way from surround to canvas, that one pixel goes
	flatMost     = 0.98 // part of the canvas that has one colour: there is nothing on it
)

// grain is how many pixels beside an edge may be disturbed by it: two blocks of JPEG.
const grain = 16

// scene is a picture with what was found in it so far.
type scene struct {
	views         *[sides]side
	space         *colour.Space
	of            code // the surround's colour
	width, height int
	open          distances // where the surround begins
	opened        [sides]bool
	canvas        distances
}

// judge says how certain it is that what was found, with so many sides opened, is a canvas.
func (s *scene) judge(f Found, opened int) Certainty {
	whole, canvas := float64(s.width)*float64(s.height), float64(area(f.Canvas))
	if f.Canvas.Empty() || min(f.Canvas.Dx(), f.Canvas.Dy()) < leastSide || canvas < leastPart*whole || whole-canvas < leastOut*whole {
		return None
	}
	edge, hard := 1.0, true
	for i := range sides {
		if !s.opened[i] {
			continue
		}
		if s.canvas[i]-s.open[i] < leastGap {
			return None
		}
		e, h := s.edge(i)
		edge, hard = min(edge, e), hard && h
	}
	around := s.around(f.Canvas)
	if edge < likelyEdge || around < likelyAround {
		return None
	}
	if opened >= surelyOpened && f.Grey && hard && edge >= certainEdge && around >= cleanAround && s.flat(f.Canvas) <= flatMost {
		return Certain
	}
	if opened < surelyOpened && !f.Grey { // a horizon, or a coloured ground beside a form
		return None
	}
	return Likely
}

// isGrey reports whether a workspace may have a colour.
func isGrey(space *colour.Space, c colour.RGB) bool {
	if int(max(c.R, c.G, c.B))-int(min(c.R, c.G, c.B)) > neutralMost {
		return false
	}
	l := space.LabOfCode(c).L
	return l >= blackest && l <= whitest
}

// mostSamples is at how many places of a line it is looked at, at most.
const mostSamples = 512

// edge returns which part of the canvas' first line on a side is not of the surround's colour
// while the line before it is rather, and whether it is one pixel from the one to the other:
// one that is covered in part, as in a scaled drawing, lies between its neighbours alone, while
// what JPEG disturbs beside an edge runs on for some pixels.
func (s *scene) edge(which int) (part float64, hard bool) {
	v, d := &s.views[which], s.canvas[which]
	from, to := s.canvas.span(which, v.length)
	var lines [4]step // two before the canvas, and two of it
	n, met := 0, 0
	for along := from; along < to; along += 1 + (to-from)/mostSamples {
		n++
		var far [len(lines)]int
		for i := range lines {
			far[i] = lines[i].add(v.at(along, d-2+i), s.of)
		}
		if far[2] > near && (far[1] <= near || 2*far[1] < far[2]) {
			met++
		}
	}
	out, before, first, second := &lines[0], &lines[1], &lines[2], &lines[3]
	whole := float64(second.far)
	hard = float64(first.far) >= hardPart*whole || first.beyond(second, n)
	return float64(met) / float64(max(n, 1)), hard && float64(before.far-out.far) <= (1-hardPart)*whole
}

// step is how far the pixels of a line are from the surround, added up.
type step struct{ far, lighter int }

func (s *step) add(c, of code) (far int) {
	far = c.apart(of)
	s.far += far
	if c < nothing {
		s.lighter += c.sum() - of.sum()
	}
	return far
}

// beyond reports whether the first of two lines lies on the other side of the surround's
// lightness than the second, over n pixels: it is a border of its own, no edge half covered.
func (s *step) beyond(second *step, n int) bool {
	return s.lighter < 0 != (second.lighter < 0) && max(s.lighter, -s.lighter) > 3*near*n
}

// placesAcross is at how many places across and down a part is looked at.
const placesAcross = 64

// each calls look with places spread evenly over a part.
func (s *scene) each(part image.Rectangle, look func(at image.Point, c code)) {
	v := &s.views[top]
	stepX, stepY := 1+part.Dx()/placesAcross, 1+part.Dy()/placesAcross
	for y := part.Min.Y; y < part.Max.Y; y += stepY {
		for x := part.Min.X; x < part.Max.X; x += stepX {
			look(image.Pt(x, y), v.at(x, y))
		}
	}
}

// around returns which part of what lies around a canvas, but for the rim, has the surround's
// colour; beside the canvas it may have grain.
func (s *scene) around(canvas image.Rectangle) float64 {
	inner, n, like := s.open.within(s.width, s.height), 0, 0
	beside := canvas.Inset(-grain)
	s.each(inner, func(at image.Point, c code) {
		if at.In(canvas) {
			return
		}
		n++
		most := even
		if at.In(beside) {
			most = near
		}
		if c.apart(s.of) <= most {
			like++
		}
	})
	return float64(like) / float64(max(n, 1))
}

// flat returns which part of a canvas has one colour, that of most of it.
func (s *scene) flat(canvas image.Rectangle) float64 {
	var of code
	lead, n, like := 0, 0, 0
	s.each(canvas, func(_ image.Point, c code) {
		switch {
		case lead == 0:
			of, lead = c, 1
		case c.apart(of) <= even:
			lead++
		default:
			lead--
		}
	})
	s.each(canvas, func(_ image.Point, c code) {
		if n++; c.apart(of) <= even {
			like++
		}
	})
	return float64(like) / float64(max(n, 1))
}
