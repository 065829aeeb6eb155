package capture

import (
	"bytes"
	"encoding/binary"
)

// same says whether two pictures of the same size and format show the same. Bits
// outside the format's mask (the X byte) and the gaps between rows don't count.
func (f *x11Format) same(a, b []byte, width, height int) bool {
	stride, row := f.stride(width), width*f.bytes
	if stride == row && bytes.Equal(a[:row*height], b[:row*height]) { // the common case, in one go
		return true
	}
	for y := range height {
		ra, rb := a[y*stride:y*stride+row], b[y*stride:y*stride+row]
		if !bytes.Equal(ra, rb) && !f.sameMasked(ra, rb) {
			return false
		}
	}
	return true
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
