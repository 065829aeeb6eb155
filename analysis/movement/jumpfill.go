package movement

// curveBins is by how many steps of lightness a curve or a fill is looked for.
const curveBins = 64

// fillBorder is how many of 25 cells around a fill's border lie on each side at least; what
// lies between them is blurred.
const fillBorder = 4

// curveBin returns the step of a cell's lightness.
func curveBin(v float32) int { return min(int(v)*curveBins/256, curveBins-1) }

// curveLeft returns which part of a change is left unexplained if the new lightness follows
// from the old one, as after a change of levels or a plain layer over all.
func curveLeft(before, now *cellPlane, box cellBox) float64 {
	var sum, square [curveBins]float64
	var count [curveBins]int
	change := 0.0
	for y := box.y0; y < box.y1; y++ {
		was, is := before.row(y), now.row(y)
		for x := box.x0; x < box.x1; x++ {
			d := float64(is[x] - was[x])
			bin := curveBin(was[x])
			sum[bin] += d
			square[bin] += d * d
			count[bin]++
			change += d * d
		}
	}
	left := 0.0
	for b, n := range count {
		if n > 0 {
			left += square[b] - sum[b]*sum[b]/float64(n)
		}
	}
	return left / max(change, 1)
}

// filled reports whether all that has changed is that some part now has one tone: most of
// what has changed has it, and new edges run along its border with what has not changed.
func filled(before, now *cellPlane, box cellBox) bool {
	var bins [curveBins]int
	box = box.within(now)
	count, tone := 0, 1
	for y := box.y0; y < box.y1; y++ {
		for x := box.x0; x < box.x1; x++ {
			if i := y*now.across + x; changedBy(before, now, i, jumpChange) {
				count++
				bins[curveBin(now.v[i])]++
			}
		}
	}
	for i := 2; i < curveBins; i++ {
		if bins[i-1]+bins[i] > bins[tone-1]+bins[tone] {
			tone = i
		}
	}
	if float64(bins[tone-1]+bins[tone]) < jumpOneTone*float64(count) {
		return false
	}
	edges, loose := 0, 0
	for y := box.y0; y < box.y1; y++ {
		for x := box.x0; x < box.x1; x++ {
			if i := y*now.across + x; now.edge(i) && !edgesAlike(before, now, i) {
				edges++
				if !bounds(before, now, x, y, tone) {
					loose++
				}
			}
		}
	}
	return float64(loose) <= jumpLoose*float64(edges)
}

// bounds reports whether a cell lies between what has changed to a tone, the step given or
// the one below, and what has not changed, up to six cells off: so wide is a blurred edge.
func bounds(before, now *cellPlane, x, y, tone int) bool {
	inside, outside := 0, 0
	for yy := y - 6; yy <= y+6; yy += 3 {
		for xx := x - 6; xx <= x+6; xx += 3 {
			if xx < 0 || yy < 0 || xx >= now.across || yy >= now.down {
				continue
			}
			i := yy*now.across + xx
			if !changedBy(before, now, i, jumpChange) {
				outside++
			} else if bin := curveBin(now.v[i]); bin == tone || bin == tone-1 {
				inside++
			}
		}
	}
	return min(inside, outside) >= fillBorder
}
