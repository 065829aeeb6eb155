package stills

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"hash"
	"hash/adler32"
	"hash/crc32"
	"image"
	"io"
	"runtime"
	"slices"
)

// A picture of ours is written as a PNG file by rows, which are shrunk some at a time on all
// cores. The general encoder tries every filter on each row and asks for a pixel at a time where a
// picture is painted while it is written: of a large one with its layers that took seconds.

// rows is a picture that is read by rows, from the top.
type rows struct {
	size   image.Point
	opaque bool
	row    func(y int) (pixels []byte, multiplied bool) // four bytes each; colours multiplied by alpha or not
}

// rowsOf returns a picture as rows; nil if it is of none of our kinds, or of no size.
func rowsOf(img image.Image) *rows {
	r := &rows{size: img.Bounds().Size()}
	switch img := img.(type) {
	case *image.RGBA:
		r.opaque = img.Opaque()
		r.row = func(y int) ([]byte, bool) { return img.Pix[y*img.Stride:][:4*r.size.X], true }
	case *image.NRGBA:
		r.opaque = img.Opaque()
		r.row = func(y int) ([]byte, bool) { return img.Pix[y*img.Stride:][:4*r.size.X], false }
	case *banded:
		r.opaque = img.opaque
		r.row = img.row
	default:
		return nil
	}
	if r.size.X <= 0 || r.size.Y <= 0 {
		return nil
	}
	return r
}

// The file's parts (W3C PNG Specification, Third Edition, 11.2, 11.3.1 and 9.2), and how its pixels
// are shrunk (RFC 1950, 2.2: deflate, a window of 32 KB, no dictionary, the fastest).
const (
	colours, coloursAlpha = 2, 6
	filterSub             = 1
	zlibHead              = "\x78\x01"
)

// shrunkAtATime is how many bytes of rows are shrunk at a time (our choice).
const shrunkAtATime = 1 << 20

// writeRows writes a PNG file of 8 bits a sample.
func writeRows(w io.Writer, r *rows) error {
	f, err := newRowFile(w, r.size, r.opaque)
	if err != nil {
		return err
	}
	defer f.wait()
	for y := range r.size.Y {
		if err := f.add(r.row(y)); err != nil {
			return err
		}
	}
	return f.close()
}

func writeChunk(w io.Writer, name string, body []byte) error {
	sum := crc32.Update(crc32.ChecksumIEEE([]byte(name)), crc32.IEEETable, body)
	for _, part := range [][]byte{binary.BigEndian.AppendUint32(nil, uint32(len(body))), []byte(name), body, binary.BigEndian.AppendUint32(nil, sum)} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// shrinker shrinks rows beside others, into a part of the whole that ends on a whole byte.
type shrinker struct {
	raw  []byte
	out  bytes.Buffer
	z    *flate.Writer
	last bool
	done chan error // nil while nothing is shrunk
}

// newShrinker has room for so many bytes of rows.
func newShrinker(room int) (*shrinker, error) {
	z, err := flate.NewWriter(nil, flate.BestSpeed)
	if err != nil {
		return nil, err
	}
	return &shrinker{raw: make([]byte, 0, room), z: z}, nil
}

func (s *shrinker) start() {
	s.done = make(chan error, 1)
	go func() {
		s.out.Reset()
		s.z.Reset(&s.out)
		_, err := s.z.Write(s.raw)
		if err == nil && s.last {
			err = s.z.Close()
		} else if err == nil {
			err = s.z.Flush()
		}
		s.done <- err
	}()
}

// write waits for what is shrunk, and writes it.
func (s *shrinker) write(w io.Writer) error {
	if s.done == nil {
		return nil
	}
	err := <-s.done
	s.done, s.raw = nil, s.raw[:0]
	if err != nil {
		return err
	}
	return writeChunk(w, "IDAT", s.out.Bytes())
}

// rowFile is a PNG file that takes its rows from the top; those that are there are shrunk beside
// the next. Not for concurrent use.
type rowFile struct {
	w        io.Writer
	size     image.Point
	opaque   bool
	ring     []*shrinker // nil where none was needed yet: each takes 2 MB and more
	turn     int         // in the ring, of the rows that are added
	y        int         // rows added
	sum      hash.Hash32
	straight []byte
}

// newRowFile writes what comes before the rows.
func newRowFile(w io.Writer, size image.Point, opaque bool) (*rowFile, error) {
	f := &rowFile{w: w, size: size, opaque: opaque, sum: adler32.New(), straight: make([]byte, 4*size.X)}
	f.ring = make([]*shrinker, runtime.GOMAXPROCS(0)+1)
	kind := byte(coloursAlpha)
	if opaque {
		kind = colours
	}
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(size.X)), uint32(size.Y))
	if _, err := io.WriteString(w, "\x89PNG\r\n\x1a\n"); err != nil {
		return nil, err
	}
	if err := writeChunk(w, "IHDR", append(head, 8, kind, 0, 0, 0)); err != nil {
		return nil, err
	}
	return f, writeChunk(w, "IDAT", []byte(zlibHead))
}

// add adds a row of four bytes a pixel, whose colours are multiplied by alpha or not.
func (f *rowFile) add(pixels []byte, multiplied bool) error {
	s, err := f.next()
	if err != nil {
		return err
	}
	if multiplied && !f.opaque {
		divide(f.straight, pixels)
		pixels = f.straight
	}
	begin := len(s.raw)
	s.raw = appendFiltered(s.raw, pixels, f.opaque)
	f.sum.Write(s.raw[begin:])
	f.y++
	if s.last = f.y == f.size.Y; s.last || len(s.raw) >= shrunkAtATime {
		s.start()
		f.turn++
	}
	return nil
}

// next returns the shrinker that has room for a row.
func (f *rowFile) next() (*shrinker, error) {
	at := f.turn % len(f.ring)
	if s := f.ring[at]; s != nil {
		return s, s.write(f.w)
	}
	row := 1 + 4*f.size.X
	if f.opaque {
		row = 1 + 3*f.size.X
	}
	s, err := newShrinker(min((shrunkAtATime+row-1)/row, f.size.Y-f.y) * row)
	f.ring[at] = s
	return s, err
}

// close writes what is left, behind the last row.
func (f *rowFile) close() error {
	for i := range f.ring {
		if s := f.ring[(f.turn+i)%len(f.ring)]; s != nil {
			if err := s.write(f.w); err != nil {
				return err
			}
		}
	}
	if err := writeChunk(f.w, "IDAT", f.sum.Sum(nil)); err != nil {
		return err
	}
	return writeChunk(f.w, "IEND", nil)
}

// wait lets nothing go on that was begun.
func (f *rowFile) wait() {
	for _, s := range f.ring {
		if s != nil && s.done != nil {
			<-s.done
			s.done = nil
		}
	}
}

// appendFiltered appends a row as it is shrunk: of each sample what it differs by from that of the
// pixel before.
func appendFiltered(raw, pixels []byte, opaque bool) []byte {
	samples := 4
	if opaque {
		samples = 3
	}
	begin, n := len(raw)+1, len(pixels)/4
	raw = slices.Grow(raw, 1+samples*n)[:begin+samples*n]
	raw[begin-1] = filterSub
	to := raw[begin:]
	var before [4]byte
	for ; len(pixels) >= 4 && len(to) >= samples; pixels, to = pixels[4:], to[samples:] {
		p := [4]byte(pixels)
		to[0], to[1], to[2] = p[0]-before[0], p[1]-before[1], p[2]-before[2]
		if !opaque {
			to[3] = p[3] - before[3]
		}
		before = p
	}
	return raw
}

// divide returns colours that were multiplied by their alpha, as image/color has it: through 16
// bits, rounded down.
func divide(to, from []byte) {
	for i := 0; i+4 <= len(from); i += 4 {
		p := [4]byte(from[i:])
		if a := uint32(p[3]) * 0x101; p[3] == 0 {
			p = [4]byte{}
		} else if p[3] != 255 {
			for c := range 3 {
				p[c] = uint8(uint32(p[c]) * 0x101 * 0xffff / a >> 8)
			}
		}
		copy(to[i:], p[:])
	}
}
