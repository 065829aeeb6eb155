package analysis

// triple is linear light of three channels in one word, so that one addition, or one
// multiplication by a small number, serves all three: 16 bits each, with room for 5 more.
type triple uint64

const (
	tripleLane = 21
	tripleOnes = 1 | 1<<tripleLane | 1<<(2*tripleLane)
	tripleMask = linearWhite * tripleOnes
)

func newTriple(r, g, b uint16) triple {
	return triple(r) | triple(g)<<tripleLane | triple(b)<<(2*tripleLane)
}

// channel returns channel 0, 1 or 2.
func (t triple) channel(c int) uint16 { return uint16(t >> (c * tripleLane)) }

// halved makes one sample of six neighbours: the weights 1 5 10 10 5 1 of 32, which keep out
// what half as many samples can't hold.
func halved(row []triple) triple {
	_ = row[5]
	return (row[0] + row[5] + 5*(row[1]+row[4]) + 10*(row[2]+row[3]) + 16*tripleOnes) >> 5 & tripleMask
}

// doubled makes two samples, left and right, in the place of the middle one of three, by the
// same weights turned round.
func doubled(before, here, after triple) (left, right triple) {
	here = 10*here + 8*tripleOnes
	return (5*before + here + after) >> 4 & tripleMask, (before + here + 5*after) >> 4 & tripleMask
}

// The rows of a picture in half as many samples reach 3 samples beyond either end, to where
// nothing is left but the last pixel, repeated.
const halvedReach = 3

// halvedCount returns how many samples, the reach included, stand for count pixels.
func halvedCount(count int) int { return count/2 + 2*halvedReach - 1 }

// halvingVariance is what halving and doubling together add to a blur's variance, in samples
// before the halving: 5/4 each, since their weights are a binomial's of five tosses.
const halvingVariance = 2 * 5.0 / 4
