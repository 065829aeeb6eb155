package pipewire

import (
	"errors"
	"fmt"
	"image"
)

// Errors of this room; others are faults of the system's.
var (
	// ErrLibrary: libpipewire is not installed here, or not whole, or this build can't load it.
	ErrLibrary = errors.New("no libpipewire")
	// ErrEnded: the source, or the server, is no more.
	ErrEnded = errors.New("the source of pictures has ended")
	// ErrFormat: the source gives pictures of a kind that was not agreed on.
	ErrFormat = errors.New("pictures of another kind")
	// ErrPart: the part that is wanted lies outside of the picture now.
	ErrPart = errors.New("part outside the picture")
)

// Picture is one picture of a source, or a part of it.
type Picture struct {
	Pix    []byte      // rows of Size.X pixels of four bytes: blue, green, red and one without meaning
	Size   image.Point // pixels; rows follow each other without a gap
	Source image.Point // the size of the whole picture
	Number uint64      // counts the source's pictures from 1
}

// raw is a picture as it lies in the memory that it came in.
type raw struct {
	format
	memory []byte          // as much as is there
	offset int             // of the first row
	stride int             // bytes from row to row; 0: rows follow each other
	crop   image.Rectangle // what of it is the picture; empty: all
}

// read copies the part of the picture that is wanted into pix, or new memory if that has no room; the
// zero rectangle is all of it. The part is read where it meets the picture.
func (r *raw) read(part image.Rectangle, pix []byte) (p Picture, err error) {
	inside := image.Rectangle{Max: r.size}
	if !r.crop.Empty() {
		if inside = r.crop.Intersect(inside); inside.Empty() {
			return p, fmt.Errorf("%w: %v of %v", ErrFormat, r.crop, r.size)
		}
	}
	p.Source = inside.Size()
	wanted := inside
	if part != (image.Rectangle{}) {
		if wanted = part.Add(inside.Min).Intersect(inside); wanted.Empty() {
			return p, fmt.Errorf("%w: %v of %v", ErrPart, part, p.Source)
		}
	}
	row := 4 * wanted.Dx()
	stride := r.stride
	if stride == 0 {
		stride = 4 * r.size.X
	}
	first := r.offset + wanted.Min.Y*stride + 4*wanted.Min.X
	last := first + (wanted.Dy()-1)*stride + row
	if stride < 4*r.size.X || r.offset < 0 || last > len(r.memory) {
		return p, fmt.Errorf("%w: rows of %d bytes from %d on, for %v in %d", ErrFormat, stride, r.offset, r.size, len(r.memory))
	}
	if need := row * wanted.Dy(); cap(pix) < need {
		pix = make([]byte, need)
	} else {
		pix = pix[:need]
	}
	for y := range wanted.Dy() {
		copy(pix[y*row:][:row], r.memory[first+y*stride:])
	}
	if r.pixels == rgbx || r.pixels == rgba {
		swap(pix)
	}
	p.Pix, p.Size = pix, wanted.Size()
	return p, nil
}

// swap exchanges red and blue.
func swap(pix []byte) {
	for i := 0; i+4 <= len(pix); i += 4 {
		pix[i], pix[i+2] = pix[i+2], pix[i]
	}
}
