package picturefile

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"runtime"
	"strings"
	"testing"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/capture/header"
)

// oraFile is a part of an archive, stored or shrunk.
type oraFile struct {
	name   string
	data   []byte
	shrunk bool
}

// oraParts returns the parts that an OpenRaster file must have for its merged image to be
// found.
func oraParts(merged []byte) []oraFile {
	return []oraFile{{"mimetype", []byte(oraType), false}, {"stack.xml", []byte("<image/>"), true}, {oraMerged, merged, true}}
}

// writeORA writes an archive.
func writeORA(w io.Writer, parts ...oraFile) error {
	z := zip.NewWriter(w)
	for _, p := range parts {
		h := &zip.FileHeader{Name: p.name, Method: zip.Store}
		if p.shrunk {
			h.Method = zip.Deflate
		}
		f, err := z.CreateHeader(h)
		if err == nil {
			_, err = f.Write(p.data)
		}
		if err != nil {
			return err
		}
	}
	return z.Close()
}

func oraOf(t testing.TB, parts ...oraFile) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := writeORA(&b, parts...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// paddedPNG returns a small PNG file, with a chunk of zeros behind its header.
func paddedPNG(t testing.TB, zeros int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, card()); err != nil {
		t.Fatal(err)
	}
	if zeros == 0 {
		return b.Bytes()
	}
	chunk := append([]byte("zzZz"), make([]byte, zeros)...)
	all := append([]byte{}, b.Bytes()[:33]...)
	all = binary.BigEndian.AppendUint32(all, uint32(zeros))
	all = append(all, chunk...)
	all = binary.BigEndian.AppendUint32(all, crc32.ChecksumIEEE(chunk))
	return append(all, b.Bytes()[33:]...)
}

// What an archive may do wrong is refused, in words, before anything large is set up.
func TestORARefuses(t *testing.T) {
	lawtest.SkipRaced(t)
	good := paddedPNG(t, 0)
	parts := func(more ...oraFile) []oraFile { return append(oraParts(good), more...) }
	many := parts()
	for i := range mostParts {
		many = append(many, oraFile{fmt.Sprintf("data/%d.png", i), nil, false})
	}
	huge := claims(20001, 5000)["png"]
	tests := []struct {
		name string
		data []byte
		want error
	}{
		{"a zip of another kind", oraOf(t, append([]oraFile{{"mimetype", []byte("application/epub+zip"), false}}, parts()[1:]...)...), ErrNotPicture},
		{"a plain zip", oraOf(t, parts()[1:]...), ErrNotPicture},
		{"no merged image", oraOf(t, parts()[:2]...), ErrNoMerged},
		{"two merged images", oraOf(t, parts(oraFile{oraMerged, good, true})...), ErrDamaged},
		{"a path out of the archive", oraOf(t, parts(oraFile{"../../etc/x", nil, false})...), ErrDamaged},
		{"an absolute path", oraOf(t, parts(oraFile{"/etc/x", nil, false})...), ErrDamaged},
		{"a path of Windows out of the archive", oraOf(t, parts(oraFile{`..\x`, nil, false})...), ErrDamaged},
		{"too many parts", oraOf(t, many...), ErrManyParts},
		{"a merged image that is none", oraOf(t, oraParts([]byte("GIF89a, and not a PNG"))...), ErrDamaged},
		{"a merged image cut short", oraOf(t, oraParts(good[:len(good)-20])...), ErrTruncated},
		{"a merged image of a huge claim", oraOf(t, oraParts(huge)...), ErrHuge},
		{"300 megabytes of nothing, shrunk", oraOf(t, oraParts(paddedPNG(t, 300<<20))...), ErrHuge},
	}
	for _, tt := range tests {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Decode(tt.data)
		runtime.ReadMemStats(&after)
		if !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, err, tt.want)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 8<<20 {
			t.Errorf("%s: %d bytes set up before it was refused", tt.name, used)
		}
	}
}

// Sizes that an archive lies about, in its list or in its parts, give the picture or an
// error, never another picture.
func TestORAWithChangedBytes(t *testing.T) {
	lawtest.SkipRaced(t)
	data := oraOf(t, oraParts(paddedPNG(t, 0))...)
	for i := range data {
		for _, bit := range []byte{1, 0x80, 0xff} {
			changed := bytes.Clone(data)
			changed[i] ^= bit
			p, err := Decode(changed)
			if err == nil && (p.Size != image.Pt(3, 4) || !near(p.Pix, card().Pix, 0)) {
				t.Fatalf("byte %d changed by %#x gives another picture", i, bit)
			}
		}
	}
}

// A part that follows the merged image, a folder, and a mimetype with a line break are no
// trouble.
func TestORAWithMoreInIt(t *testing.T) {
	parts := oraParts(paddedPNG(t, 1000))
	parts[0].data = append(parts[0].data, '\n')
	data := oraOf(t, append(parts, oraFile{"data/", nil, false}, oraFile{"data/layer0.png", nil, false}, oraFile{"notes/" + strings.Repeat("ö", 100), nil, true})...)
	if p, err := Decode(data); err != nil || !near(p.Pix, card().Pix, 0) {
		t.Errorf("%v, %v", p, err)
	}
}

// Whatever the bytes of an archive, it gives a whole picture of an allowed size, or an error
// with a sentinel.
func FuzzORA(f *testing.F) {
	f.Add(oraOf(f, oraParts(paddedPNG(f, 0))...))
	f.Add(oraOf(f, oraParts(paddedPNG(f, 100))[:2]...))
	f.Add(oraOf(f, append(oraParts(claims(300, 200)["png"]), oraFile{"../x", nil, false})...))
	f.Fuzz(func(t *testing.T, data []byte) {
		const most = 1 << 16
		p, err := decode(header.SourceOf(data), most)
		if err == nil {
			if n := p.Size.X * p.Size.Y; n <= 0 || n > most || len(p.Pix) != 4*n {
				t.Fatalf("size %v, %d bytes", p.Size, len(p.Pix))
			}
			return
		}
		for _, said := range []error{ErrNotPicture, ErrKind, ErrHuge, ErrTruncated, ErrDamaged, ErrEmptyFile} {
			if errors.Is(err, said) {
				return
			}
		}
		t.Fatalf("%v is no word", err)
	})
}
