package header

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"slices"
)

// Colours is what a picture file says of the colours that its numbers stand for, as it says it: what
// that means is for others to find out. The zero value says nothing.
type Colours struct {
	// CodePoints are primaries, transfer, matrix and range (ITU-T H.273); nil: none are given.
	CodePoints []byte
	Profile    []byte // an ICC profile; nil: none
	SRGB       bool   // it says to be sRGB
	Gamma      uint32 // exponent of encoding, times 100,000; 0: not given
	// Primaries are x and y of white, red, green and blue, times 100,000; nil: not given.
	Primaries []uint32
}

// Equal reports whether two files say the same.
func (c Colours) Equal(other Colours) bool {
	return bytes.Equal(c.CodePoints, other.CodePoints) && bytes.Equal(c.Profile, other.Profile) && c.SRGB == other.SRGB &&
		c.Gamma == other.Gamma && slices.Equal(c.Primaries, other.Primaries)
}

// ErrProfile: what a file says of its colours makes no sense.
var ErrProfile = errors.New("colour profile damaged")

// MostProfile is how long a colour profile may be (our choice): one of lookup tables has up to two megabytes.
const MostProfile = 4 << 20

// TIFFColours returns the profile of a TIFF file. Source: ICC.1:2022, B.4; TIFF 6.0, pp. 13-16.
func TIFFColours(s *Source, _ io.Reader) (c Colours, err error) {
	const profile = 34675
	e, order := tiffEntry(s, profile)
	if e == nil {
		return c, nil
	}
	const undefined, oneByte = 7, 1
	kind, count, at := order.Uint16(e[2:]), int64(order.Uint32(e[4:])), int64(order.Uint32(e[8:]))
	if kind != undefined && kind != oneByte || at+count > s.Size || count <= 4 {
		return c, fmt.Errorf("tag %d of type %d: %w", profile, kind, ErrProfile)
	}
	c.Profile, err = profileIn(s.Within(at, at+count).Reader())
	return c, err
}

// BMPColours returns the profile that lies in a BMP file, or that it says to be sRGB; exponents and
// primaries, which many programs leave at 0, are not read. Source: Microsoft, BITMAPV5HEADER (from memory).
func BMPColours(s *Source, _ io.Reader) (c Colours, err error) {
	const header, fourth, fifth = 14, 108, 124 // where it begins, and how long it is in its versions
	number := func(at int64) int64 {
		if b := s.Part(header+at, 4); b != nil {
			return int64(binary.LittleEndian.Uint32(b))
		}
		return 0
	}
	const srgb, embedded = 's'<<24 | 'R'<<16 | 'G'<<8 | 'B', 'M'<<24 | 'B'<<16 | 'E'<<8 | 'D'
	switch length, kind := number(0), number(56); {
	case length >= fourth && kind == srgb:
		c.SRGB = true
	case length >= fifth && kind == embedded:
		at, size := header+number(112), number(116)
		if size == 0 || at+size > s.Size {
			return c, fmt.Errorf("%d bytes at %d: %w", size, at, ErrProfile)
		}
		c.Profile, err = profileIn(s.Within(at, at+size).Reader())
	}
	return c, err
}

// profileIn reads a profile.
func profileIn(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MostProfile+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%w: %w", ErrProfile, err)
	case len(data) > MostProfile:
		return nil, fmt.Errorf("more than %d bytes: %w", MostProfile, ErrProfile)
	}
	return data, nil
}

// WebPColours returns the profile of a WebP file. Source: RFC 9649 (2024), 2.7.1.4.
func WebPColours(s *Source, _ io.Reader) (c Colours, err error) {
	if body := webpChunk(s, "ICCP"); body != nil {
		c.Profile, err = profileIn(body.Reader())
	}
	return c, err
}

// JPEGColours returns the profile of a JPEG file, which lies in one or several segments, each with
// its number, from 1 on, and how many there are. Source: ICC.1:2022, B.4.
func JPEGColours(s *Source, _ io.Reader) (c Colours, err error) {
	const app2, prefix = 0xe2, "ICC_PROFILE\x00"
	var parts [256][]byte
	count, size := 0, 0
	for marker, body := range JPEGSegments(s) {
		head := body.Part(0, len(prefix)+2)
		if marker != app2 || head == nil || string(head[:len(prefix)]) != prefix {
			continue
		}
		number, of := int(head[len(prefix)]), int(head[len(prefix)+1])
		if number == 0 || number > of || count != 0 && count != of || parts[number] != nil {
			return c, fmt.Errorf("part %d of %d: %w", number, of, ErrProfile)
		}
		all := body.Part(0, int(body.Size))
		if size += len(all); size > MostProfile {
			return c, fmt.Errorf("more than %d bytes: %w", MostProfile, ErrProfile)
		}
		count, parts[number] = of, append([]byte{}, all[len(head):]...)
	}
	for number := 1; number <= count; number++ {
		if parts[number] == nil {
			return c, fmt.Errorf("part %d of %d is missing: %w", number, count, ErrProfile)
		}
		c.Profile = append(c.Profile, parts[number]...)
	}
	return c, nil
}

// tiffEntry returns the twelve bytes of a tag in the first directory of TIFF data, until the next
// part is asked for; nil where there is none. Source: TIFF 6.0 (1992), pp. 13-16.
func tiffEntry(s *Source, tag uint16) (entry []byte, order binary.ByteOrder) {
	switch head := s.Part(0, 8); {
	case head == nil:
		return nil, nil
	case string(head[:4]) == "II*\x00":
		order = binary.LittleEndian
	case string(head[:4]) == "MM\x00*":
		order = binary.BigEndian
	default:
		return nil, nil
	}
	at := int64(order.Uint32(s.Part(4, 4)))
	count := s.Part(at, 2)
	if count == nil {
		return nil, nil
	}
	const entrySize = 12
	for i := range int64(order.Uint16(count)) {
		e := s.Part(at+2+entrySize*i, entrySize)
		if e == nil || order.Uint16(e) == tag {
			return e, order
		}
	}
	return nil, nil
}
