package workspace

// How a surround looks, in 8-bit codes a channel: even is what is of one colour, near what may
// be, where a saved picture has grain beside an edge (JPEG).
const (
	even = 3
	near = 12
)

// How rulers, scroll bars and a border may lie between the surround and the picture's rim:
// so deep at most, in pixels and as a part of the side.
const (
	rimMost = 64
	rimPart = 8
)

// How the lines beside the rim are looked at.
const (
	lineSamples = 129
	lineEven    = 0.97 // part of a line that has the surround's colour
	lineSteady  = 4    // so many lines follow each other
)

// rimOf returns how deep the rim of a side may be.
func rimOf(s *side) int { return min(rimMost, s.length/rimPart, s.depth/rimPart) }

// sampleAt returns one of lineSamples places between two: one in each equal part, but anywhere in
// it, since the marks of a ruler keep any step.
func sampleAt(i, from, to int) int {
	h := uint32(i) * 0x9e3779b1 // scattered as hashes are: a product with 2³² by the golden ratio
	h = (h ^ h>>15) * 0x85ebca6b
	return from + (i<<16|int(h>>16))*(to-from)/(lineSamples<<16)
}

// mostColours bounds how many colours may be a surround's.
const mostColours = 8

// colours are those that whole lines beside the rim have, and on how many.
type colours struct {
	codes [mostColours]code
	votes [mostColours]int
	count int
}

// vote counts one more line of a colour.
func (c *colours) vote(of code) {
	for i := range c.count {
		if c.codes[i].apart(of) <= even {
			c.votes[i]++
			return
		}
	}
	if c.count < mostColours {
		c.codes[c.count], c.votes[c.count] = of, 1
		c.count++
	}
}

// take returns the colour of most lines, and forgets it.
func (c *colours) take() (of code, ok bool) {
	best := -1
	for i := range c.count {
		if c.votes[i] > 0 && (best < 0 || c.votes[i] > c.votes[best]) {
			best = i
		}
	}
	if best < 0 {
		return 0, false
	}
	c.votes[best] = 0
	return c.codes[best], true
}

// coloursAt finds the colours that lines beside the rim have: where a picture has none, there is
// no more to look for.
func coloursAt(views *[sides]side) (found colours) {
	for i := range views {
		s := &views[i]
		rim := rimOf(s)
		for d := 0; d <= rim; d += 1 + d/4 {
			if of, ok := lineColour(s, rim, d); ok {
				found.vote(of)
			}
		}
	}
	return found
}

// lineColour returns the colour that a line has nearly everywhere, but for its ends.
func lineColour(s *side, rim, inward int) (of code, ok bool) {
	lead := 0 // a majority is what is left over when unlike pairs are taken away
	for i := range lineSamples {
		switch c := s.at(sampleAt(i, rim, s.length-rim), inward); {
		case lead == 0:
			of, lead = c, 1
		case c.apart(of) <= even:
			lead++
		default:
			lead--
		}
	}
	return of, of < nothing && s.hasColour(of, rim, s.length-rim, inward)
}

// hasColour reports whether a line has a colour nearly everywhere between two places.
func (s *side) hasColour(of code, from, to, inward int) bool {
	const most = lineSamples - lineSamples*lineEven // of another colour
	unlike := 0
	for i := range lineSamples {
		if s.at(sampleAt(i, from, to), inward).apart(of) > even {
			if unlike++; float64(unlike) > most {
				return false
			}
		}
	}
	return true
}

// opening returns how far from a side the surround begins; ok is false where the side has none:
// there the canvas goes on beyond the picture. Of several runs of lines that have its colour the
// innermost one counts: a scroll bar may have the colour of the surround, but for its thumb.
func opening(s *side, of code) (inward int, ok bool) {
	rim, steady, step := rimOf(s), 0, 1
	for d := 0; d < min(rim+lineSteady, s.depth); d += step {
		if !s.hasColour(of, rim, s.length-rim, d) {
			steady, step = 0, 1
			continue
		}
		if steady++; steady == lineSteady {
			inward, ok = d+1-lineSteady, true
			step = lineSteady // a run goes on until a line says otherwise; what is narrower is no thumb
		}
	}
	return inward, ok
}
