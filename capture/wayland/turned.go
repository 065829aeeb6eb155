package wayland

import (
	"fmt"
	"image"

	"app.tonedesk/capture"
)

// Formats of pixels that are read. Source: WL, wl_shm.format; DRM: four letters, the last first; the name
// gives the order of the bytes from the highest down.
const (
	argb8888 = 0
	xrgb8888 = 1
	abgr8888 = 'A' | 'B'<<8 | '2'<<16 | '4'<<24
	xbgr8888 = 'X' | 'B'<<8 | '2'<<16 | '4'<<24
)

// readable reports whether pixels of a format are read.
func readable(format uint32) bool {
	switch format {
	case argb8888, xrgb8888, abgr8888, xbgr8888:
		return true
	}
	return false
}

// mostSide is the longest side of a picture, in pixels. Our choice.
const mostSide = 16384

// layout says how a picture lies in memory.
type layout struct {
	format uint32
	size   image.Point // pixels, as they lie in memory
	stride int         // bytes from row to row
}

// check refuses what can't be read. The error wraps capture.ErrFormat.
func (l layout) check() error {
	switch {
	case !readable(l.format):
		return fmt.Errorf("%w: the compositor gives %#x", capture.ErrFormat, l.format)
	case l.size.X < 1 || l.size.Y < 1 || l.size.X > mostSide || l.size.Y > mostSide || l.stride < 4*l.size.X || l.stride > 8*mostSide:
		return fmt.Errorf("%w: the compositor gives %v, rows of %d bytes", capture.ErrFormat, l.size, l.stride)
	}
	return nil
}

// bytes is how much memory it takes.
func (l layout) bytes() int { return l.stride * l.size.Y }

// turned is a picture in memory that lies as the device needs it.
type turned struct {
	layout
	turn   uint32 // how it was turned for the device. Source: WL, wl_output.transform
	invert bool   // the last row comes first
}

// Size is the picture's, upright.
func (p turned) Size() image.Point {
	if p.turn%2 == 1 {
		return image.Pt(p.size.Y, p.size.X)
	}
	return p.size
}

// at returns where in memory the pixel of the upright picture lies. Source: WL, wl_output.transform: a
// turn to the left by 90 degrees times turn modulo 4, before which it is mirrored, left for right, from 4 on.
func (p turned) at(x, y int) int {
	right, foot := p.Size().X-1, p.Size().Y-1
	if p.turn >= 4 {
		x = right - x
	}
	switch p.turn % 4 {
	case 1:
		x, y = y, right-x
	case 2:
		x, y = right-x, foot-y
	case 3:
		x, y = foot-y, x
	}
	if p.invert {
		y = p.size.Y - 1 - y
	}
	return y*p.stride + 4*x
}

// read copies a part of the upright picture out of memory, which has room for all of it, into pix or new
// memory, as rows of blue, green, red and a byte without meaning. The zero rectangle is all; a part is read
// where it meets the picture. The error wraps capture.ErrPart.
func (p turned) read(memory []byte, part image.Rectangle, pix []byte) ([]byte, image.Rectangle, error) {
	where := image.Rectangle{Max: p.Size()}
	if part != (image.Rectangle{}) {
		if where = where.Intersect(part); where.Empty() {
			return pix, where, fmt.Errorf("%w: %v of %v", capture.ErrPart, part, p.Size())
		}
	}
	row := 4 * where.Dx()
	if need := row * where.Dy(); cap(pix) < need {
		pix = make([]byte, need)
	} else {
		pix = pix[:need]
	}
	step := p.at(1, 0) - p.at(0, 0)
	for y := range where.Dy() {
		to, from := pix[y*row:][:row], p.at(where.Min.X, where.Min.Y+y)
		if step == 4 {
			copy(to, memory[from:])
			continue
		}
		for ; len(to) > 0; to = to[4:] {
			copy(to[:4], memory[from:])
			from += step
		}
	}
	if p.format == abgr8888 || p.format == xbgr8888 {
		for i := 0; i < len(pix); i += 4 {
			pix[i], pix[i+2] = pix[i+2], pix[i]
		}
	}
	return pix, where, nil
}
