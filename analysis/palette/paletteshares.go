package palette

import (
	"math"

	"app.tonedesk/analysis/colour"
)

// nearest returns how many pixels are nearest to each of the places, colour by colour; where a
// whole bin is nearest to one, at once.
func (c *colourBins) nearest(places []colour.Oklab) []int {
	counts := make([]int, len(places))
	margins := marginsOf(places)
	for i := range c.bins {
		b := &c.bins[i]
		if b.codes == nil {
			continue
		}
		if k, ok := margins.nearestToAll(i); ok {
			counts[k] += int(b.count)
			continue
		}
		b.each(i, func(code colour.RGB, n int) {
			k, _ := nearestOf(colour.OklabOfCode(code), places)
			counts[k] += n
		})
	}
	return counts
}

// A bin is a cube of codes, and in Oklab nearly one with flat sides: none of its colours lies
// farther than binBulge from what its corners span, if it holds a code of binBent or more in a
// channel. Nearer to black it is bent.
const (
	binBulge = 0.001
	binBent  = 64
)

// margins are places in Oklab with the margin by which one must be nearer than another to the
// corners of a bin, as squared distances, to be nearer to all that may bulge between them.
type margins struct {
	places []colour.Oklab
	apart  []float64 // by first and second place
}

func marginsOf(places []colour.Oklab) *margins {
	m := &margins{places, make([]float64, 0, len(places)*len(places))}
	for _, p := range places {
		for _, q := range places {
			m.apart = append(m.apart, 2*binBulge*math.Sqrt(squareApart(p, q)))
		}
	}
	return m
}

// nearestToAll returns the place that is nearest to all colours of a bin; ok is false where
// that is not sure.
func (m *margins) nearestToAll(bin int) (place int, ok bool) {
	high := colourInBin(bin, exactCodes-1)
	if max(high.R, high.G, high.B) < binBent {
		return 0, false
	}
	for corner := range 8 {
		number := (binCodes - 1) * ((corner>>2*binCodes+corner>>1&1)*binCodes + corner&1)
		c := colour.OklabOfCode(colourInBin(bin, number))
		if corner == 0 {
			place, _ = nearestOf(c, m.places)
		}
		if !m.holds(place, c) {
			return 0, false
		}
	}
	return place, true
}

// holds reports whether a place is nearer to c than any other by the margin.
func (m *margins) holds(place int, c colour.Oklab) bool {
	least := squareApart(c, m.places[place])
	for k, p := range m.places {
		if k != place && squareApart(c, p)-least < m.apart[place*len(m.places)+k] {
			return false
		}
	}
	return true
}
