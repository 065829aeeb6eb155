package workspace

import (
	"encoding/binary"
	"image"

	"app.tonedesk/analysis"
)

// The sides of a rectangle.
const (
	top = iota
	right
	foot
	left
	sides
)

// side is a picture seen from one of its sides: pixels are counted along it, from the left or
// from the top, and inward.
type side struct {
	pix                 []byte
	first               int // byte of the pixel (0, 0)
	along, inward       int // bytes to the next
	length, depth       int // pixels
	across, transparent bool
}

// sideOf returns the picture as seen from a side.
func sideOf(p analysis.Pixels, which int) side {
	s := side{pix: p.Pix, along: analysis.PixelBytes, inward: p.Stride, length: p.Width, depth: p.Height, transparent: p.Layout == analysis.RGBA}
	if s.across = which == left || which == right; s.across {
		s.along, s.inward, s.length, s.depth = s.inward, s.along, s.depth, s.length
	}
	if which == foot || which == right {
		s.first, s.inward = (s.depth-1)*s.inward, -s.inward
	}
	return s
}

// at returns the pixel's three bytes of colour, in the order of the layout, and above them 1
// where it is fully transparent.
func (s *side) at(along, inward int) code {
	w := binary.LittleEndian.Uint32(s.pix[s.first+along*s.along+inward*s.inward:])
	if s.transparent && w>>24 == 0 {
		return nothing
	}
	return code(w & 0xffffff)
}

// code is a pixel's three bytes of colour; nothing is none.
type code uint32

const nothing code = 1 << 24

// apart returns the largest difference of two codes' bytes; 256 where either is none.
func (c code) apart(d code) int {
	if c|d >= nothing {
		return 256
	}
	most := 0
	for shift := 0; shift < 24; shift += 8 {
		a, b := int(c>>shift&255), int(d>>shift&255)
		most = max(most, a-b, b-a)
	}
	return most
}

// sum returns the sum of a code's bytes.
func (c code) sum() int { return int(c&255 + c>>8&255 + c>>16&255) }

// distances are how far something lies from each side of the picture.
type distances [sides]int

// within returns the rectangle that has these distances in a picture.
func (d distances) within(width, height int) image.Rectangle {
	return image.Rect(d[left], d[top], width-d[right], height-d[foot])
}

// span returns what lies between the neighbours' distances along a side.
func (d distances) span(which, length int) (from, to int) {
	if which == left || which == right {
		return d[top], length - d[foot]
	}
	return d[left], length - d[right]
}
