package capture

import (
	"image"
	"image/color"
)

// straightRows returns img as RGBA rows with straight alpha, size pixels without gaps,
// laid where img's bounds put it; what it leaves free is transparent. Channels of 16
// bits are rounded to the nearest of 8. It may take over img's memory.
func straightRows(img image.Image, size image.Point) []byte {
	b := img.Bounds().Intersect(image.Rectangle{Max: size})
	whole := b.Size() == size
	switch m := img.(type) {
	case *image.NRGBA:
		if whole && m.Stride == 4*size.X && m.Rect == b {
			return m.Pix[:4*size.X*size.Y]
		}
	case *image.RGBA:
		if whole && m.Stride == 4*size.X && m.Rect == b {
			pix := m.Pix[:4*size.X*size.Y]
			unmultiply(pix, pix)
			return pix
		}
	}
	pix := make([]byte, 4*size.X*size.Y)
	row := rowReader(img)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		at := 4 * (y*size.X + b.Min.X)
		row(pix[at:at+4*b.Dx()], b.Min.X, y)
	}
	return pix
}

// rowReader returns a function that writes img's pixels from x, y on to dst.
func rowReader(img image.Image) func(dst []byte, x, y int) {
	switch m := img.(type) {
	case *image.NRGBA:
		return func(dst []byte, x, y int) { copy(dst, m.Pix[m.PixOffset(x, y):]) }
	case *image.RGBA:
		return func(dst []byte, x, y int) { unmultiply(dst, m.Pix[m.PixOffset(x, y):]) }
	case *image.NRGBA64:
		return func(dst []byte, x, y int) { highBytes(dst, m.Pix[m.PixOffset(x, y):]) }
	case *image.RGBA64:
		return func(dst []byte, x, y int) { unmultiply16(dst, m.Pix[m.PixOffset(x, y):]) }
	case *image.Gray:
		return func(dst []byte, x, y int) {
			for i, v := range m.Pix[m.PixOffset(x, y):][:len(dst)/4] {
				dst[4*i], dst[4*i+1], dst[4*i+2], dst[4*i+3] = v, v, v, 255
			}
		}
	case *image.Gray16:
		return func(dst []byte, x, y int) {
			src := m.Pix[m.PixOffset(x, y):]
			for i := 0; i < len(dst); i += 4 {
				v := to8(uint32(src[i/2])<<8 | uint32(src[i/2+1]))
				dst[i], dst[i+1], dst[i+2], dst[i+3] = v, v, v, 255
			}
		}
	case *image.Paletted:
		return palettedReader(m)
	case *image.YCbCr:
		return func(dst []byte, x, y int) { ycbcrRow(dst, m, x, y) }
	case *image.NYCbCrA:
		return func(dst []byte, x, y int) {
			ycbcrRow(dst, &m.YCbCr, x, y)
			for i, a := range m.A[m.AOffset(x, y):][:len(dst)/4] {
				dst[4*i+3] = a
			}
		}
	}
	return func(dst []byte, x, y int) { // CMYK and whatever decoders think of next
		for i := 0; i < len(dst); i += 4 {
			c := color.NRGBA64Model.Convert(img.At(x+i/4, y)).(color.NRGBA64)
			dst[i], dst[i+1] = to8(uint32(c.R)), to8(uint32(c.G))
			dst[i+2], dst[i+3] = to8(uint32(c.B)), to8(uint32(c.A))
		}
	}
}

// palettedReader turns the palette over once. Codes outside it are transparent.
func palettedReader(m *image.Paletted) func(dst []byte, x, y int) {
	var table [256][4]byte
	for i, c := range m.Palette[:min(256, len(m.Palette))] {
		n := color.NRGBAModel.Convert(c).(color.NRGBA)
		table[i] = [4]byte{n.R, n.G, n.B, n.A}
	}
	return func(dst []byte, x, y int) {
		for i, code := range m.Pix[m.PixOffset(x, y):][:len(dst)/4] {
			copy(dst[4*i:4*i+4], table[code][:])
		}
	}
}

// ycbcrRow converts with the JFIF matrix (ITU-T T.871), each chroma sample for all
// the pixels that share it.
func ycbcrRow(dst []byte, m *image.YCbCr, x, y int) {
	for i := 0; i < len(dst); i += 4 {
		yi, ci := m.YOffset(x+i/4, y), m.COffset(x+i/4, y)
		dst[i], dst[i+1], dst[i+2] = color.YCbCrToRGB(m.Y[yi], m.Cb[ci], m.Cr[ci])
		dst[i+3] = 255
	}
}

// unmultiply divides the colours of src by their alpha. dst may be src.
func unmultiply(dst, src []byte) {
	for i := 0; i < len(dst); i += 4 {
		a := uint32(src[i+3])
		for j := i; j < i+3; j++ {
			dst[j] = divided(uint32(src[j]), a)
		}
		dst[i+3] = byte(a)
	}
}

// unmultiply16 does so for 16-bit channels, most significant byte first.
func unmultiply16(dst, src []byte) {
	for i := 0; i < len(dst); i += 4 {
		a := uint32(src[2*i+6])<<8 | uint32(src[2*i+7])
		for j := i; j < i+3; j++ {
			dst[j] = divided(uint32(src[2*j])<<8|uint32(src[2*j+1]), a)
		}
		dst[i+3] = to8(a)
	}
}

// highBytes rounds 16-bit channels, most significant byte first.
func highBytes(dst, src []byte) {
	for i := range dst {
		dst[i] = to8(uint32(src[2*i])<<8 | uint32(src[2*i+1]))
	}
}

// divided returns 255 v/a, rounded and at most 255; 0 where a is.
func divided(v, a uint32) byte {
	if a == 0 {
		return 0
	}
	return byte(min((v*255+a/2)/a, 255))
}

// to8 rounds a 16-bit value to 8 bits.
func to8(v uint32) byte { return byte((v*255 + 32767) / 65535) }
