package gui

import (
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/propose"
)

// maxSpots is how many spots there can be: A to H.
const maxSpots = 8

// sourceKind says what is watched.
type sourceKind uint8

const (
	sourceDemo    sourceKind = iota // the embedded painting
	sourcePicture                   // a picture file
	sourceRegion                    // a region of the screen
	sourceStill                     // a still that was kept; Path is its ID
)

// source is what is watched. Region counts desktop pixels for a screen, else pixels of
// the picture; empty means all of it.
type source struct {
	Kind   sourceKind
	Path   string // of a picture file
	Region image.Rectangle
}

// feed returns what a stream is opened for: parts of a picture are parts of one feed.
func (s source) feed() source {
	if s.Kind != sourceRegion {
		s.Region = image.Rectangle{}
	}
	return s
}

// place is where a spot lies, in the coordinates of its source's Region.
type place struct {
	At    image.Point
	Area  image.Rectangle // of a measured area; empty for a spot
	Moved bool            // the picture has jumped since it was placed
}

// centre is the point by which the place is taken hold of.
func (p place) centre() image.Point {
	if p.Area.Empty() {
		return p.At
	}
	return p.Area.Min.Add(p.Area.Size().Div(2))
}

// to returns the place with its centre at q, as placed by hand.
func (p place) to(q image.Point) place {
	if !p.Area.Empty() {
		p.Area = p.Area.Add(q.Sub(p.centre()))
	}
	p.At, p.Moved = q, false
	return p
}

// setup is what undo goes back to: what is watched, where the spots lie and what isn't
// counted. Its slices are never written to once they are in a setup.
type setup struct {
	Source   source
	Places   []place
	Areas    []image.Rectangle // left out, in the coordinates of Source.Region
	Tones    []float64         // lightness left out, L*
	Families []handFamily
	Shade    propose.Options // by which colours are proposed
	Typed    *colour.RGB     // the colour to begin from; nil follows the spots
	Target   *target         // to paint toward; nil for none
	Edges    []float64       // of the groups, L*, rising; none where they are found by themselves
}

// spotName returns the letter of spot i.
func spotName(i int) string { return string(rune('A' + i)) }

// with returns the setup with p placed by a plain click (A first, then B again and
// again) or, if add, as one spot more; the index tells which. A full set gives the last
// spot again.
func (s setup) with(p place, add bool) (setup, int) {
	n := len(s.Places)
	at := min(n, 1)
	if add {
		at = min(n, maxSpots-1)
	}
	return s.placed(at, p), at
}

// placed returns the setup with spot i at p; i may be one past the last.
func (s setup) placed(i int, p place) setup {
	places := slices.Clone(s.Places)
	if i == len(places) {
		places = append(places, p)
	} else {
		places[i] = p
	}
	s.Places = places
	return s
}

// without returns the setup without spot i. The spots after it move up a letter.
func (s setup) without(i int) setup {
	s.Places = slices.Delete(slices.Clone(s.Places), i, i+1)
	return s
}

// allMoved returns the setup with every spot said to be moved, or with none.
func (s setup) allMoved(moved bool) setup {
	places := slices.Clone(s.Places)
	for i := range places {
		places[i].Moved = moved
	}
	families := slices.Clone(s.Families)
	for i := range families {
		families[i].Light.Moved, families[i].Shadow.Moved = moved, moved
	}
	s.Places, s.Families = places, families
	return s
}

// leavingOut returns the setup with one area more left out.
func (s setup) leavingOut(area image.Rectangle) setup {
	s.Areas = append(slices.Clip(s.Areas), area)
	return s
}

// leavingOutTone returns the setup with one lightness more left out.
func (s setup) leavingOutTone(lightness float64) setup {
	s.Tones = append(slices.Clip(s.Tones), lightness)
	return s
}

// countingAll returns the setup with nothing left out.
func (s setup) countingAll() setup {
	s.Areas, s.Tones = nil, nil
	return s
}

// toneReach is how far around a clicked lightness is left out with it, in L*: canvas and
// paper are rarely of one colour throughout (common practice, no source).
const toneReach = 1.0

// out says the same for the analysis, for a picture whose top left lies at origin.
func (s setup) out(dst *analysis.Mask, origin image.Point, covered image.Rectangle) {
	dst.Areas = dst.Areas[:0]
	for _, area := range s.Areas {
		dst.Areas = append(dst.Areas, area.Sub(origin))
	}
	if !covered.Empty() {
		dst.Areas = append(dst.Areas, covered.Sub(origin))
	}
	dst.Lightness = [256]bool{}
	for _, lightness := range s.Tones {
		from, to := toneBins(lightness)
		for bin := from; bin <= to; bin++ {
			dst.Lightness[bin] = true
		}
	}
}

// toneBins returns the first and the last bin left out around a lightness.
func toneBins(lightness float64) (from, to int) {
	return colour.BinOf(max(lightness-toneReach, 0)), colour.BinOf(min(lightness+toneReach, 100))
}

// leastSide is the side of the smallest part that can be watched.
const leastSide = 8
