package ink

import (
	"image"
	"image/draw"
)

// overwrite has the rasterizer replace what the mask held.
const overwrite = draw.Src

// blendRow lays a grey over a row of pixels, as much of it as mask says (0 to 255): simple
// alpha compositing on encoded values (W3C Compositing and Blending Level 1), rounded.
func blendRow(row, mask []uint8, grey uint8) {
	for i, a := range mask {
		if a != 0 {
			blend(row[4*i:][:4], grey, a)
		}
	}
}

// hatchRow lays the lines of a hatch over a row whose first pixel is at.
func hatchRow(row, mask []uint8, h Hatch, at image.Point) {
	for i, a := range mask {
		if grey, line := h.at(at.X+i, at.Y); line && a != 0 {
			blend(row[4*i:][:4], grey, a)
		}
	}
}

func blend(q []uint8, grey, alpha uint8) {
	a, rest := int(alpha), 255-int(alpha)
	g := int(grey)*a + 127
	q[0] = uint8((g + int(q[0])*rest) / 255)
	q[1] = uint8((g + int(q[1])*rest) / 255)
	q[2] = uint8((g + int(q[2])*rest) / 255)
	q[3] = uint8((255*a + int(q[3])*rest + 127) / 255)
}
