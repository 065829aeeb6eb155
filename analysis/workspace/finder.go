package workspace

import (
	"image"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// Certainty says how sure it is that what was found is a canvas in a workspace.
type Certainty uint8

const (
	None    Certainty = iota
	Likely            // enough to ask
	Certain           // enough to go by it unasked
)

// String returns the certainty in words.
func (c Certainty) String() string { return [...]string{"none", "likely", "certain"}[min(c, Certain)] }

// Found is a canvas; the zero value is none.
type Found struct {
	Canvas    image.Rectangle // pixels of the picture; all around it is left out
	Surround  colour.RGB      // colour of the workspace
	Certainty Certainty
	Grey      bool // Surround is a colour that workspaces have
}

// triedColours is in how many colours of lines beside the rim a canvas is looked for.
const triedColours = 3

// Find looks for a canvas in a picture. It takes some tens of microseconds where lines beside
// the rim have no colour throughout, less than a millisecond else, and allocates nothing. Pixels
// that fail Check are an empty picture, which has none. Any goroutine may call it.
func Find(p analysis.Pixels) (best Found) {
	if p.Check() != nil || min(p.Width, p.Height) < leastSide {
		return Found{}
	}
	var views [sides]side
	for i := range views {
		views[i] = sideOf(p, i)
	}
	found := coloursAt(&views)
	for range triedColours {
		of, ok := found.take()
		if !ok {
			break
		}
		if f := findIn(p, &views, of); f.betterThan(best) {
			best = f
		}
		if best.Certainty == Certain {
			break
		}
	}
	return best
}

// betterThan reports whether one is more certain than another, or leaves out more.
func (f Found) betterThan(other Found) bool {
	if f.Certainty != other.Certainty {
		return f.Certainty > other.Certainty
	}
	return area(f.Canvas) < area(other.Canvas)
}

func area(r image.Rectangle) int { return r.Dx() * r.Dy() }

// findIn looks for a canvas in a surround of a colour.
func findIn(p analysis.Pixels, views *[sides]side, of code) Found {
	s := scene{views: views, space: p.Space, of: of, width: p.Width, height: p.Height}
	count := 0
	for i := range views {
		if s.open[i], s.opened[i] = opening(&views[i], of); s.opened[i] {
			count++
		}
	}
	if count == 0 {
		return Found{}
	}
	for i := range views {
		if !s.opened[i] {
			continue
		}
		var met float64
		if s.canvas[i], met = borderOf(&views[i], of, i, s.open); met < straight {
			return Found{}
		}
	}
	s.refine()
	f := Found{Canvas: s.canvas.within(p.Width, p.Height), Surround: rgbOf(s.of, p.Layout)}
	f.Grey = isGrey(s.space, f.Surround)
	if f.Certainty = s.judge(f, count); f.Certainty == None {
		return Found{}
	}
	return f
}

// refine takes for the surround's colour the one in the middle of its widest side: at the rim may
// be what has nearly its colour, and beside an edge what JPEG made of it.
func (s *scene) refine() {
	widest, at := 0, 0
	for i := range sides {
		if gap := s.canvas[i] - s.open[i]; s.opened[i] && gap > widest {
			widest, at = gap, i
		}
	}
	v := &s.views[at]
	if of, ok := lineColour(v, rimOf(v), s.open[at]+widest/2); ok {
		s.of = of
	}
}

// rgbOf returns a code as a colour.
func rgbOf(c code, layout analysis.Layout) colour.RGB {
	if layout == analysis.BGRX {
		return colour.RGB{R: uint8(c >> 16), G: uint8(c >> 8), B: uint8(c)}
	}
	return colour.RGB{R: uint8(c), G: uint8(c >> 8), B: uint8(c >> 16)}
}
