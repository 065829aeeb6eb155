package workspace

// rays is from how many places along a side the canvas is looked for.
const rays = 64

// rayStep is how many pixels a ray goes at once: what is narrower is no canvas.
const rayStep = 8

// straight is the part of the rays that meet anything which must meet it at one distance.
const straight = 0.85

// edgeOf finds how far from a side the canvas lies, as rays from the surround's opening meet it.
// met is the part of those that meet anything which meet it there.
func borderOf(s *side, of code, which int, open distances) (inward int, met float64) {
	var hits [rays]int
	from, to := open.span(which, s.length)
	depth := s.depth - open[opposite(which)]
	n := 0
	for i := range rays {
		if hit := s.ray(of, from+(2*i+1)*(to-from)/(2*rays), open[which], depth); hit < depth {
			hits[n] = hit
			n++
		}
	}
	best := 0
	for _, at := range hits[:n] {
		count := 0
		for _, other := range hits[:n] {
			if other >= at-1 && other <= at+1 {
				count++
			}
		}
		if count > best || count == best && at < inward {
			inward, best = at, count
		}
	}
	return s.sharpest(of, inward, from, to, depth), float64(best) / float64(max(n, 1))
}

// opposite is the side that lies opposite one.
func opposite(which int) int { return (which + 2) % sides }

// ray goes inward from open as far as the surround's colour goes, and returns where that ends;
// depth if it goes through.
func (s *side) ray(of code, along, open, depth int) int {
	for d := open; d < depth; d += rayStep {
		if s.at(along, d).apart(of) <= near {
			continue
		}
		for d > open && s.at(along, d-1).apart(of) > near {
			d--
		}
		return d
	}
	return depth
}

// sharpest returns the line within a pixel of another at which most of the surround ends: the
// rays are within a pixel of each other.
func (s *side) sharpest(of code, inward, from, to, depth int) int {
	best, most := inward, -1
	for d := max(inward-1, 1); d <= min(inward+1, depth-1); d++ {
		ends := 0
		for i := range lineSamples {
			if along := sampleAt(i, from, to); s.at(along, d-1).apart(of) <= near && s.at(along, d).apart(of) > near {
				ends++
			}
		}
		if ends > most {
			best, most = d, ends
		}
	}
	return best
}
