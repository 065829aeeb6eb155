package capture

import (
	"bytes"
	"encoding/binary"
	"image"
)

// exifPrefix begins Exif data in a JPEG's APP1 segment (CIPA DC-008-2012, Exif 2.3,
// 4.7.2), and, against the rule, in some WebP files.
const exifPrefix = "Exif\x00\x00"

// tiffOrientation returns the orientation, 1 to 8, that TIFF data (such as Exif data)
// give in their first directory, or 1 where they give none or make no sense. Every
// count and offset is checked. Source: TIFF 6.0 (1992), pp. 13-16 and 36.
func tiffOrientation(data []byte) int {
	if len(data) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(data[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := order.Uint32(data[4:])
	if uint64(at)+2 > uint64(len(data)) {
		return 1
	}
	entries := data[at+2:]
	const entrySize = 12
	for range order.Uint16(data[at:]) {
		if len(entries) < entrySize {
			return 1
		}
		const orientationTag, short = 0x0112, 3
		if order.Uint16(entries) == orientationTag {
			value := order.Uint16(entries[8:])
			if order.Uint16(entries[2:]) == short && order.Uint32(entries[4:]) == 1 && 1 <= value && value <= 8 {
				return int(value)
			}
			return 1
		}
		entries = entries[entrySize:]
	}
	return 1
}

// jpegOrientation returns the orientation in a JPEG file's first Exif segment, else 1.
// Source: ITU-T T.81 (1992), B.1.1 (markers and segments).
func jpegOrientation(data []byte) int {
	const soi, tem, rst0, sos, eoi, app1 = 0xd8, 0x01, 0xd0, 0xda, 0xd9, 0xe1
	for len(data) >= 2 && data[0] == 0xff {
		marker := data[1]
		switch {
		case marker == 0xff: // a fill byte
			data = data[1:]
			continue
		case marker == tem, marker >= rst0 && marker <= soi:
			data = data[2:]
			continue
		case marker == sos, marker == eoi, len(data) < 4:
			return 1
		}
		size := int(binary.BigEndian.Uint16(data[2:])) + 2 // the marker's two bytes are not counted
		if size < 4 || size > len(data) {
			return 1
		}
		if exif, ok := bytes.CutPrefix(data[4:size], []byte(exifPrefix)); ok && marker == app1 {
			return tiffOrientation(exif)
		}
		data = data[size:]
	}
	return 1
}

// pngOrientation returns the orientation in a PNG file's eXIf chunk, else 1. Source:
// W3C PNG Specification, Third Edition, 5.3 (chunk layout) and 11.3.4.5 (eXIf). Check sums
// are the decoder's task.
func pngOrientation(data []byte) int {
	const signature, frame = 8, 12 // a chunk's length, type and check sum
	for data = data[min(signature, len(data)):]; len(data) >= frame; {
		size := uint64(binary.BigEndian.Uint32(data))
		if size+frame > uint64(len(data)) {
			return 1
		}
		body, rest := data[4:8+size], data[8+size:]
		if string(body[:4]) == "eXIf" {
			return tiffOrientation(body[4:])
		}
		data = rest[4:]
	}
	return 1
}

// webpOrientation returns the orientation in a WebP file's EXIF chunk, else 1. Source:
// RFC 9649 (2024), 2.3 (RIFF chunks), 2.7.1.5 (metadata).
func webpOrientation(data []byte) int {
	const fileHeader, chunkHeader = 12, 8
	for data = data[min(fileHeader, len(data)):]; len(data) >= chunkHeader; {
		size := uint64(binary.LittleEndian.Uint32(data[4:]))
		if size+chunkHeader > uint64(len(data)) {
			return 1
		}
		if string(data[:4]) == "EXIF" {
			body := data[chunkHeader : chunkHeader+size]
			return tiffOrientation(bytes.TrimPrefix(body, []byte(exifPrefix)))
		}
		data = data[chunkHeader+size:]
		if size%2 == 1 && len(data) > 0 { // chunks begin at even places
			data = data[1:]
		}
	}
	return 1
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
