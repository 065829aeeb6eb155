package picturefile

import (
	"encoding/binary"
	"image"
	"iter"

	"app.tonedesk/capture/memory"
)

// exifPrefix begins Exif data in a JPEG's APP1 segment (CIPA DC-008-2012, Exif 2.3,
// 4.7.2), and, against the rule, in some WebP files.
const exifPrefix = "Exif\x00\x00"

// tiffOrientation returns the orientation, 1 to 8, that TIFF data (such as Exif data)
// give in their first directory, or 1 where they give none or make no sense.
func tiffOrientation(s *source) int {
	const orientationTag = 0x0112
	if value, kind, _ := tiffNumber(s, orientationTag); kind == tiffShort && 1 <= value && value <= 8 {
		return int(value)
	}
	return 1
}

// The types of whole numbers in TIFF data.
const tiffShort, tiffLong = 3, 4

// tiffNumber returns the value of a tag in the first directory of TIFF data, with its type; a
// type of 0 says that it is not one whole number. Every count and offset is checked. Source:
// TIFF 6.0 (1992), pp. 13-16.
func tiffNumber(s *source, tag uint16) (value uint32, kind uint16, found bool) {
	var order binary.ByteOrder
	switch head := s.part(0, 8); {
	case head == nil:
		return 0, 0, false
	case string(head[:4]) == "II*\x00":
		order = binary.LittleEndian
	case string(head[:4]) == "MM\x00*":
		order = binary.BigEndian
	default:
		return 0, 0, false
	}
	at := int64(order.Uint32(s.part(4, 4)))
	count := s.part(at, 2)
	if count == nil {
		return 0, 0, false
	}
	const entrySize = 12
	for i := range int64(order.Uint16(count)) {
		e := s.part(at+2+entrySize*i, entrySize)
		if e == nil {
			return 0, 0, false
		}
		if order.Uint16(e) != tag {
			continue
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
	return 0, 0, false
}

// jpegOrientation returns the orientation in a JPEG file's first Exif segment, else 1.
func jpegOrientation(s *source) int {
	const app1 = 0xe1
	for marker, body := range jpegSegments(s) {
		if head := body.part(0, len(exifPrefix)); marker == app1 && string(head) == exifPrefix {
			return tiffOrientation(body.within(int64(len(exifPrefix)), body.size))
		}
	}
	return 1
}

// jpegSegments are the segments of a JPEG file before its pixels: their markers and what they
// hold. Source: ITU-T T.81 (1992), B.1.1 (markers and segments).
func jpegSegments(s *source) iter.Seq2[byte, *source] {
	const soi, tem, rst0, sos, eoi = 0xd8, 0x01, 0xd0, 0xda, 0xd9
	return func(yield func(byte, *source) bool) {
		for at := int64(0); ; {
			head := s.part(at, 2)
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
			length := s.part(at+2, 2)
			if marker == sos || marker == eoi || length == nil {
				return
			}
			end := at + 2 + int64(binary.BigEndian.Uint16(length)) // the marker's two bytes are not counted
			if end < at+4 || end > s.size || !yield(marker, s.within(at+4, end)) {
				return
			}
			at = end
		}
	}
}

// pngOrientation returns the orientation in a PNG file's eXIf chunk, else 1. Source:
// W3C PNG Specification, Third Edition, 5.3 (chunk layout) and 11.3.4.5 (eXIf). Check sums
// are the decoder's task.
func pngOrientation(s *source) int {
	const signature, frame = 8, 12 // a chunk's length, type and check sum
	for at := int64(signature); ; {
		head := s.part(at, 8)
		if head == nil {
			return 1
		}
		end := at + frame + int64(binary.BigEndian.Uint32(head))
		if end > s.size {
			return 1
		}
		if string(head[4:]) == "eXIf" {
			return tiffOrientation(s.within(at+8, end-4))
		}
		at = end
	}
}

// webpOrientation returns the orientation in a WebP file's EXIF chunk, else 1. Source:
// RFC 9649 (2024), 2.3 (RIFF chunks), 2.7.1.5 (metadata).
func webpOrientation(s *source) int {
	const fileHeader, chunkHeader = 12, 8
	for at := int64(fileHeader); ; {
		head := s.part(at, chunkHeader)
		if head == nil {
			return 1
		}
		end := at + chunkHeader + int64(binary.LittleEndian.Uint32(head[4:]))
		if end > s.size {
			return 1
		}
		if string(head[:4]) == "EXIF" {
			body := s.within(at+chunkHeader, end)
			if n := len(exifPrefix); string(body.part(0, n)) == exifPrefix {
				body = body.within(int64(n), body.size)
			}
			return tiffOrientation(body)
		}
		at = end + (end-at)%2 // chunks begin at even places
	}
}

// upright turns RGBA rows without gaps, size pixels, as an Exif orientation says, and
// returns the rows and size that result. Anything but 2 to 8 changes nothing.
//
// The numbers say on which sides of the upright picture the stored row 0 and column 0
// are: 1 top left, 2 top right, 3 bottom right, 4 bottom left, 5 left top, 6 right
// top, 7 right bottom, 8 left bottom. Source: TIFF 6.0 (1992), p. 36, Orientation.
func upright(pix []byte, size image.Point, orientation int) ([]byte, image.Point) {
	w, h := size.X, size.Y
	turns := [...]struct{ first, right, down int }{ // stored pixel at 0, 0, and the steps to its neighbours
		2: {w - 1, -1, w}, 3: {w*h - 1, -1, -w}, 4: {w * (h - 1), 1, -w},
		5: {0, w, 1}, 6: {w * (h - 1), -w, 1}, 7: {w*h - 1, -w, -1}, 8: {w - 1, w, -1},
	}
	if orientation < 2 || orientation >= len(turns) {
		return pix, size
	}
	turn := turns[orientation]
	if orientation >= 5 {
		w, h = h, w
	}
	memory.LetGo(len(pix)) // what these rows were made of
	out := make([]byte, len(pix))
	to := 0
	for y := range h {
		from := 4 * (turn.first + y*turn.down)
		for range w {
			*(*[4]byte)(out[to:]) = [4]byte(pix[from:])
			to += 4
			from += 4 * turn.right // past the last pixel of a row it points nowhere
		}
	}
	return out, image.Pt(w, h)
}
