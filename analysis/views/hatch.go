package views

import (
	"encoding/binary"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/fixed"
	"app.tonedesk/analysis/reduce"
)

// hatchStep is how far the lines of a hatching are from each other, in pixels across and down (our
// choice: the picture is still seen between them).
const hatchStep = 8

// What is left out is laid half transparently under a middle grey, and hatched by thin lines that
// rise to the right, half transparent too: dark ones on a light ground, light ones on a dark one (our
// choice: the picture is still seen there, and plainly not counted).
const (
	hatchDark  = 0x10
	hatchLight = 0xf0
)

// veil is the greys of 8 bits as they are seen through half of a middle grey.
var veil = func() (through [256]uint8) {
	middle := int(colour.GreyOf(50))
	for v := range through {
		through[v] = uint8((v + middle + 1) / 2)
	}
	return through
}()

// HatchMask veils and hatches the pixels of src that are left out, in dst as a view painted it.
func HatchMask(dst []byte, src *reduce.Picture) {
	for y := range src.Height {
		left := src.Left[y*src.Width:][:src.Width]
		row := dst[analysis.PixelBytes*y*src.Width:]
		for x := 0; x < len(left); x++ {
			if x+8 <= len(left) && binary.LittleEndian.Uint64(left[x:]) == 0 { // mostly nothing is left out
				x += 7
				continue
			}
			if left[x] == 0 {
				continue
			}
			pixel := row[analysis.PixelBytes*x:][:3]
			pixel[0], pixel[1], pixel[2] = veil[pixel[0]], veil[pixel[1]], veil[pixel[2]]
			if (x+y)%hatchStep == 0 {
				hatchVeiled(pixel)
			}
		}
	}
}

// hatchVeiled makes a veiled pixel part of a line.
func hatchVeiled(pixel []byte) {
	ink := hatchLight
	if fixed.Bins.Of(pixel[0], pixel[1], pixel[2]) >= 128 {
		ink = hatchDark
	}
	for i, v := range pixel {
		pixel[i] = uint8((int(v) + ink) / 2)
	}
}
