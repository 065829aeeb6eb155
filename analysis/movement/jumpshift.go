package movement

// shiftReach is how far a shift is looked for, as a share of width and height; shiftNoise,
// squared steps of lightness, is added to what is compared, so that two plain grounds don't
// fit too well; shiftTops is how many shifts of the coarsest cells are looked at closer;
// shiftSmall is how far, in cells, a small shift is looked for at a finer level, shiftNear up
// to where none is left out.
const (
	shiftReach = 0.6
	shiftNoise = 4.0
	shiftTops  = 3
	shiftSmall = 4
	shiftNear  = 6
)

// shift is one by whole cells, and what part of the change it leaves.
type shift struct {
	dx, dy int
	left   float32
}

func (s shift) motion() motion { return motion{x: float64(s.dx), y: float64(s.dy)} }

// bestShift returns the shift that fits best, in cells of the level given: that found at the
// coarsest level, or a small one, looked at closer.
func bestShift(before, now *cellPyramid, level int) motion {
	m := shiftBetween(before.coarse(), now.coarse(), before.coarse())
	if level == now.levels-1 {
		return m.motion()
	}
	b, n := &before.plane[level], &now.plane[level]
	best := closer(b, n, b, shift{left: 1}, shiftSmall, 2)
	if c := closer(b, n, b, shift{2 * m.dx, 2 * m.dy, 1}, 2, 2); c.left < best.left {
		best = c
	}
	return best.motion()
}

// closer looks for a better shift around one, up to so many cells off.
func closer(moved, now, before *cellPlane, around shift, off, step int) shift {
	best := around
	for dy := around.dy - off; dy <= around.dy+off; dy++ {
		for dx := around.dx - off; dx <= around.dx+off; dx++ {
			if left := shiftLeft(moved, now, before, dx, dy, step); left < best.left {
				best = shift{dx, dy, left}
			}
		}
	}
	return best
}

// shiftBetween returns the shift by whole cells with which moved looks most like now, in
// proportion to how much now differs from before: each of the near ones and every second far
// one, then the best few closer.
func shiftBetween(moved, now, before *cellPlane) shift {
	var tops [shiftTops]shift
	for i := range tops {
		tops[i].left = 1
	}
	reachX, reachY := int(shiftReach*float64(now.across)), int(shiftReach*float64(now.down))
	for dy := -reachY; dy <= reachY; dy++ {
		for dx := -reachX; dx <= reachX; dx++ {
			step := 1
			if max(dx, -dx, dy, -dy) > shiftNear {
				step = 2
			}
			if dx%step != 0 || dy%step != 0 ||
				(now.across-max(dx, -dx))*(now.down-max(dy, -dy)) < int(jumpShown*float64(len(now.v))) {
				continue
			}
			s := shift{dx, dy, shiftLeft(moved, now, before, dx, dy, step)}
			for i := range tops {
				if s.left < tops[i].left {
					tops[i], s = s, tops[i]
				}
			}
		}
	}
	best := shift{left: 1}
	for _, s := range tops {
		if s = closer(moved, now, before, shift{s.dx, s.dy, 1}, 1, 1); s.left < best.left {
			best = s
		}
	}
	return best
}

// shiftLeft returns the part of the change that a shift leaves: now's cell (x, y) is
// compared with moved's cell (x+dx, y+dy), every step-th cell.
func shiftLeft(moved, now, before *cellPlane, dx, dy, step int) float32 {
	var left, change float32
	count := 0
	for y := max(-dy, 0); y < now.down-max(dy, 0); y += step {
		from, old, row := moved.row(y+dy), before.row(y), now.row(y)
		for x := max(-dx, 0); x < now.across-max(dx, 0); x += step {
			l, c := row[x]-from[x+dx], row[x]-old[x]
			left, change = left+l*l, change+c*c
			count++
		}
	}
	noise := shiftNoise * float32(count)
	return (left + noise) / (change + noise)
}
