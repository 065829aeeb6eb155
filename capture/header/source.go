package header

import (
	"bytes"
	"io"
)

// Source is a picture file's bytes, wherever they lie. They are read a block at a time: a
// whole file may take more memory than its picture.
type Source struct {
	From  io.ReaderAt
	Size  int64
	block []byte // the last that was read
	begin int64  // where it begins
}

// blockBytes is how much is read at a time; no part asked for is larger.
const blockBytes = 1 << 16

// SourceOf returns bytes in memory as a source.
func SourceOf(data []byte) *Source {
	return &Source{From: bytes.NewReader(data), Size: int64(len(data))}
}

// Part returns n bytes from a place on, until the next call; nil where there are not as many.
func (s *Source) Part(at int64, n int) []byte {
	if at < 0 || at > s.Size-int64(n) {
		return nil
	}
	if s.block == nil || at < s.begin || at+int64(n) > s.begin+int64(len(s.block)) {
		if s.block == nil {
			s.block = make([]byte, 0, min(blockBytes, s.Size))
		}
		s.block = s.block[:min(int64(cap(s.block)), s.Size-at)]
		s.begin = at
		if got, err := s.From.ReadAt(s.block, at); got < len(s.block) && err != nil {
			s.block = s.block[:got] // it is shorter by now
		}
		if len(s.block) < n {
			return nil
		}
	}
	return s.block[at-s.begin:][:n]
}

// Head returns the first bytes, at most n.
func (s *Source) Head(n int) []byte { return s.Part(0, int(min(int64(n), s.Size))) }

// Within returns the bytes from one place to another, as a source of their own.
func (s *Source) Within(from, to int64) *Source {
	return &Source{From: io.NewSectionReader(s.From, from, to-from), Size: to - from}
}

// Reader returns all bytes, from the first on, in any order.
func (s *Source) Reader() *io.SectionReader { return io.NewSectionReader(s.From, 0, s.Size) }

// Count returns how often a text stands in the bytes, and where it stands last; -1 for
// nowhere. It can't overlap itself.
func (s *Source) Count(text string) (n int, last int64) {
	last = -1
	for at := int64(0); ; {
		b := s.Part(at, int(min(blockBytes, s.Size-at)))
		if i := bytes.LastIndex(b, []byte(text)); i >= 0 {
			n, last = n+bytes.Count(b, []byte(text)), at+int64(i)
		}
		if at += int64(len(b)); at >= s.Size || len(b) < len(text) {
			return n, last
		}
		at -= int64(len(text) - 1) // it may lie across two blocks
	}
}
