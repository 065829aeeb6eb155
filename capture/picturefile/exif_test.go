package picturefile

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"slices"
	"testing"

	"app.tonedesk/capture/header"
)

// TIFF 6.0 (1992), p. 36: where the stored row 0 and column 0 are in the upright picture.
var orientations = []struct {
	number        int
	row0, column0 string
}{
	{1, "top", "left"}, {2, "top", "right"}, {3, "bottom", "right"}, {4, "bottom", "left"},
	{5, "left", "top"}, {6, "right", "top"}, {7, "right", "bottom"}, {8, "left", "bottom"},
}

// side returns the codes along one side of a picture, left to right or top to bottom.
func side(pix []byte, size image.Point, name string) []byte {
	var codes []byte
	for y := range size.Y {
		for x := range size.X {
			if name == "top" && y == 0 || name == "bottom" && y == size.Y-1 ||
				name == "left" && x == 0 || name == "right" && x == size.X-1 {
				codes = append(codes, pix[4*(y*size.X+x)])
			}
		}
	}
	return codes
}

func TestUpright(t *testing.T) {
	size := image.Pt(3, 2)
	var pix []byte
	for i := range byte(6) {
		pix = append(pix, 10+i, 0, 0, 255) // 10 11 12 above 13 14 15
	}
	for _, o := range orientations {
		got, to := upright(bytes.Clone(pix), size, pixelBytes, o.number)
		want := size
		if o.row0 == "left" || o.row0 == "right" {
			want = image.Pt(2, 3)
		}
		row0, column0 := side(got, to, o.row0), side(got, to, o.column0)
		slices.Sort(row0)
		slices.Sort(column0)
		if to != want || !bytes.Equal(row0, []byte{10, 11, 12}) || !bytes.Equal(column0, []byte{10, 13}) {
			t.Errorf("%d: size %v, %s %v, %s %v", o.number, to, o.row0, row0, o.column0, column0)
		}
	}
	for _, senseless := range []int{-1, 0, 9, 1 << 20} {
		if got, to := upright(pix, size, pixelBytes, senseless); to != size || !bytes.Equal(got, pix) {
			t.Errorf("orientation %d changes something", senseless)
		}
	}
}

// exifData returns Exif data with three entries, of which the second is the orientation.
func exifData(order interface {
	binary.ByteOrder
	binary.AppendByteOrder
}, orientation uint16) []byte {
	b := []byte("II")
	if order.String() == "BigEndian" {
		b = []byte("MM")
	}
	b = order.AppendUint32(order.AppendUint16(b, 42), 10)
	b = append(b, 0, 0) // a gap before the directory
	b = order.AppendUint16(b, 3)
	for _, e := range [][2]uint16{{0x0100, 640}, {0x0112, orientation}, {0x0128, 2}} {
		b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, e[0]), 3), 1)
		b = order.AppendUint16(order.AppendUint16(b, e[1]), 0)
	}
	return order.AppendUint32(b, 0)
}

// withExif returns card in each format that carries Exif data, with exif in it.
func withExif(t testing.TB, exif []byte) map[string][]byte {
	files := encoded(t, card())
	app1 := append([]byte(header.ExifPrefix), exif...)
	app1 = append(binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(app1)+2)), app1...)
	chunk := append([]byte("eXIf"), exif...)
	size := binary.BigEndian.AppendUint32(nil, uint32(len(exif)))
	chunk = append(append(size, chunk...), binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(chunk))...)
	pngFile := files["png"]
	return map[string][]byte{
		"jpeg":                slices.Concat(files["jpeg"][:2], app1, files["jpeg"][2:]),
		"jpeg, fill bytes":    slices.Concat(files["jpeg"][:2], []byte{0xff, 0xff}, app1, files["jpeg"][2:]),
		"png, before pixels":  slices.Concat(pngFile[:33], chunk, pngFile[33:]), // signature 8, IHDR 25 bytes
		"png, after pixels":   slices.Concat(pngFile[:len(pngFile)-12], chunk, pngFile[len(pngFile)-12:]),
		"webp":                webpOf(card(), exif),
		"webp, with a prefix": webpOf(card(), append([]byte(header.ExifPrefix), exif...)),
	}
}

func TestDecodePictureOrientation(t *testing.T) {
	for _, o := range orientations {
		want, size := upright(card().Pix, card().Rect.Size(), pixelBytes, o.number)
		for _, exif := range [][]byte{exifData(binary.LittleEndian, uint16(o.number)), exifData(binary.BigEndian, uint16(o.number))} {
			for name, data := range withExif(t, exif) {
				p, err := Decode(data)
				if err != nil {
					t.Errorf("%s: %v", name, err)
				} else if p.Size != size || p.Stride != 4*size.X || !near(p.Pix, want, 3) {
					t.Errorf("%s, orientation %d: size %v, pixels %v", name, o.number, p.Size, p.Pix)
				}
			}
		}
	}
}

// TIFF files have the tag, 274, in their own directory.
func TestDecodePictureOrientationOfTIFF(t *testing.T) {
	data := encoded(t, card())["tiff"]
	le := binary.LittleEndian
	entry := func(i int) []byte { return data[int(le.Uint32(data[4:]))+2+12*i:][:12] }
	i := 0
	for le.Uint16(entry(i)) != 282 { // the resolution, which nobody needs, gives its place
		i++
	}
	for ; le.Uint16(entry(i-1)) > 274; i-- { // tags rise
		copy(entry(i), entry(i-1))
	}
	copy(entry(i), []byte{0x12, 0x01, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0})
	p, err := Decode(data)
	if err != nil || p.Size != image.Pt(4, 3) {
		t.Errorf("size %v, error %v, want 4 x 3", p, err)
	}
}

func TestOrientationOfSenselessData(t *testing.T) {
	good := exifData(binary.LittleEndian, 6)
	change := func(at int, b ...byte) []byte {
		d := bytes.Clone(good)
		copy(d[at:], b)
		return d
	}
	tests := []struct {
		name string
		data []byte
	}{
		{"nothing", nil},
		{"no byte order", change(0, 'X', 'X')},
		{"no 42", change(2, 43)},
		{"directory far outside", change(4, 0xff, 0xff, 0xff, 0xff)},
		{"directory at the last byte", change(4, byte(len(good)-1))},
		{"orientation 0", exifData(binary.LittleEndian, 0)},
		{"orientation 9", exifData(binary.LittleEndian, 9)},
		{"a count of 2", change(28, 2)},
		{"another type", change(26, 4)},
	}
	if got := header.TIFFOrientation(header.SourceOf(good)); got != 6 {
		t.Fatalf("good data give %d", got)
	}
	if got := header.TIFFOrientation(header.SourceOf(change(10, 0xff, 0xff))); got != 6 {
		t.Errorf("a directory that claims too many entries gives %d, want what it has", got)
	}
	for _, tt := range tests {
		if got := header.TIFFOrientation(header.SourceOf(tt.data)); got != 1 {
			t.Errorf("%s: %d, want 1", tt.name, got)
		}
		for name, file := range withExif(t, tt.data) {
			if p, err := Decode(file); err != nil || p.Size != image.Pt(3, 4) {
				t.Errorf("%s in a %s: %v", tt.name, name, err)
			}
		}
	}
	for n := range good[:34] { // every cut before the value's end
		if got := header.TIFFOrientation(header.SourceOf(good[:n])); got != 1 && n < 34 {
			t.Errorf("%d bytes give %d", n, got)
		}
	}
	spoilt := withExif(t, good)["png, before pixels"]
	spoilt[33+8+20] ^= 1
	if _, err := Decode(spoilt); !errors.Is(err, ErrDamaged) {
		t.Errorf("an eXIf chunk with a wrong check sum: %v, want ErrDamaged", err)
	}
}

// Whatever the bytes, an orientation is 1 to 8.
func FuzzOrientation(f *testing.F) {
	f.Add(exifData(binary.LittleEndian, 6))
	f.Add(exifData(binary.BigEndian, 3))
	for _, data := range withExif(f, exifData(binary.BigEndian, 8)) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, read := range []func(*header.Source) int{header.TIFFOrientation, header.JPEGOrientation, header.PNGOrientation, header.WebPOrientation} {
			if o := read(header.SourceOf(data)); o < 1 || o > 8 {
				t.Errorf("orientation %d", o)
			}
		}
	})
}

// Whatever the bytes, decoding gives a whole picture of an allowed size, or an error.
func FuzzDecode(f *testing.F) {
	const most = 1 << 16 // pixels, so that a round stays short
	for _, data := range encoded(f, card()) {
		f.Add(data)
	}
	for _, data := range withExif(f, exifData(binary.LittleEndian, 5)) {
		f.Add(data)
	}
	for _, data := range claims(300, 200) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := decode(header.SourceOf(data), most)
		if err != nil {
			said := func(known error) bool { return errors.Is(err, known) }
			if p != nil || !slices.ContainsFunc([]error{ErrNotPicture, ErrKind, ErrHuge, ErrTruncated, ErrDamaged, ErrEmptyFile}, said) {
				t.Errorf("%v, %v", p, err)
			}
			return
		}
		if n := p.Size.X * p.Size.Y; n <= 0 || n > most || p.Stride != 4*p.Size.X || len(p.Pix) != 4*n {
			t.Errorf("size %v, stride %d, %d bytes", p.Size, p.Stride, len(p.Pix))
		}
	})
}
