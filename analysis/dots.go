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

// DotOut draws even neutral dots over the pixels of src that are left out, into dst as a
// view painted it. A dot is dark on a light ground and light on a dark one.
func DotOut(dst []byte, src *Reduced) {
	for y := range src.Height {
		if y%(dotStep/2) >= dotSize {
			continue
		}
		shift := y / (dotStep / 2) % 2 * (dotStep / 2)
		left := src.Left[y*src.Width:][:src.Width]
		row := dst[pixelBytes*y*src.Width:][:pixelBytes*src.Width]
		for x, out := range left {
			if out == 0 || (x+shift)%dotStep >= dotSize {
				continue
			}
			q := row[pixelBytes*x:][:pixelBytes]
			grey := uint8(lightDot)
			if planeTables.bin(q[0], q[1], q[2]) >= 128 {
				grey = darkDot
			}
			q[0], q[1], q[2] = grey, grey, grey
		}
	}
}
