package picturefile

import (
	"image"
	"image/color"

	"app.tonedesk/capture/header"
)

// What decoding takes in memory at its peak, in bytes, from what the header says. Each counts
// the pixels as the decoder gives them, what it needs beside, and our RGBA where these are not
// such already. Source: the decoders themselves (Go 1.26, golang.org/x/image 0.47); the tests
// of the built program measure it.

// pixelBytes is what a pixel takes as RGBA.
const pixelBytes = 4

// decodedBytes is what a pixel takes as a decoder gives it.
func decodedBytes(m color.Model) float64 {
	switch m {
	case color.GrayModel:
		return 1
	case color.RGBAModel, color.NRGBAModel, color.CMYKModel:
		return pixelBytes
	case color.Gray16Model, color.RGBA64Model, color.NRGBA64Model: // grey becomes colour where one is clear
		return deepBytes
	}
	return 1 // codes of a palette
}

// heldBytes is what a pixel takes once it is read.
func heldBytes(m color.Model) float64 {
	if decodedBytes(m) == deepBytes {
		return deepBytes
	}
	return pixelBytes
}

// converted is what pixels of so many bytes and our own take. Those of 16 bits become our own where
// they lie; as much as is counted beside leaves room for what measures them.
func converted(decoded float64) float64 {
	if decoded == pixelBytes {
		return decoded
	}
	return decoded + pixelBytes
}

func pixelsOf(c image.Config) float64 { return float64(c.Width) * float64(c.Height) }

// plainTakes is for decoders that need little beside the picture.
func plainTakes(c image.Config, _ *header.Source) float64 {
	return pixelsOf(c) * converted(decodedBytes(c.ColorModel))
}

// pngTakes counts the last pass of an interlaced picture, which is half of it.
func pngTakes(c image.Config, s *header.Source) float64 {
	const interlace = 28 // W3C PNG Specification, Third Edition, 11.2.1: the header's last byte
	decoded := decodedBytes(c.ColorModel)
	if head := s.Part(interlace, 1); head != nil && head[0] != 0 {
		return pixelsOf(c) * max(1.5*decoded, converted(decoded))
	}
	return pixelsOf(c) * converted(decoded)
}

// jpegTakes counts the planes as they are sampled, and of a progressive picture all its
// coefficients. Source: ITU-T T.81 (1992), B.2.2 (frame header).
func jpegTakes(c image.Config, s *header.Source) float64 {
	const firstFrame, lastFrame, adobe = 0xc0, 0xc2, 0xee
	decoded, progressive := 0.0, false
	plain := true // planes are brought together here, after the decoder has let go of all else
	for marker, body := range header.JPEGSegments(s) {
		switch {
		case marker == adobe:
			transform := body.Part(11, 1)
			plain = plain && transform != nil && transform[0] != 0
		case firstFrame <= marker && marker <= lastFrame:
			if head := body.Part(0, 7); head != nil {
				plain = plain && head[5] <= 3 && head[6] != 'R'
			}
			decoded, progressive = sampledPlanes(body), marker == lastFrame
		}
	}
	const coefficients = 4 // bytes for each byte of a plane
	switch takes := decoded + pixelBytes; {
	case decoded == 0:
		return plainTakes(c, s)
	case progressive && plain:
		return pixelsOf(c) * max(takes, (1+coefficients)*decoded)
	case progressive:
		return pixelsOf(c) * (takes + coefficients*decoded)
	default:
		return pixelsOf(c) * takes
	}
}

// sampledPlanes returns how many bytes a pixel has in the planes of a JPEG frame.
func sampledPlanes(frame *header.Source) float64 {
	planes, most := 0, 1
	for at := int64(6); ; at += 3 {
		component := frame.Part(at, 3)
		if component == nil {
			return float64(planes) / float64(most)
		}
		sampled := int(component[1]>>4) * int(component[1]&15)
		planes, most = planes+sampled, max(most, sampled)
	}
}

// webpTakes counts, beside the pixels, the largest that is made of them by any way (a palette
// spread out, or an alpha plane beside luma), and the trees of a lossless picture, which a
// small file can't fill.
func webpTakes(c image.Config, s *header.Source) float64 {
	const largest, trees, treePerByte = 6.5, 140 << 20, 260
	return pixelsOf(c)*largest + min(trees, treePerByte*float64(s.Size))
}

// tiffTakes counts one of the blocks that the picture is cut into, which may be the whole,
// with what its buffer takes while it grows. Source: TIFF 6.0 (1992), pp. 39 and 67.
func tiffTakes(c image.Config, s *header.Source) float64 {
	const rowsPerStrip, tileWidth, tileLength, compression = 278, 322, 323, 259
	const mostBytes, growing = 8, 3
	block := pixelsOf(c)
	wide, _, tiled := header.TIFFNumber(s, tileWidth)
	high, _, _ := header.TIFFNumber(s, tileLength)
	rows, _, _ := header.TIFFNumber(s, rowsPerStrip)
	switch {
	case tiled && wide > 0 && high > 0:
		block = float64(wide) * float64(high)
	case !tiled && rows > 0:
		block = min(block, float64(c.Width)*float64(rows))
	}
	bytes := mostBytes * block
	if way, kind, found := header.TIFFNumber(s, compression); !found || kind != 0 && way <= 1 {
		bytes = min(bytes, float64(s.Size))
	}
	const listed = 24 // bytes for each block's place and length
	return plainTakes(c, s) + growing*bytes + listed*pixelsOf(c)/max(block, 1)
}
