package header

import (
	"encoding/binary"
	"iter"
)

// ExifPrefix begins Exif data in a JPEG's APP1 segment (CIPA DC-008-2012, Exif 2.3,
// 4.7.2), and, against the rule, in some WebP files.
const ExifPrefix = "Exif\x00\x00"

// TIFFOrientation returns the orientation, 1 to 8, that TIFF data (such as Exif data)
// give in their first directory, or 1 where they give none or make no sense.
func TIFFOrientation(s *Source) int {
	const orientationTag = 0x0112
	if value, kind, _ := TIFFNumber(s, orientationTag); kind == tiffShort && 1 <= value && value <= 8 {
		return int(value)
	}
	return 1
}

// The types of whole numbers in TIFF data.
const tiffShort, tiffLong = 3, 4

// TIFFNumber returns the value of a tag in the first directory of TIFF data, with its type; a
// type of 0 says that it is not one whole number. Every count and offset is checked. Source:
// TIFF 6.0 (1992), pp. 13-16.
func TIFFNumber(s *Source, tag uint16) (value uint32, kind uint16, found bool) {
	e, order := tiffEntry(s, tag)
	if e == nil {
		return 0, 0, false
	}
	switch kind := order.Uint16(e[2:]); {
	case order.Uint32(e[4:]) != 1:
	case kind == tiffShort:
		return uint32(order.Uint16(e[8:])), kind, true
	case kind == tiffLong:
		return order.Uint32(e[8:]), kind, true
	}
	return 0, 0, true
}

// JPEGOrientation returns the orientation in a JPEG file's first Exif segment, else 1.
func JPEGOrientation(s *Source) int {
	const app1 = 0xe1
	for marker, body := range JPEGSegments(s) {
		if head := body.Part(0, len(ExifPrefix)); marker == app1 && string(head) == ExifPrefix {
			return TIFFOrientation(body.Within(int64(len(ExifPrefix)), body.Size))
		}
	}
	return 1
}

// JPEGSegments are the segments of a JPEG file before its pixels: their markers and what they
// hold. Source: ITU-T T.81 (1992), B.1.1 (markers and segments).
func JPEGSegments(s *Source) iter.Seq2[byte, *Source] {
	const soi, tem, rst0, sos, eoi = 0xd8, 0x01, 0xd0, 0xda, 0xd9
	return func(yield func(byte, *Source) bool) {
		for at := int64(0); ; {
			head := s.Part(at, 2)
			if head == nil || head[0] != 0xff {
				return
			}
			marker := head[1]
			switch {
			case marker == 0xff: // a fill byte
				at++
				continue
			case marker == tem, marker >= rst0 && marker <= soi:
				at += 2
				continue
			}
			length := s.Part(at+2, 2)
			if marker == sos || marker == eoi || length == nil {
				return
			}
			end := at + 2 + int64(binary.BigEndian.Uint16(length)) // the marker's two bytes are not counted
			if end < at+4 || end > s.Size || !yield(marker, s.Within(at+4, end)) {
				return
			}
			at = end
		}
	}
}

// PNGOrientation returns the orientation in a PNG file's eXIf chunk, else 1. Source:
// W3C PNG Specification, Third Edition, 5.3 (chunk layout) and 11.3.4.5 (eXIf). Check sums
// are the decoder's task.
func PNGOrientation(s *Source) int {
	const signature, frame = 8, 12 // a chunk's length, type and check sum
	for at := int64(signature); ; {
		head := s.Part(at, 8)
		if head == nil {
			return 1
		}
		end := at + frame + int64(binary.BigEndian.Uint32(head))
		if end > s.Size {
			return 1
		}
		if string(head[4:]) == "eXIf" {
			return TIFFOrientation(s.Within(at+8, end-4))
		}
		at = end
	}
}

// WebPOrientation returns the orientation in a WebP file's EXIF chunk, else 1. Source:
// RFC 9649 (2024), 2.7.1.5 (metadata).
func WebPOrientation(s *Source) int {
	body := webpChunk(s, "EXIF")
	if body == nil {
		return 1
	}
	if n := len(ExifPrefix); string(body.Part(0, n)) == ExifPrefix {
		body = body.Within(int64(n), body.Size)
	}
	return TIFFOrientation(body)
}

// webpChunk returns what the first chunk of a kind in a WebP file holds; nil where there is none.
// Source: RFC 9649 (2024), 2.3 (RIFF chunks).
func webpChunk(s *Source, kind string) *Source {
	const fileHeader, chunkHeader = 12, 8
	for at := int64(fileHeader); ; {
		head := s.Part(at, chunkHeader)
		if head == nil {
			return nil
		}
		end := at + chunkHeader + int64(binary.LittleEndian.Uint32(head[4:]))
		if end > s.Size {
			return nil
		}
		if string(head[:4]) == kind {
			return s.Within(at+chunkHeader, end)
		}
		at = end + (end-at)%2 // chunks begin at even places
	}
}
