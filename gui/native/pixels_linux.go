package native

import (
	"encoding/binary"
	"fmt"
	"image"
	"math/bits"

	"github.com/jezek/xgb/xproto"

	"app.tonedesk/capture/xconn"
)

// pixelFormat is how a server's root window stores pixels, least significant byte first. Source: X
// Window System Protocol, X11R7.7, chapter 8 (pixmap formats, visual types).
type pixelFormat struct {
	bytes int       // of a pixel: 2, 3 or 4
	pad   int       // bytes; a row's length is a multiple of it
	masks [3]uint32 // of red, green, blue
}

// formatOf returns the root's; ErrRefused where it has a colour map, or the other order of bytes.
func formatOf(c *xconn.Conn) (f pixelFormat, err error) {
	if c.Setup.ImageByteOrder != xproto.ImageOrderLSBFirst {
		return f, fmt.Errorf("%w: the server stores the most significant byte first", ErrRefused)
	}
	for _, p := range c.Setup.PixmapFormats {
		if p.Depth == c.Screen.RootDepth {
			f.bytes, f.pad = int(p.BitsPerPixel)/8, int(p.ScanlinePad)/8
		}
	}
	for _, d := range c.Screen.AllowedDepths {
		for _, v := range d.Visuals {
			if v.VisualId == c.Screen.RootVisual && v.Class == xproto.VisualClassTrueColor {
				f.masks = [3]uint32{v.RedMask, v.GreenMask, v.BlueMask}
			}
		}
	}
	if f.bytes < 2 || f.bytes > 4 || f.pad < 1 || f.masks[0] == 0 || f.masks[1] == 0 || f.masks[2] == 0 {
		return f, fmt.Errorf("%w: pixels of depth %d, %d bytes, masks %x", ErrRefused, c.Screen.RootDepth, f.bytes, f.masks)
	}
	return f, nil
}

// stride returns the bytes from row to row of a picture width pixels wide.
func (f pixelFormat) stride(width int) int { return (width*f.bytes + f.pad - 1) / f.pad * f.pad }

// pack returns n rows of an opaque picture, from row y on, as the server stores them: of each channel
// the nearest whole number to top v / 255.
func (f pixelFormat) pack(img *image.RGBA, y, n int) []byte {
	size, stride := img.Rect.Size(), f.stride(img.Rect.Dx())
	out := make([]byte, stride*n)
	for row := range n {
		from := img.Pix[(y+row)*img.Stride:]
		for x := range size.X {
			var p uint32
			for i, mask := range f.masks {
				shift := bits.TrailingZeros32(mask)
				top := uint64(mask >> shift)
				p |= uint32((uint64(from[4*x+i])*top+127)/255) << shift
			}
			copy(out[row*stride+x*f.bytes:][:f.bytes], inBytes(p))
		}
	}
	return out
}

// inBytes returns a number as four bytes, the least significant first, as the client library asks the
// server to read them.
func inBytes(v uint32) []byte { return binary.LittleEndian.AppendUint32(nil, v) }
