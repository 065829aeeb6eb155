package attack

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os/exec"
	"slices"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// sound returns small picture files of every format that is read, by their endings. Those
// that only a general tool writes are there where ImageMagick is.
func sound(t *testing.T) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	put := func(ending string, write func(*bytes.Buffer) error) {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		files[ending] = b.Bytes()
	}
	img, grey := painting(), image.NewGray16(image.Rect(0, 0, 48, 32))
	for i := range grey.Pix {
		grey.Pix[i] = byte(i * 7)
	}
	put("png", func(b *bytes.Buffer) error { return png.Encode(b, img) })
	put("16.png", func(b *bytes.Buffer) error { return png.Encode(b, grey) })
	put("jpg", func(b *bytes.Buffer) error { return jpeg.Encode(b, img, nil) })
	put("gif", func(b *bytes.Buffer) error { return gif.Encode(b, img, nil) })
	put("bmp", func(b *bytes.Buffer) error { return bmp.Encode(b, img) })
	put("tif", func(b *bytes.Buffer) error { return tiff.Encode(b, img, nil) })
	put("deflate.tif", func(b *bytes.Buffer) error {
		return tiff.Encode(b, grey, &tiff.Options{Compression: tiff.Deflate, Predictor: true})
	})
	put("ora", func(b *bytes.Buffer) error { return layered(b, files["png"]) })
	return byTool(t, files)
}

// layered writes an OpenRaster file around a picture.
func layered(b *bytes.Buffer, picture []byte) error {
	z := zip.NewWriter(b)
	for _, part := range []struct {
		name    string
		method  uint16
		content []byte
	}{
		{"mimetype", zip.Store, []byte("image/openraster")},
		{"stack.xml", zip.Deflate, []byte(`<image version="0.0.5" w="64" h="48"><stack><layer src="data/0.png" name="paint"/></stack></image>`)},
		{"data/0.png", zip.Store, picture},
		{"mergedimage.png", zip.Store, picture},
		{"Thumbnails/thumbnail.png", zip.Store, picture},
	} {
		w, err := z.CreateHeader(&zip.FileHeader{Name: part.name, Method: part.method})
		if err != nil {
			return err
		}
		if _, err := w.Write(part.content); err != nil {
			return err
		}
	}
	return z.Close()
}

// byTool adds formats that ImageMagick writes.
func byTool(t *testing.T, files map[string][]byte) map[string][]byte {
	if _, err := exec.LookPath("convert"); err != nil {
		return files
	}
	for ending, args := range map[string][]string{
		"progressive.jpg": {"-interlace", "Plane", "jpg:-"},
		"cmyk.jpg":        {"-colorspace", "CMYK", "jpg:-"},
		"interlaced.png":  {"-interlace", "PNG", "png:-"},
		"lzw.tif":         {"-compress", "LZW", "tif:-"},
		"lossy.webp":      {"webp:-"},
		"lossless.webp":   {"-define", "webp:lossless=true", "webp:-"},
	} {
		cmd := exec.Command("convert", append([]string{"png:-"}, args...)...)
		cmd.Stdin = bytes.NewReader(files["png"])
		if out, err := cmd.Output(); err == nil && len(out) > 0 {
			files[ending] = out
		} else {
			t.Logf("no %s: %v", ending, err)
		}
	}
	return files
}

// painting is a small picture with some of everything: steps, a ramp, transparency.
func painting() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 64, 48))
	for y := range 48 {
		for x := range 64 {
			c := color.NRGBA{uint8(4 * x), uint8(x * y), uint8(5 * y), 255}
			if x > 40 && y > 30 {
				c.A = uint8(6 * (x - 40))
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

// damage returns a damaged copy of a file.
func damage(r *rand.Rand, file []byte) []byte {
	d := slices.Clone(file)
	for range 1 + r.IntN(3) {
		at := r.IntN(len(d))
		run := d[at : at+r.IntN(min(len(d)-at, 40)+1)]
		switch r.IntN(8) {
		case 0:
			d = d[:at+1]
		case 1, 2:
			for range 1 + r.IntN(12) {
				d[r.IntN(len(d))] ^= 1 << r.IntN(8)
			}
		case 3:
			for i := range run {
				run[i] = 0xff
			}
		case 4:
			clear(run)
		case 5:
			copy(d[r.IntN(len(d)):], slices.Clone(run))
		case 6:
			d = slices.Insert(d, at, run...)
		case 7:
			if at+4 <= len(d) { // a length, perhaps, that lies
				binary.BigEndian.PutUint32(d[at:], r.Uint32()>>r.IntN(32))
			}
		}
	}
	if r.IntN(2) == 0 {
		mendSums(d)
	}
	return d
}

// mendSums gives the chunks of a damaged PNG their right sums again, so that what is behind
// the check gets to see them. Source: PNG, third edition (W3C 2025), section 5.3.
func mendSums(d []byte) {
	const signature = "\x89PNG\r\n\x1a\n"
	if !bytes.HasPrefix(d, []byte(signature)) {
		return
	}
	for at := len(signature); at+12 <= len(d); {
		n := int(binary.BigEndian.Uint32(d[at:]))
		end := at + 8 + n
		if n < 0 || end+4 > len(d) {
			return
		}
		binary.BigEndian.PutUint32(d[end:], crc32.ChecksumIEEE(d[at+4:end]))
		at = end + 4
	}
}

// endings lists the formats in a fixed order.
func endings(files map[string][]byte) []string {
	var list []string
	for e := range files {
		list = append(list, e)
	}
	slices.Sort(list)
	return list
}
