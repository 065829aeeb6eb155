package families

import "app.tonedesk/analysis/internal/pool"

// depthUnit is a cell in measureDepth.
const depthUnit = 3

// measureDepth measures how far each cell lies from the nearest cell that is thin or has
// another mark, in thirds of a cell (the chamfer distance 3-4 of DEPTH). What lies outside
// the picture counts as alike.
func (f *Finder) measureDepth(marks []uint8) {
	const far = 1 << 12
	p, w := &f.planes, f.source.across
	p.depth = pool.Resized(p.depth, len(marks))
	for i := range p.depth {
		p.depth[i] = far
		if p.thin[i] != 0 {
			p.depth[i] = 0
		}
	}
	for y := range f.source.down {
		for x := range w {
			f.nearer(marks, y*w+x, x, -1, y > 0)
		}
	}
	for y := f.source.down - 1; y >= 0; y-- {
		for x := w - 1; x >= 0; x-- {
			f.nearer(marks, y*w+x, x, 1, y+1 < f.source.down)
		}
	}
}

// nearer lessens a cell's depth by those of the four neighbours that lie before it, or
// behind it, in the order of rows.
func (f *Finder) nearer(marks []uint8, i, x, way int, row bool) {
	const straight, diagonal = depthUnit, 4
	w, d := f.source.across, f.planes.depth
	own, best := marks[i], d[i]
	look := func(k int, by int32) {
		if marks[k] == own {
			by += d[k]
		}
		best = min(best, by)
	}
	left, right := x > 0, x+1 < w
	if way < 0 && left || way > 0 && right {
		look(i+way, straight)
	}
	if row {
		beside := i + way*w
		look(beside, straight)
		if left {
			look(beside-1, diagonal)
		}
		if right {
			look(beside+1, diagonal)
		}
	}
	d[i] = best
}
