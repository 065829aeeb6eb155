package profile

import (
	"encoding/binary"
	"math"
	"unicode/utf16"

	"app.tonedesk/analysis/colour"
)

// steps is of how many pieces a written curve is: every 8-bit code lies where two meet.
const steps = 16 * 255

// Write writes a space as a profile of version 4, for displays: three primaries, adapted to D50
// (BRADFORD), and their curves. The same space gives the same bytes.
func Write(s *colour.Space) []byte {
	d65, d50 := [3]float64{colour.WhiteX, 1, colour.WhiteZ}, [3]float64{0.9642, 1, 0.8249} // ICC4, 7.2.16
	adapt := bradford(d65, d50)
	w := writer{}
	w.tag("desc", words(s.Title()))
	w.tag("cprt", words("No rights reserved."))
	w.tag("wtpt", append([]byte("XYZ \x00\x00\x00\x00"), numbers(d50[:]...)...))
	w.tag("chad", append([]byte("sf32\x00\x00\x00\x00"), numbers(append(append(adapt[0][:], adapt[1][:]...), adapt[2][:]...)...)...))
	for c, primary := range [3]string{"r", "g", "b"} {
		var light [3]float64
		light[c] = 1
		x, y, z := s.XYZ(light[0], light[1], light[2])
		xyz := times(adapt, [3]float64{x, y, z})
		w.tag(primary+"XYZ", append([]byte("XYZ \x00\x00\x00\x00"), numbers(xyz[:]...)...))
		curve := binary.BigEndian.AppendUint32([]byte("curv\x00\x00\x00\x00"), steps+1)
		for i := range steps + 1 {
			curve = binary.BigEndian.AppendUint16(curve, uint16(math.Round(65535*s.LinearOf(c, float64(i)/steps))))
		}
		w.tag(primary+"TRC", curve)
	}
	return w.file()
}

// writer gathers tags.
type writer struct {
	names []string
	tags  [][]byte
}

func (w *writer) tag(name string, tag []byte) {
	w.names, w.tags = append(w.names, name), append(w.tags, tag)
}

// file puts a header and a list of the tags before them. Source: ICC4, 7.2 and 7.3.
func (w *writer) file() []byte {
	head := make([]byte, headerBytes, headerBytes+4+entryBytes*len(w.tags))
	copy(head[8:], "\x04\x40\x00\x00mntrRGB XYZ ")
	copy(head[24:], "\x07\xea\x00\x01\x00\x01\x00\x00\x00\x00\x00\x00acsp") // a date, the same for all
	copy(head[68:], numbers(0.9642, 1, 0.8249))
	head = binary.BigEndian.AppendUint32(head, uint32(len(w.tags)))
	at := cap(head)
	var body []byte
	for i, tag := range w.tags {
		head = append(head, w.names[i]...)
		head = binary.BigEndian.AppendUint32(head, uint32(at+len(body)))
		head = binary.BigEndian.AppendUint32(head, uint32(len(tag)))
		body = append(body, tag...)
		body = append(body, make([]byte, -len(body)&3)...) // tags begin at places divisible by 4
	}
	out := append(head, body...)
	binary.BigEndian.PutUint32(out, uint32(len(out)))
	return out
}

// numbers writes s15Fixed16 numbers.
func numbers(v ...float64) (b []byte) {
	for _, v := range v {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(65536*v))))
	}
	return b
}

// words writes a text as a multiLocalizedUnicodeType with one language (ICC4, 10.15).
func words(text string) []byte {
	codes := utf16.Encode([]rune(text))
	b := []byte("mluc\x00\x00\x00\x00\x00\x00\x00\x01\x00\x00\x00\x0cenUS")
	b = binary.BigEndian.AppendUint32(b, uint32(2*len(codes)))
	b = binary.BigEndian.AppendUint32(b, 28)
	for _, c := range codes {
		b = binary.BigEndian.AppendUint16(b, c)
	}
	return b
}
