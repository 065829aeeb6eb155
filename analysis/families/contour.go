package families

import "math"

// Ways along the border of a cell, clockwise: along its upper side to the right, along its right
// side down, along its foot to the left, along its left side up. What is bounded lies at the right.
const (
	eastward = iota
	southward
	westward
	northward
	ways
)

var wayStep = [ways][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}

// crack is the border between a cell and the one at the left of the way.
type crack struct {
	in  int32
	out int32 // the cell beyond; noCell outside of the picture
	way uint8
}

const noCell = -1

// What a border is followed around, as bits of forms.seen.
const (
	wholeForm = 1 << iota
	oneSide
)

// trail is a border as it is followed, and places on it.
type trail struct {
	cracks []crack
	turns  int // to the right, less those to the left: 4 around the outside of something, -4 around a hole
	at     []spotAt
	length []float64 // of each place's part of the way, cells
}

// spotAt is a place in cells from the picture's top left.
type spotAt struct{ x, y float64 }

// same reports whether cell k is of the same as cell i: form, or form and side.
func (w *forms) same(i, k int32, what uint8) bool {
	if what == wholeForm {
		return w.of[k]>>1 == w.of[i]>>1
	}
	return w.of[k] == w.of[i]
}

// begins reports whether a border that wasn't followed yet runs up the left side of a cell, and
// follows it into the trail.
func (w *forms) begins(across int, i int32, what uint8) bool {
	if w.seen[i]&what != 0 || int(i)%across > 0 && w.same(i, i-1, what) {
		return false
	}
	w.follow(across, i, what)
	return true
}

// follow follows the border that runs up the left side of a cell. Cells that touch at a corner
// alone don't hang together.
func (w *forms) follow(across int, first int32, what uint8) {
	t, down := &w.trail, len(w.of)/across
	t.cracks, t.turns = t.cracks[:0], 0
	cell := func(i int32, way int) int32 {
		x, y := int(i)%across+wayStep[way][0], int(i)/across+wayStep[way][1]
		if x < 0 || y < 0 || x >= across || y >= down {
			return noCell
		}
		return int32(y*across + x)
	}
	in := func(k int32) bool { return k != noCell && w.same(first, k, what) }
	i, way := first, northward
	for {
		if way == northward {
			if w.seen[i]&what != 0 {
				return
			}
			w.seen[i] |= what
		}
		left := (way + ways - 1) % ways
		t.cracks = append(t.cracks, crack{i, cell(i, left), uint8(way)})
		ahead := cell(i, way)
		if !in(ahead) {
			way = (way + 1) % ways
			t.turns++
			continue
		}
		if i = ahead; in(cell(i, left)) {
			i, way = cell(i, left), left
			t.turns--
		}
	}
}

// smoothing is how many borders to either side a place of a trail is the mean of: steps of cells
// are no part of an edge's way (our choice).
const smoothing = 3

// place fills in the places along cracks from to to of a trail, and how long each one's part of the
// way is; closed says that it runs in a ring.
func (t *trail) place(cracks []crack, across int, closed bool) {
	n := len(cracks)
	t.at, t.length = t.at[:0], t.length[:0]
	middle := func(k int) spotAt {
		c := cracks[k]
		x, y := float64(int(c.in)%across)+0.5, float64(int(c.in)/across)+0.5
		left := wayStep[(c.way+ways-1)%ways]
		return spotAt{x + float64(left[0])/2, y + float64(left[1])/2}
	}
	for k := range n {
		var sum spotAt
		reach := smoothing
		if !closed {
			reach = min(reach, k, n-1-k)
		}
		reach = min(reach, (n-1)/2)
		for j := k - reach; j <= k+reach; j++ {
			p := middle((j + n) % n)
			sum.x, sum.y = sum.x+p.x, sum.y+p.y
		}
		count := float64(2*reach + 1)
		t.at = append(t.at, spotAt{sum.x / count, sum.y / count})
	}
	for k := range n {
		t.length = append(t.length, (t.apart(k, k-1, closed)+t.apart(k, k+1, closed))/2)
	}
}

// apart returns how far two places of a trail are apart that follow each other, in cells; where it
// ends, half of a cell on either side.
func (t *trail) apart(k, j int, closed bool) float64 {
	n := len(t.at)
	if j < 0 || j >= n {
		if !closed {
			return 1
		}
		j = (j + n) % n
	}
	return math.Hypot(t.at[k].x-t.at[j].x, t.at[k].y-t.at[j].y)
}
