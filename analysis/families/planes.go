package families

import (
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/internal/pool"
)

// cellLab is 1 in L*a*b* in familyPlanes: whole numbers add up the same in any order.
const (
	cellLabBits = 6
	cellLab     = 1 << cellLabBits
)

// familyPlanes are a picture's cells in L*a*b*, in 1/cellLab.
type familyPlanes struct {
	raw, flat [3][]int32 // as they are; without grain and with sharp edges
	thin      []uint8    // why a cell counts in no side, 0 for one that may
	depth     []int32    // see measureDepth
	noise     float64    // standard deviation of L* from cell to neighbour

	low, high []int32 // lightness without what is thin and light, and thin and dark
	row       []int32 // of square, between its passes
	even      evenSquares
}

// Why a cell counts in no side; they may come together.
const (
	thinCell   = 1 << iota // too narrow for a side: lines, glints
	bridgeCell             // of an accent that was an area of its own
	alienCell              // of a detail in a side
	halfCell               // of a half-tone
)

// smooth fills the planes from the source.
func (f *Finder) smooth() {
	s, p := &f.source, &f.planes
	n := s.across * s.down
	for c := range p.raw {
		p.raw[c], p.flat[c] = pool.Resized(p.raw[c], n), pool.Resized(p.flat[c], n)
	}
	f.rows(s.down, func(y int) { p.readRow(s.linear, y*s.across, s.across) })
	p.noise = noiseOf(p.raw[0], s.left, s.across, s.down)
	f.markThin()
	for c := range p.raw {
		copy(p.flat[c], p.raw[c])
	}
	for range evenRounds {
		f.evenOut()
	}
}

// readRow turns a row of light, of which LinearWhite is white, into L*a*b*.
func (p *familyPlanes) readRow(linear []uint16, first, count int) {
	w := &fixed.LabWeights
	for i := first; i < first+count; i++ {
		c := linear[3*i:][:3]
		r, g, b := uint32(c[0]), uint32(c[1]), uint32(c[2])
		fx := fixed.LabRoots.Of(r*w[0][0] + g*w[0][1] + b*w[0][2])
		fy := fixed.LabRoots.Of(r*w[1][0] + g*w[1][1] + b*w[1][2])
		fz := fixed.LabRoots.Of(r*w[2][0] + g*w[2][1] + b*w[2][2])
		p.raw[0][i] = inCellLab(116*int64(fy) - 16*fixed.LabUnit)
		p.raw[1][i] = inCellLab(500 * int64(fx-fy))
		p.raw[2][i] = inCellLab(200 * int64(fy-fz))
	}
}

// inCellLab turns a number in 1/LabUnit into one in 1/cellLab.
func inCellLab(v int64) int32 {
	const shift = fixed.LabBits - cellLabBits
	return int32((v + 1<<(shift-1)) >> shift)
}

// away returns the squared distance of two smoothed cells, in 1/cellLab².
func (p *familyPlanes) away(i, k int) int64 {
	l, a, b := int64(p.flat[0][i]-p.flat[0][k]), int64(p.flat[1][i]-p.flat[1][k]), int64(p.flat[2][i]-p.flat[2][k])
	return l*l + a*a + b*b
}
