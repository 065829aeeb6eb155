package edges

import "app.tonedesk/analysis/internal/fixed"

// cellLab is 1 of L*, a* and b* in a cell.
const cellLab = 64

// cell is L*, and how far a* and b* lie above lowest, in 1/cellLab, and whether it is left out: 16
// bits each, of which a side's cells fill no more when they are added up. So that is one addition.
type cell uint64

const partBits = 16

// leftOut is set in a cell that is left out.
const leftOut = cell(1) << (3 * partBits)

// lowest is less than any a* or b* of sRGB; none of them is as far above 0 (computed).
const lowest = -128 * cellLab

// part returns L*, or how far a* or b* lies above lowest, of a cell or of cells added up.
func (c cell) part(of int) int64 { return int64(c >> (partBits * of) & (1<<partBits - 1)) }

// left reports whether a cell, or one of cells added up, is left out.
func (c cell) left() bool { return c >= leftOut }

// cellOf returns light as a cell, within 0.02 of its L*a*b*.
func cellOf(linear []uint16) cell {
	r, g, b := uint32(linear[0]), uint32(linear[1]), uint32(linear[2])
	w := &fixed.LabWeights
	x := int64(fixed.LabRoots.Of(r*w[0][0] + g*w[0][1] + b*w[0][2]))
	y := int64(fixed.LabRoots.Of(r*w[1][0] + g*w[1][1] + b*w[1][2]))
	z := int64(fixed.LabRoots.Of(r*w[2][0] + g*w[2][1] + b*w[2][2]))
	const half = fixed.LabUnit / 2
	return cell((116*cellLab*y+half)>>fixed.LabBits-16*cellLab) |
		cell((500*cellLab*(x-y)+half)>>fixed.LabBits-lowest)<<partBits |
		cell((200*cellLab*(y-z)+half)>>fixed.LabBits-lowest)<<(2*partBits)
}

// squares are those of a cell's L* in the lower half, and of its a* and b* together in the upper.
type squares uint64

func (c cell) squares() squares {
	l, a, b := c.part(0), c.part(1)+lowest, c.part(2)+lowest
	return squares(l*l) | squares(a*a+b*b)<<32
}

// side is the cells beside a border, added up.
type side struct {
	sum     cell
	squares squares
}

// side adds up the cells beside a border: the first, and those that lead inside, up and down.
func (f *Finder) side(i, inside, up, down int) side {
	c, s := f.cells, f.squares
	return side{c[i] + c[i+inside] + c[i+up] + c[i+down], s[i] + s[i+inside] + s[i+up] + s[i+down]}
}

// spread returns the cells' variance in L*, or in a* and b* together, times sideCells - 1 and squared
// sideCells.
func (s side) spread(by candidate) int64 {
	if by == byLightness {
		l := s.sum.part(0)
		return sideCells * (sideCells*int64(s.squares&(1<<32-1)) - l*l)
	}
	a, b := s.sum.part(1)+sideCells*lowest, s.sum.part(2)+sideCells*lowest
	return sideCells * (sideCells*int64(s.squares>>32) - a*a - b*b)
}
