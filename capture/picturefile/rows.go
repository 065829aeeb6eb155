package picturefile

import (
	"image"
	"image/color"
	"image/draw"
)

// straightRows returns img as RGBA rows with straight alpha, size pixels without gaps,
// laid where img's bounds put it; what it leaves free is transparent. It may take over img's
// memory.
func straightRows(img image.Image, size image.Point) []byte {
	canvas := image.Rectangle{Max: size}
	pix := memoryOf(img, canvas)
	own := pix == nil
	if own {
		pix = make([]byte, pixelBytes*size.X*size.Y)
	}
	switch m := img.(type) {
	case *image.NRGBA:
		if own {
			straighten(pix, m, canvas)
		}
	case *image.RGBA:
		if own || !m.Opaque() {
			straighten(pix, m, canvas)
		}
	case *image.YCbCr, *image.Gray: // opaque: multiplied or straight is one
		draw.Draw(&image.RGBA{Pix: pix, Stride: pixelBytes * size.X, Rect: canvas}, canvas, m, image.Point{}, draw.Src)
	case *image.Paletted:
		spread(pix, m, canvas)
	case image.RGBA64Image:
		straighten(pix, m, canvas)
	}
	return pix
}

// memoryOf returns the memory of an image whose pixels lie as ours do, else nil.
func memoryOf(img image.Image, canvas image.Rectangle) []byte {
	var p image.NRGBA
	switch m := img.(type) {
	case *image.NRGBA:
		p = *m
	case *image.RGBA:
		p = image.NRGBA(*m)
	case *image.CMYK:
		p = image.NRGBA(*m)
	}
	if p.Rect != canvas || p.Stride != pixelBytes*canvas.Max.X {
		return nil
	}
	return p.Pix[:pixelBytes*canvas.Max.X*canvas.Max.Y]
}

// straighten writes img's pixels inside canvas to pix, the colours divided by their alpha.
func straighten(pix []byte, img image.RGBA64Image, canvas image.Rectangle) {
	b := img.Bounds().Intersect(canvas)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		row := pix[4*(y*canvas.Max.X+b.Min.X):]
		for x := b.Min.X; x < b.Max.X; x++ {
			c := img.RGBA64At(x, y)
			alpha := uint32(c.A)
			row[0], row[1], row[2] = divided(c.R, alpha), divided(c.G, alpha), divided(c.B, alpha)
			row[3] = divided(c.A, 0xffff)
			row = row[4:]
		}
	}
}

// spread writes the colours of img's codes inside canvas to pix. Codes outside the palette are
// transparent.
func spread(pix []byte, img *image.Paletted, canvas image.Rectangle) {
	var table [256][4]byte
	for i, c := range img.Palette[:min(256, len(img.Palette))] {
		n := color.NRGBAModel.Convert(c).(color.NRGBA)
		table[i] = [4]byte{n.R, n.G, n.B, n.A}
	}
	b := img.Rect.Intersect(canvas)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		row := pix[4*(y*canvas.Max.X+b.Min.X):]
		for i, code := range img.Pix[img.PixOffset(b.Min.X, y):][:b.Dx()] {
			copy(row[4*i:4*i+4], table[code][:])
		}
	}
}

// divided returns 255 v/a, rounded and at most 255; 0 where a is.
func divided(v uint16, a uint32) byte {
	switch a {
	case 0:
		return 0
	case 0xffff: // far quicker by a constant
		return byte((uint32(v)*255 + 0xffff/2) / 0xffff)
	}
	return byte(min((uint32(v)*255+a/2)/a, 255))
}
