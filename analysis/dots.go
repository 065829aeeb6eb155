package analysis

// dotStep is the distance of the dots, across and down; every other row is shifted by
// half of it.
const dotStep = 8

// dotSize is the side of a dot, in pixels.
const dotSize = 2

// The greys of dots, L* 10 and 90: on the ground that each is used on, at least 40 apart.
const (
	darkDot  = 0x1b // L* 10
	lightDot = 0xe2 // L* 90
)

// dotShift returns how far the dots of row y are shifted to the left.
func dotShift(y int) int { return y / (dotStep / 2) % 2 * (dotStep / 2) }

// drawDot makes a pixel part of a dot.
func drawDot(pixel []byte) {
	grey := uint8(lightDot)
	if planeTables.bin(pixel[0], pixel[1], pixel[2]) >= 128 {
		grey = darkDot
	}
	pixel[0], pixel[1], pixel[2] = grey, grey, grey
}
