package analysis

import "math"

// small is a picture made small, as its light: box averages in linear light.
type small struct {
	width, height int
	light         []uint32 // 0 to lightWhite
	left          []uint8  // 1 where most of the box is left out of the statistics

	src     *Reduced
	columns []column
	sums    []smallSums // one a worker
}

// smallSums is a worker's memory: a row of boxes.
type smallSums struct{ light, left []uint64 }

// take makes src small: its longer side becomes longer pixels, or stays if it is not longer.
func (s *small) take(src *Reduced, longer int) {
	s.width, s.height = smallSize(src.Width, src.Height, longer)
	s.light, s.left = resized(s.light, s.width*s.height), resized(s.left, s.width*s.height)
	if s.width == 0 {
		return
	}
	s.src, s.columns = src, setColumns(s.columns, src.Width, s.width)
	s.sums = resized(s.sums, src.working().workers())
	src.work.do(s, s.height)
	s.src = nil // the picture isn't ours to keep
}

// smallSize returns the size of a picture whose longer side becomes longer pixels.
func smallSize(width, height, longer int) (smallWidth, smallHeight int) {
	whole := max(width, height)
	if whole <= longer {
		return width, height
	}
	by := func(side int) int { return min(side, max(1, (2*side*longer+whole)/(2*whole))) }
	return by(width), by(height)
}

func (s *small) rows(worker, from, to int) {
	sums := &s.sums[worker]
	sums.light, sums.left = resized(sums.light, s.width), resized(sums.left, s.width)
	area := uint64(s.src.Width) * uint64(s.src.Height) // of a box, in parts of a pixel
	for y := from; y < to; y++ {
		s.sumRow(sums, y)
		for x := range s.width {
			s.light[y*s.width+x] = uint32((sums.light[x] + area/2) / area)
			s.left[y*s.width+x] = 0
			if 2*sums.left[x] >= area {
				s.left[y*s.width+x] = 1
			}
		}
	}
}

// sumRow adds up the pixels that lie in the boxes of row y, by area.
func (s *small) sumRow(sums *smallSums, y int) {
	clear(sums.light)
	clear(sums.left)
	width, height := s.src.Width, s.src.Height
	for row := y * height / s.height; row*s.height < (y+1)*height; row++ {
		part := uint64(min((row+1)*s.height, (y+1)*height) - max(row*s.height, y*height))
		linear, left := s.src.Linear[3*row*width:][:3*width], s.src.Left[row*width:][:width]
		for x, c := range s.columns {
			add := func(at int, share uint64) {
				p := linear[3*at:][:3]
				sums.light[x] += share * uint64(lightOf(p[0], p[1], p[2]))
				sums.left[x] += share * uint64(left[at])
			}
			add(c.first, part*c.head)
			for at := c.first + 1; at <= c.first+c.full; at++ {
				add(at, part*uint64(s.width))
			}
			if c.tail > 0 {
				add(c.first+1+c.full, part*c.tail)
			}
		}
	}
}

// GapChange is what becomes of the gap between two neighbouring groups, in tones, when a
// picture is made small.
type GapChange struct {
	Whole  float64 // the gap in the whole picture
	Small  float64 // the gap in the small one; NaN if it has fewer groups
	Change float64 // Small minus Whole: negative where the groups draw nearer
}

// SmallGaps appends to dst what becomes of the gaps of the chosen groups of whole, from dark
// to light, when the picture's longer side is made longer pixels, in linear light. The small
// picture is split anew, into as many groups; edges set by hand stay where they are. src is
// the picture as reduced for the mirror; like a view's Paint, not twice at once for the same
// src.
func SmallGaps(dst []GapChange, src *Reduced, longer int, whole *Reading) []GapChange {
	s := memoryOf[small](src)
	s.take(src, longer)
	var histogram [256]int
	for i, light := range s.light {
		if s.left[i] == 0 {
			histogram[planeTables.bins.of(light)]++
		}
	}
	chosen, split := whole.Chosen(), memoryOf[smallSplit](src)
	split.set(&histogram, chosen, whole.chosen == chosenByHand)
	for i, gap := range chosen.Gaps() {
		change := GapChange{Whole: gap, Small: math.NaN()}
		if small := split.as(chosen); small != nil {
			change.Small = small.Gaps()[i]
		}
		change.Change = change.Small - change.Whole
		dst = append(dst, change)
	}
	return dst
}

// smallSplit is how a small picture's lightness is split.
type smallSplit struct {
	sums   binSums
	splits [3]Split
	byHand Split
	hand   bool
}

// set splits a histogram, by chosen's edges if they were set by hand.
func (s *smallSplit) set(histogram *[256]int, chosen *Split, byHand bool) {
	s.sums.set(histogram)
	if s.hand = byHand; byHand {
		s.byHand = Split{count: chosen.count, thresholds: chosen.thresholds}
		if s.sums.count() == 0 {
			s.byHand.count = 0
		}
		s.byHand.fill(&s.sums)
		return
	}
	s.sums.bestSplits(&s.splits)
	for i := range s.splits {
		s.splits[i].fill(&s.sums)
	}
}

// as returns the split into as many groups as chosen's, nil if there are fewer.
func (s *smallSplit) as(chosen *Split) *Split {
	split := &s.byHand
	if !s.hand {
		split = &s.splits[max(0, chosen.count-2)]
	}
	if split.count != chosen.count {
		return nil
	}
	return split
}
