package views

import "app.tonedesk/analysis/internal/fixed"

// triple is linear light of three channels in one word, so that one addition, or one
// multiplication by a small number, serves all three: 16 bits each, with room for 5 more.
type triple uint64

const (
	tripleLane = 21
	tripleOnes = 1 | 1<<tripleLane | 1<<(2*tripleLane)
	tripleMask = fixed.LinearWhite * tripleOnes
)

func newTriple(r, g, b uint16) triple {
	return triple(r) | triple(g)<<tripleLane | triple(b)<<(2*tripleLane)
}

// channel returns channel 0, 1 or 2.
func (t triple) channel(c int) uint16 { return uint16(t >> (c * tripleLane)) }

// halvedTaps is how many neighbours make one sample of half as many.
const halvedTaps = 6

// halved makes one sample of six neighbours by the weights 1 5 10 10 5 1 of 32, which keep
// out what half as many samples can't hold.
func halved(a, b, c, d, e, f triple) triple {
	return (a + f + 5*(b+e) + 10*(c+d) + 16*tripleOnes) >> 5 & tripleMask
}

// doubled makes a sample, in the half of here's place that is nearer to near, by the same
// weights turned round.
func doubled(far, here, near triple) triple {
	return (far + 10*here + 5*near + 8*tripleOnes) >> 4 & tripleMask
}

// halvedReach is how many samples beyond either end of a picture half as many samples reach,
// to where nothing is left but the last pixel, repeated.
const halvedReach = 3

// halvedCount returns how many samples, the reach included, stand for count pixels.
func halvedCount(count int) int { return count/2 + 2*halvedReach - 1 }

// halvedBefore returns the first of the pixels that make sample i.
func halvedBefore(i int) int { return 2*(i-halvedReach) - (halvedTaps/2 - 1) }

// halvingVariance is what halving and doubling together add to a blur's variance, in samples
// before the halving: 5/4 each, since their weights are a binomial's of five tosses.
const halvingVariance = 2 * 5.0 / 4
