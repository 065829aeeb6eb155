package picturefile

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"math/rand/v2"
	"slices"
	"testing"

	"golang.org/x/image/tiff"

	"app.tonedesk/capture/header"
)

// profileOf is bytes as a profile may have them: what they mean nobody asks here.
func profileOf(n int) []byte {
	p, rng := make([]byte, n), rand.New(rand.NewPCG(3, uint64(n)))
	for i := range p {
		p[i] = byte(rng.Uint32())
	}
	return p
}

func pngChunk(kind string, body []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(append(b, kind...), body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

func packed(name string, profile []byte) []byte {
	b := bytes.NewBuffer(append([]byte(name), 0, 0))
	w := zlib.NewWriter(b)
	w.Write(profile)
	w.Close()
	return b.Bytes()
}

// withChunks puts chunks behind the header chunk of a PNG file.
func withChunks(png []byte, chunks ...[]byte) []byte {
	const head = 8 + 25
	return slices.Concat(png[:head], slices.Concat(chunks...), png[head:])
}

// withProfileParts puts a profile into a JPEG file, in parts of a size.
func withProfileParts(file, profile []byte, size int) []byte {
	out, parts := slices.Clone(file[:2]), (len(profile)+size-1)/size
	for i := range parts {
		part := profile[i*size : min((i+1)*size, len(profile))]
		body := slices.Concat([]byte("ICC_PROFILE\x00"), []byte{byte(i + 1), byte(parts)}, part)
		out = append(out, 0xff, 0xe2)
		out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
		out = append(out, body...)
	}
	return append(out, file[2:]...)
}

func be32(v ...uint32) (b []byte) {
	for _, v := range v {
		b = binary.BigEndian.AppendUint32(b, v)
	}
	return b
}

// What a file says comes out as it stands there, in every format, and the pixels stay as they are.
func TestColoursOfFiles(t *testing.T) {
	files := encoded(t, card())
	profile, long := profileOf(3000), profileOf(200_000)
	primaries := []uint32{31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000}
	for name, tt := range map[string]struct {
		plain, file []byte
		want        header.Colours
	}{
		"png, nothing": {files["png"], files["png"], header.Colours{}},
		"png, all": {files["png"], withChunks(files["png"], pngChunk("gAMA", be32(45455)), pngChunk("cHRM", be32(primaries...)),
			pngChunk("sRGB", []byte{0}), pngChunk("iCCP", packed("a name", long)), pngChunk("cICP", []byte{12, 13, 0, 1}), pngChunk("tEXt", []byte("a\x00b"))),
			header.Colours{CodePoints: []byte{12, 13, 0, 1}, Profile: long, SRGB: true, Gamma: 45455, Primaries: primaries}},
		"png, the first counts":   {files["png"], withChunks(files["png"], pngChunk("gAMA", be32(45455)), pngChunk("gAMA", be32(100000))), header.Colours{Gamma: 45455}},
		"jpeg, nothing":           {files["jpeg"], files["jpeg"], header.Colours{}},
		"jpeg, one part":          {files["jpeg"], withProfileParts(files["jpeg"], profile, 60000), header.Colours{Profile: profile}},
		"jpeg, four parts":        {files["jpeg"], withProfileParts(files["jpeg"], long, 60000), header.Colours{Profile: long}},
		"webp":                    {files["webp"], withRIFF(files["webp"], "ICCP", profile), header.Colours{Profile: profile}},
		"bmp, nothing":            {files["bmp"], files["bmp"], header.Colours{}},
		"bmp, its version 4":      {files["bmp"], bmpSaying(files["bmp"], 108, "BGRs", nil), header.Colours{SRGB: true}},
		"bmp, with a profile":     {files["bmp"], bmpSaying(files["bmp"], 124, "DEBM", profile), header.Colours{Profile: profile}},
		"bmp, nothing by version": {files["bmp"], bmpSaying(files["bmp"], 108, "DEBM", nil), header.Colours{}},
		"gif, which says nothing": {files["gif"], files["gif"], header.Colours{}},
	} {
		t.Run(name, func(t *testing.T) {
			plain, err := Decode(tt.plain)
			if err != nil {
				t.Fatal(err)
			}
			p, err := Decode(tt.file)
			if err != nil {
				t.Fatal(err)
			}
			if !p.Colours.Equal(tt.want) {
				t.Errorf("it says %+.40v, want %+.40v", p.Colours, tt.want)
			}
			if !bytes.Equal(p.Pix, plain.Pix) {
				t.Error("its pixels are others")
			}
		})
	}
}

// bmpSaying gives a BMP file of 40 bytes of header a longer one that says its colours, with a profile at
// its end. Source: Microsoft, BITMAPV5HEADER (from memory).
func bmpSaying(file []byte, length int, kind string, profile []byte) []byte {
	const begins, short = 14, 40
	head := make([]byte, length)
	copy(head, file[begins:begins+short])
	le := binary.LittleEndian
	le.PutUint32(head, uint32(length))
	copy(head[56:], kind)
	pixels := file[le.Uint32(file[10:]):]
	if length >= 124 {
		le.PutUint32(head[112:], uint32(length+len(pixels)))
		le.PutUint32(head[116:], uint32(len(profile)))
	}
	out := slices.Concat(file[:begins], head, pixels, profile)
	le.PutUint32(out[2:], uint32(len(out)))
	le.PutUint32(out[10:], uint32(begins+length))
	return out
}

// withRIFF puts a chunk before the others of a WebP file.
func withRIFF(file []byte, name string, body []byte) []byte {
	out := slices.Concat(file[:12], riffChunk(name, body), file[12:])
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
	return out
}

// A TIFF file is written with one more tag in its directory.
func TestColoursOfTIFF(t *testing.T) {
	var b bytes.Buffer
	if err := tiff.Encode(&b, card(), nil); err != nil {
		t.Fatal(err)
	}
	profile := profileOf(700)
	with := func(kind uint16, count int) []byte {
		file := slices.Clone(b.Bytes())
		at := binary.LittleEndian.Uint32(file[4:])
		n := binary.LittleEndian.Uint16(file[at:])
		directory := slices.Clone(file[at+2:][:12*n])
		binary.LittleEndian.PutUint32(file[4:], uint32(len(file)))
		place := uint32(len(file) + 2 + 12*(int(n)+1) + 4)
		file = binary.LittleEndian.AppendUint16(file, n+1)
		file = append(file, directory...)
		file = binary.LittleEndian.AppendUint16(file, 34675)
		file = binary.LittleEndian.AppendUint16(file, kind)
		file = binary.LittleEndian.AppendUint32(file, uint32(count))
		file = binary.LittleEndian.AppendUint32(file, place)
		return append(append(file, 0, 0, 0, 0), profile...)
	}
	p, err := Decode(with(7, len(profile)))
	if err != nil || !bytes.Equal(p.Colours.Profile, profile) {
		t.Errorf("%v; %d bytes of a profile, want %d", err, len(p.Colours.Profile), len(profile))
	}
	for name, file := range map[string][]byte{"longer than the file": with(7, 1<<31), "of letters": with(2, len(profile))} {
		if _, err := Decode(file); !errors.Is(err, ErrProfile) {
			t.Errorf("a profile %s: %v", name, err)
		}
	}
}

func TestRefusedColours(t *testing.T) {
	files := encoded(t, card())
	parts := withProfileParts(files["jpeg"], profileOf(2000), 1000)
	second := bytes.LastIndex(parts, []byte("ICC_PROFILE")) + 12
	part := func(number, of byte) []byte {
		file := slices.Clone(parts)
		file[second], file[second+1] = number, of
		return file
	}
	for name, tt := range map[string]struct {
		file []byte
		want error
	}{
		"packed in another way":   {withChunks(files["png"], pngChunk("iCCP", []byte("name\x00\x01xyz"))), ErrProfile},
		"packed badly":            {withChunks(files["png"], pngChunk("iCCP", []byte("name\x00\x00xyz"))), ErrProfile},
		"without a name":          {withChunks(files["png"], pngChunk("iCCP", []byte("name"))), ErrProfile},
		"unpacked without an end": {withChunks(files["png"], pngChunk("iCCP", packed("zip", make([]byte, header.MostProfile+1)))), ErrProfile},
		"a bmp's beyond its end":  {bmpSaying(files["bmp"], 124, "DEBM", nil), ErrProfile},
		"three code points":       {withChunks(files["png"], pngChunk("cICP", []byte{1, 13, 0})), ErrProfile},
		"a part twice":            {part(1, 2), ErrProfile},
		"a part too few":          {part(2, 3), ErrProfile},
		"a part beyond the last":  {part(3, 2), ErrProfile},
		"a part 0":                {part(0, 2), ErrProfile},
	} {
		if _, err := Decode(tt.file); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", name, err, tt.want)
		}
	}
}

// A chunk that claims more than there is leaves the decoder to say so.
func TestColoursOfAShortFile(t *testing.T) {
	file := withChunks(encoded(t, card())["png"], pngChunk("iCCP", packed("a", profileOf(900))))
	for n := range len(file) {
		if c, err := header.PNGColours(nil, bytes.NewReader(file[:n])); err != nil || c.Gamma != 0 {
			t.Fatalf("%d bytes: %v", n, err)
		}
	}
}

// The header of a JPEG file with four components is enough to refuse it (ITU-T T.81, B.2.2).
func TestInksAreRefused(t *testing.T) {
	file := []byte("\xff\xd8\xff\xc0\x00\x14\x08\x00\x08\x00\x08\x04\x01\x11\x00\x02\x11\x00\x03\x11\x00\x04\x11\x00\xff\xda\x00\x0e")
	if _, err := Decode(append(file, make([]byte, 200)...)); !errors.Is(err, ErrInks) {
		t.Errorf("four inks: %v", err)
	}
}
