package main

import (
	"image"
	"image/color"
	"image/draw"
)

// paintIcon draws the program's icon: two bars of grey standing on one line, as high
// as their lightness, the way the window shows a pair of spots. 256 by 256 pixels,
// neutral greys only, transparent outside a rounded ground.
func paintIcon() *image.NRGBA {
	const size = 256
	ground, light, shadow, foot := grey(0x3b), grey(0xc7), grey(0x7d), grey(0xf0)
	c := newCanvas(size, size, image.Transparent)
	c.fill(rounded(8, 8, 248, 248, 44), ground)
	c.fill(box(56, 60, 124, 196), light)
	c.fill(box(132, 112, 200, 196), shadow)
	c.fill(box(40, 196, 216, 206), foot)
	out := image.NewNRGBA(c.img.Bounds())
	draw.Draw(out, out.Bounds(), c.img, image.Point{}, draw.Src)
	return out
}

// grey is the opaque neutral colour of one encoded level.
func grey(level uint8) color.NRGBA { return color.NRGBA{level, level, level, 255} }
