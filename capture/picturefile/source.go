package picturefile

import (
	"bytes"
	"io"
)

// source is a picture file's bytes, wherever they lie. They are read a block at a time: a
// whole file may take more memory than its picture.
type source struct {
	from  io.ReaderAt
	size  int64
	block []byte // the last that was read
	begin int64  // where it begins
}

// blockBytes is how much is read at a time; no part asked for is larger.
const blockBytes = 1 << 16

func sourceOf(data []byte) *source {
	return &source{from: bytes.NewReader(data), size: int64(len(data))}
}

// part returns n bytes from a place on, until the next call; nil where there are not as many.
func (s *source) part(at int64, n int) []byte {
	if at < 0 || at > s.size-int64(n) {
		return nil
	}
	if s.block == nil || at < s.begin || at+int64(n) > s.begin+int64(len(s.block)) {
		if s.block == nil {
			s.block = make([]byte, 0, min(blockBytes, s.size))
		}
		s.block = s.block[:min(int64(cap(s.block)), s.size-at)]
		s.begin = at
		if got, err := s.from.ReadAt(s.block, at); got < len(s.block) && err != nil {
			s.block = s.block[:got] // it is shorter by now
		}
		if len(s.block) < n {
			return nil
		}
	}
	return s.block[at-s.begin:][:n]
}

// head returns the first bytes, at most n.
func (s *source) head(n int) []byte { return s.part(0, int(min(int64(n), s.size))) }

// within returns the bytes from one place to another, as a source of their own.
func (s *source) within(from, to int64) *source {
	return &source{from: io.NewSectionReader(s.from, from, to-from), size: to - from}
}

// reader returns all bytes, from the first on, in any order.
func (s *source) reader() *io.SectionReader { return io.NewSectionReader(s.from, 0, s.size) }

// count returns how often a text stands in the bytes, and where it stands last; -1 for
// nowhere. It can't overlap itself.
func (s *source) count(text string) (n int, last int64) {
	last = -1
	for at := int64(0); ; {
		b := s.part(at, int(min(blockBytes, s.size-at)))
		if i := bytes.LastIndex(b, []byte(text)); i >= 0 {
			n, last = n+bytes.Count(b, []byte(text)), at+int64(i)
		}
		if at += int64(len(b)); at >= s.size || len(b) < len(text) {
			return n, last
		}
		at -= int64(len(text) - 1) // it may lie across two blocks
	}
}
