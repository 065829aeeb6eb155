package capture

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"math/bits"

	"github.com/jezek/xgb/xproto"
)

// x11Format says how a server stores the pixels of a window. Source: X
// Window System Protocol, Version 11, Release 7.7, chapter 8 (pixmap formats,
// visual types).
type x11Format struct {
	depth   int       // bits that count
	bytes   int       // of a pixel: 2, 3 or 4, least significant first
	pad     int       // bytes; a row's length is a multiple of it
	mask    uint32    // all bits that count
	direct  bool      // the bytes are BGRX already
	shift   [3]int    // of blue, green, red in a pixel
	channel [3]uint32 // masks of blue, green, red, moved down to bit 0
	table   [3][]byte // 8-bit value by channel value; nil where direct
}

// x11FormatOf finds the format of a window of screen. Errors wrap ErrFormat.
func x11FormatOf(setup *xproto.SetupInfo, screen *xproto.ScreenInfo, depth byte, id xproto.Visualid) (*x11Format, error) {
	if setup.ImageByteOrder != xproto.ImageOrderLSBFirst {
		return nil, fmt.Errorf("%w: the server stores the most significant byte first", ErrFormat)
	}
	visual, ok := visualOf(screen, id)
	if !ok {
		return nil, fmt.Errorf("%w: the window's visual is not listed", ErrFormat)
	}
	if visual.Class != xproto.VisualClassTrueColor && visual.Class != xproto.VisualClassDirectColor {
		return nil, fmt.Errorf("%w: depth %d with a colour map (visual class %d)", ErrFormat, depth, visual.Class)
	}
	for _, p := range setup.PixmapFormats {
		if p.Depth == depth {
			masks := [3]uint32{visual.BlueMask, visual.GreenMask, visual.RedMask}
			return newX11Format(int(p.Depth), int(p.BitsPerPixel), int(p.ScanlinePad), masks)
		}
	}
	return nil, fmt.Errorf("%w: no pixmap format for depth %d", ErrFormat, depth)
}

// visualOf returns one of screen's visuals.
func visualOf(screen *xproto.ScreenInfo, id xproto.Visualid) (xproto.VisualInfo, bool) {
	for _, d := range screen.AllowedDepths {
		for _, v := range d.Visuals {
			if v.VisualId == id {
				return v, true
			}
		}
	}
	return xproto.VisualInfo{}, false
}

// newX11Format makes a format for pixels of bits bits in rows padded to pad bits;
// masks are blue's, green's, red's. Errors wrap ErrFormat.
func newX11Format(depth, bitsPerPixel, pad int, masks [3]uint32) (*x11Format, error) {
	bad := fmt.Errorf("%w: depth %d, %d bits a pixel, rows of %d bits, masks %x", ErrFormat, depth, bitsPerPixel, pad, masks)
	if bitsPerPixel != 16 && bitsPerPixel != 24 && bitsPerPixel != 32 || pad != 8 && pad != 16 && pad != 32 {
		return nil, bad
	}
	f := &x11Format{depth: depth, bytes: bitsPerPixel / 8, pad: pad / 8}
	for i, m := range masks {
		f.shift[i] = bits.TrailingZeros32(m)
		f.channel[i] = m >> f.shift[i]
		width := bits.Len32(f.channel[i])
		if m == 0 || width > 16 || bits.OnesCount32(m) != width || f.mask&m != 0 || bits.Len32(m) > bitsPerPixel {
			return nil, bad
		}
		f.mask |= m
	}
	f.direct = f.bytes == 4 && masks == [3]uint32{0xff, 0xff00, 0xff0000}
	if !f.direct {
		for i, top := range f.channel {
			f.table[i] = scaleTable(top)
		}
	}
	return f, nil
}

// scaleTable maps channel values from 0 to top to 8 bits: the nearest whole number
// to 255 v / top, so that none is black and all is white in every depth.
func scaleTable(top uint32) []byte {
	table := make([]byte, top+1)
	for v := range table {
		table[v] = byte((uint64(v)*255 + uint64(top)/2) / uint64(top))
	}
	return table
}

// stride returns the bytes from row to row of a picture width pixels wide.
func (f *x11Format) stride(width int) int {
	return (width*f.bytes + f.pad - 1) / f.pad * f.pad
}

// convert writes the picture in src as BGRX rows without gaps to dst, which holds
// 4 * width * height bytes. X becomes 255.
func (f *x11Format) convert(dst, src []byte, width, height int) {
	stride := f.stride(width)
	for y := range height {
		row, out := src[y*stride:], dst[4*width*y:4*width*(y+1)]
		for len(out) >= 4 {
			var p uint32
			switch f.bytes {
			case 2:
				p = uint32(binary.LittleEndian.Uint16(row))
			case 3:
				p = uint32(row[0]) | uint32(row[1])<<8 | uint32(row[2])<<16
			default:
				p = binary.LittleEndian.Uint32(row)
			}
			out[0] = f.table[0][p>>f.shift[0]&f.channel[0]]
			out[1] = f.table[1][p>>f.shift[1]&f.channel[1]]
			out[2] = f.table[2][p>>f.shift[2]&f.channel[2]]
			out[3] = 255
			row, out = row[f.bytes:], out[4:]
		}
	}
}

// same says whether two pictures of the same size and format show the same. Bits
// outside the format's mask (the X byte) and the gaps between rows don't count.
func (f *x11Format) same(a, b []byte, width, height int) bool {
	return f.differ(a, b, width, image.Rect(0, 0, width, height)).Empty()
}

// differ returns the rows of box in which two pictures, width pixels wide, show something else.
func (f *x11Format) differ(a, b []byte, width int, box image.Rectangle) image.Rectangle {
	stride, from, to := f.stride(width), box.Min.X*f.bytes, box.Max.X*f.bytes
	same := func(y int) bool {
		ra, rb := a[y*stride+from:y*stride+to], b[y*stride+from:y*stride+to]
		return bytes.Equal(ra, rb) || f.sameMasked(ra, rb)
	}
	for !box.Empty() && same(box.Min.Y) {
		box.Min.Y++
	}
	for !box.Empty() && same(box.Max.Y-1) {
		box.Max.Y--
	}
	return box
}

// sameMasked compares two rows, only where the format's mask has bits.
func (f *x11Format) sameMasked(a, b []byte) bool {
	mask := uint64(f.mask)
	switch f.bytes {
	case 2:
		mask |= mask << 16
		mask |= mask << 32
	case 4:
		mask |= mask << 32
	default:
		return false // three bytes have no bit to spare
	}
	for ; len(a) >= 8; a, b = a[8:], b[8:] {
		if (binary.LittleEndian.Uint64(a)^binary.LittleEndian.Uint64(b))&mask != 0 {
			return false
		}
	}
	var endA, endB [8]byte
	copy(endA[:], a)
	copy(endB[:], b)
	return (binary.LittleEndian.Uint64(endA[:])^binary.LittleEndian.Uint64(endB[:]))&mask == 0
}
