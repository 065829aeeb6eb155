package dots

import "app.tonedesk/analysis/internal/fixed"

// DotStep is the distance of the dots, across and down; every other row is shifted by
// half of it.
const DotStep = 8

// DotSize is the side of a dot, in pixels.
const DotSize = 2

// The greys of dots, L* 10 and 90: on the ground that each is used on, at least 40 apart.
const (
	darkDot  = 0x1b // L* 10
	LightDot = 0xe2 // L* 90
)

// DotShift returns how far the dots of row y are shifted to the left.
func DotShift(y int) int { return y / (DotStep / 2) % 2 * (DotStep / 2) }

// DrawDot makes a pixel part of a dot.
func DrawDot(pixel []byte) {
	grey := uint8(LightDot)
	if fixed.Bins.Of(pixel[0], pixel[1], pixel[2]) >= 128 {
		grey = darkDot
	}
	pixel[0], pixel[1], pixel[2] = grey, grey, grey
}
