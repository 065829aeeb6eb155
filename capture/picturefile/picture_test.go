package picturefile

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"

	"app.tonedesk/capture"
)

// card returns a small picture without symmetry: two greys, an F of a kind.
func card() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 3, 4))
	for i, dark := range []int{1, 1, 1, 1, 0, 0, 1, 1, 0, 1, 0, 0} {
		v := byte(200 - 150*dark)
		copy(img.Pix[4*i:], []byte{v, v, v, 255})
	}
	return img
}

// encoded returns img in every format that we read, lossless where the format allows.
func encoded(t testing.TB, img *image.NRGBA) map[string][]byte {
	t.Helper()
	files := map[string][]byte{"webp": webpOf(img, nil)}
	add := func(name string, encode func(*bytes.Buffer) error) {
		var b bytes.Buffer
		if err := encode(&b); err != nil {
			t.Fatal(name, err)
		}
		files[name] = b.Bytes()
	}
	add("png", func(b *bytes.Buffer) error { return png.Encode(b, img) })
	add("jpeg", func(b *bytes.Buffer) error { return jpeg.Encode(b, img, &jpeg.Options{Quality: 100}) })
	add("bmp", func(b *bytes.Buffer) error { return bmp.Encode(b, img) })
	add("tiff", func(b *bytes.Buffer) error { return tiff.Encode(b, img, nil) })
	add("tiff deflated", func(b *bytes.Buffer) error {
		return tiff.Encode(b, img, &tiff.Options{Compression: tiff.Deflate})
	})
	add("openraster", func(b *bytes.Buffer) error { return writeORA(b, oraParts(files["png"])...) })
	add("gif", func(b *bytes.Buffer) error {
		p := image.NewPaletted(img.Rect, color.Palette{color.Gray{50}, color.Gray{200}})
		for i := range p.Pix {
			p.Pix[i] = img.Pix[4*i] / 200
		}
		return gif.Encode(b, p, nil)
	})
	return files
}

// webpOf encodes a picture of exactly two greys, with Exif data if there are any. It
// is the least that RFC 9649 (2024), section 3, allows: no transform, simple codes.
func webpOf(img *image.NRGBA, exif []byte) []byte {
	var out []byte
	n := 0
	put := func(v, bits int) { // least significant bit first
		for range bits {
			if n%8 == 0 {
				out = append(out, 0)
			}
			out[n/8] |= byte(v&1) << (n % 8)
			v, n = v>>1, n+1
		}
	}
	size := img.Rect.Size()
	put(0x2f, 8)
	put(size.X-1, 14)
	put(size.Y-1, 14)
	put(0, 1+3+1+1+1) // no alpha, version 0, no transform, no cache, one set of codes
	for _, c := range [][]int{{50, 200}, {50, 200}, {50, 200}, {255}, {0}} {
		put(1, 1) // a simple code
		put(len(c)-1, 1)
		put(1, 1)
		for _, symbol := range c {
			put(symbol, 8)
		}
	}
	for i := 0; i < len(img.Pix); i += 4 {
		bit := int(img.Pix[i] / 200)
		put(bit|bit<<1|bit<<2, 3) // green, red, blue
	}
	body := append(riffChunk("VP8X", []byte{8, 0, 0, 0, byte(size.X - 1), 0, 0, byte(size.Y - 1), 0, 0}), riffChunk("VP8L", out)...)
	if exif == nil {
		body = riffChunk("VP8L", out)
	} else {
		body = append(body, riffChunk("EXIF", exif)...)
	}
	return riffChunk("RIFF", append([]byte("WEBP"), body...))
}

func riffChunk(name string, body []byte) []byte {
	b := binary.LittleEndian.AppendUint32([]byte(name), uint32(len(body)))
	b = append(b, body...)
	if len(body)%2 == 1 {
		b = append(b, 0)
	}
	return b
}

// near says whether two rows of pixels agree to within tol codes.
func near(a, b []byte, tol int) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if d := int(a[i]) - int(b[i]); d > tol || d < -tol {
			return false
		}
	}
	return true
}

func TestDecodePicture(t *testing.T) {
	want := card()
	for name, data := range encoded(t, want) {
		p, err := Decode(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		tol := 0
		if name == "jpeg" {
			tol = 3
		}
		if p.Size != image.Pt(3, 4) || p.Stride != 12 || !near(p.Pix, want.Pix, tol) {
			t.Errorf("%s: size %v, stride %d, pixels %v", name, p.Size, p.Stride, p.Pix)
		}
	}
}

func TestDecodePictureCutShort(t *testing.T) {
	want := card()
	for name, data := range encoded(t, want) {
		for n := range data {
			p, err := Decode(data[:n])
			switch {
			case n == 0:
				if !errors.Is(err, ErrEmptyFile) {
					t.Errorf("%s: no bytes: %v", name, err)
				}
			case n == 1:
				if !errors.Is(err, ErrNotPicture) {
					t.Errorf("%s: one byte: %v", name, err)
				}
			case err != nil:
				if !errors.Is(err, ErrTruncated) {
					t.Errorf("%s: %d of %d bytes: %v", name, n, len(data), err)
				}
			case !near(p.Pix, want.Pix, 3): // what comes after the pixels may be missing
				t.Errorf("%s: %d of %d bytes give another picture", name, n, len(data))
			}
		}
	}
}

// claims returns files whose headers claim a size, and that have little else.
func claims(w, h uint32) map[string][]byte {
	be, le := binary.BigEndian, binary.LittleEndian
	ihdr := append(be.AppendUint32(be.AppendUint32([]byte("IHDR"), w), h), 8, 6, 0, 0, 0)
	pngFile := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), ihdr...)
	pngFile = be.AppendUint32(pngFile, crc32.ChecksumIEEE(ihdr))
	bmpFile := append([]byte("BM\x00\x00\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00"), le.AppendUint32(le.AppendUint32(nil, w), h)...)
	bmpFile = append(bmpFile, 1, 0, 32, 0)
	bmpFile = append(bmpFile, make([]byte, 24)...)
	tiffFile := []byte("II*\x00\x08\x00\x00\x00\x09\x00")
	for _, e := range [][2]uint32{{256, w}, {257, h}, {258, 8}, {259, 1}, {262, 1}, {273, 8}, {277, 1}, {278, h}, {279, 4}} {
		tiffFile = le.AppendUint16(tiffFile, uint16(e[0]))
		tiffFile = append(tiffFile, 4, 0, 1, 0, 0, 0) // one LONG
		tiffFile = le.AppendUint32(tiffFile, e[1])
	}
	vp8x := append([]byte{0, 0, 0, 0}, byte(w-1), byte((w-1)>>8), byte((w-1)>>16), byte(h-1), byte((h-1)>>8), byte((h-1)>>16))
	var ora bytes.Buffer
	if err := writeORA(&ora, oraParts(pngFile)...); err != nil {
		panic(err)
	}
	return map[string][]byte{
		"openraster": ora.Bytes(),
		"png":        pngFile,
		"bmp":        bmpFile,
		"tiff":       append(tiffFile, 0, 0, 0, 0),
		"webp":       riffChunk("RIFF", append([]byte("WEBP"), riffChunk("VP8X", vp8x)...)),
		"gif":        append(le.AppendUint16(le.AppendUint16([]byte("GIF89a"), uint16(w)), uint16(h)), 0, 0, 0),
		"jpeg":       append(be.AppendUint16(be.AppendUint16([]byte("\xff\xd8\xff\xc0\x00\x0b\x08"), uint16(h)), uint16(w)), "\x01\x01\x11\x00\xff\xda\x00\x08\x01\x01\x00\x00\x3f\x00"...),
	}
}

func TestDecodePictureHuge(t *testing.T) {
	for name, data := range claims(20001, 5000) { // 100,005,000 pixels
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Decode(data)
		runtime.ReadMemStats(&after)
		if !errors.Is(err, ErrHuge) {
			t.Errorf("%s: %v", name, err)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 1<<20 {
			t.Errorf("%s: %d bytes set up before it was refused", name, used)
		}
	}
	for name, data := range claims(50, 40) { // the same files are no worse than cut short at a size that is allowed
		if _, err := Decode(data); err == nil || errors.Is(err, ErrHuge) || errors.Is(err, ErrNotPicture) {
			t.Errorf("%s of a small size: %v", name, err)
		}
	}
	// A modest WebP header before huge contents (16,383 x 16,383).
	vp8l := []byte{0x2f, 0xfe, 0xff, 0xff, 0x0f}
	data := riffChunk("RIFF", append([]byte("WEBP"), riffChunk("VP8L", vp8l)...))
	if _, err := Decode(data); !errors.Is(err, ErrHuge) {
		t.Errorf("webp, VP8L only: %v", err)
	}
	modest := append(riffChunk("VP8X", make([]byte, 10)), riffChunk("VP8L", vp8l)...)
	if _, err := Decode(riffChunk("RIFF", append([]byte("WEBP"), modest...))); !errors.Is(err, ErrDamaged) {
		t.Errorf("webp, VP8X of 1 x 1 before it: %v", err)
	}
}

func TestDecodePictureRefuses(t *testing.T) {
	flipped := encoded(t, card())["png"]
	flipped[len(flipped)-25] ^= 0xff
	tests := []struct {
		name, data string
		want       error
	}{
		{"text", "Dear diary, today I drew a hand.", ErrNotPicture},
		{"text that begins like a bmp", "BMW and other letters, in a row", ErrNotPicture},
		{"sound", "RIFF\x24\x00\x00\x00WAVEfmt \x10\x00\x00\x00", ErrNotPicture},
		{"zeros", strings.Repeat("\x00", 64), ErrNotPicture},
		{"png with a wrong check sum", string(flipped), ErrDamaged},
		{"bmp, 16 bits a pixel", "BM\x00\x00\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00\x01\x00\x00\x00\x01\x00\x00\x00\x01\x00\x10\x00" + strings.Repeat("\x00", 30), ErrKind},
		{"bmp of no size", string(claims(0, 0)["bmp"]), ErrDamaged},
		{"webp animation", string(riffChunk("RIFF", append([]byte("WEBP"), riffChunk("VP8X", []byte{2, 0, 0, 0, 9, 0, 0, 9, 0, 0})...))), ErrKind},
	}
	for _, tt := range tests {
		if _, err := Decode([]byte(tt.data)); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, err, tt.want)
		}
	}
}

func TestOpenPicture(t *testing.T) {
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	data := encoded(t, card())["png"]
	secret := write("secret.png", data)
	if err := os.Chmod(secret, 0); err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		path string
		want error
	}{
		{write("named wrongly.jpg", data), nil}, // the contents count, not the name
		{filepath.Join(dir, "missing.png"), fs.ErrNotExist},
		{filepath.Join(secret, "below a file.png"), nil},
		{dir, ErrDirectory},
		{write("empty.png", nil), ErrEmptyFile},
		{write("short.png", data[:40]), ErrTruncated},
		{write("text.png", []byte("not a picture at all")), ErrNotPicture},
		{secret, fs.ErrPermission},
		{os.DevNull, ErrNotFile},
	}
	for i, tt := range tests {
		_, err := Open(tt.path)
		switch {
		case i == 2: // the system's own word for it differs
			if err == nil {
				t.Errorf("%s: no error", tt.path)
			}
		case tt.want == fs.ErrPermission && (os.Geteuid() == 0 || runtime.GOOS == "windows"), tt.want == ErrNotFile && runtime.GOOS == "windows":
		case !errors.Is(err, tt.want):
			t.Errorf("%s: %v, want %v", tt.path, err, tt.want)
		case err != nil && strings.Count(err.Error(), filepath.Base(tt.path)) != 1:
			t.Errorf("%q does not name the file once", err)
		}
	}
	large := write("large.png", data)
	if err := os.Truncate(large, MaxFileBytes+1); err != nil { // no such space is taken up
		t.Skip(err)
	}
	if _, err := Open(large); !errors.Is(err, ErrHuge) {
		t.Errorf("file of more than MaxFileBytes: %v", err)
	}
}

func TestNewPictureStream(t *testing.T) {
	img := card()
	s := NewStream(img.Pix, img.Stride, img.Rect.Size())
	var f capture.Frame
	changed, err := s.Grab(context.Background(), &f)
	if !changed || err != nil || f.Size != img.Rect.Size() || !bytes.Equal(f.Pix, img.Pix) || f.At.IsZero() {
		t.Errorf("first: %v, %v, %+v", changed, err, f)
	}
	g := f
	if changed, err := s.Grab(context.Background(), &f); changed || err != nil || f.At != g.At {
		t.Errorf("second: %v, %v", changed, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := s.Grab(ctx, &f); !errors.Is(err, context.Canceled) {
		t.Errorf("ended context: %v", err)
	}
	if err := errors.Join(s.Close(), s.Close()); err != nil {
		t.Error(err)
	}
}
