package analysis

import (
	"math"
	"sync"

	"app.tonedesk/analysis/colour"
)

// binSums are a histogram's running sums: entry i covers the bins below i. Whole numbers,
// so that any stretch of bins is exact.
type binSums struct {
	pixels  [257]int
	bins    [257]int   // each pixel's bin number added up
	squares [257]int   // its square
	filled  [256]uint8 // the filled bins, in order
	kinds   int        // how many there are

	deep   bool     // of 16 bits: means go by places
	places [257]int // what the places of each pixel's lightness add up to
}

func (s *binSums) set(histogram *[256]int) {
	s.kinds, s.deep = 0, false
	for bin, n := range histogram {
		s.pixels[bin+1] = s.pixels[bin] + n
		s.bins[bin+1] = s.bins[bin] + bin*n
		s.squares[bin+1] = s.squares[bin] + bin*bin*n
		if n > 0 {
			s.filled[s.kinds] = uint8(bin)
			s.kinds++
		}
	}
}

// setPlaces makes means go by 16 bits: places are of so many pixels, of which those that were set may
// be a part; its mean in each bin is taken to be that of all there.
func (s *binSums) setPlaces(places, of *[256]int) {
	s.deep = true
	for bin, sum := range places {
		if n := s.pixels[bin+1] - s.pixels[bin]; n != of[bin] {
			sum = int(math.Round(float64(sum) * float64(n) / float64(max(1, of[bin]))))
		}
		s.places[bin+1] = s.places[bin] + sum
	}
}

// mean returns the mean lightness of the bins from begin up to, without, end; NaN if they are empty.
func (s *binSums) mean(begin, end int) float64 {
	n := s.pixels[end] - s.pixels[begin]
	if s.deep {
		return lightnessOfPlaces(s.places[end]-s.places[begin], n)
	}
	return colour.LightnessOfBins(s.bins[end]-s.bins[begin], n)
}

func (s *binSums) count() int { return s.pixels[256] }

// centre returns a bin next to the mean: sums taken from it stay small, so that little of
// float64's precision is spent on what all splits have in common.
func (s *binSums) centre() int { return s.bins[256] / max(1, s.pixels[256]) }

// spread returns pixels * (mean - centre)² of the bins from begin up to, without, end: what
// a group adds to the between-class variance.
func (s *binSums) spread(begin, end, centre int) float64 {
	n := s.pixels[end] - s.pixels[begin]
	if n == 0 {
		return 0
	}
	sum := float64(s.bins[end] - s.bins[begin] - centre*n)
	return sum * sum / float64(n)
}

// separability returns the between-class over the total variance for thresholds; NaN if
// all pixels lie in one bin.
func (s *binSums) separability(thresholds []int) float64 {
	if s.kinds < 2 {
		return math.NaN()
	}
	centre, n := s.centre(), s.count()
	off := s.spread(0, 256, centre) // the centre is not quite the mean
	total := float64(s.squares[256]-2*centre*s.bins[256]+centre*centre*n) - off
	between, begin := -off, 0
	for _, t := range thresholds {
		between += s.spread(begin, t+1, centre)
		begin = t + 1
	}
	between += s.spread(begin, 256, centre)
	return between / total
}

// bestSplits finds the thresholds with the greatest between-class variance for 2, 3 and 4
// groups (Otsu 1979; for several thresholds Liao, Chen and Chung 2001), exactly, by dynamic
// programming over the filled bins: the best split of the bins up to j into g groups ends
// with a group from some i to j and the best split of the bins below i into g - 1.
//
// A border may lie anywhere in the empty bins between two groups: it takes the middle,
// rounded down. Where quite different splits are equally good, as far as float64 tells, one
// of them is taken, for the same histogram always the same.
func (s *binSums) bestSplits(splits *[3]Split) {
	var best [MaxGroups][257]float64 // best[g][j]: the first j filled bins in g + 1 groups
	var start [MaxGroups][257]int16  // where the last of these groups begins
	centre := s.centre()
	for j := 1; j <= s.kinds; j++ {
		end := int(s.filled[j-1]) + 1
		best[0][j] = s.spread(0, end, centre)
		for i := 1; i < j; i++ {
			last := s.spread(int(s.filled[i]), end, centre)
			for g := 1; g < min(MaxGroups, i+1); g++ {
				if sum := best[g-1][i] + last; sum > best[g][j] { // two groups' means differ: above 0
					best[g][j], start[g][j] = sum, int16(i)
				}
			}
		}
	}
	for i := range splits {
		split := &splits[i]
		split.count = min(i+2, s.kinds)
		j := s.kinds
		for g := split.count - 1; g > 0; g-- {
			j = int(start[g][j])
			darker, lighter := int(s.filled[j-1]), int(s.filled[j])
			split.thresholds[g-1] = (darker + lighter - 1) / 2
		}
	}
}

// binValues returns the value, 0 to 10, of every bin's lightness.
var binValues = sync.OnceValue(func() *[256]float64 {
	values := new([256]float64)
	for bin := range values {
		values[bin] = colour.Value(colour.LightnessOfBins(bin, 1))
	}
	return values
})
