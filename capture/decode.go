package capture

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"strings"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// pictureFormat is a format of picture files that we read.
type pictureFormat struct {
	name        string
	magic       []string // how its files begin; ? stands for any byte
	config      func(io.Reader) (image.Config, error)
	decode      func(io.Reader) (image.Image, error)
	orientation func([]byte) int // 1 to 8; nil: the format has none
}

var pictureFormats = []pictureFormat{
	{"png", []string{"\x89PNG\r\n\x1a\n"}, png.DecodeConfig, png.Decode, pngOrientation},
	{"jpeg", []string{"\xff\xd8\xff"}, jpeg.DecodeConfig, jpeg.Decode, jpegOrientation},
	{"gif", []string{"GIF87a", "GIF89a"}, gif.DecodeConfig, gif.Decode, nil},
	{"tiff", []string{"II*\x00", "MM\x00*"}, tiff.DecodeConfig, tiff.Decode, tiffOrientation},
	{"webp", []string{"RIFF????WEBP"}, webp.DecodeConfig, webpDecode, webpOrientation},
	// BM alone could begin any text: its info header's length, under 256, says more.
	{"bmp", []string{"BM?????????????\x00\x00\x00"}, bmp.DecodeConfig, bmp.Decode, nil},
	{oraName, []string{oraMagic}, png.DecodeConfig, png.Decode, nil}, // of its merged image
}

// decode decodes the picture file data, of at most maxPixels pixels. It copes with any
// bytes: decoders that panic are caught.
func decode(data []byte, maxPixels int64) (p *Picture, err error) {
	defer func() {
		if r := recover(); r != nil {
			p, err = nil, fmt.Errorf("%w: decoder broke down: %v", ErrDamaged, r)
		}
	}()
	f, err := formatOf(data)
	if err != nil {
		return nil, err
	}
	open := func() (io.Reader, error) { return bytes.NewReader(data), nil }
	var merged *zip.File // of OpenRaster
	if f.name == oraName {
		if merged, err = mergedPart(data); err != nil {
			return nil, f.explain(data, err, false)
		}
		open = func() (io.Reader, error) { return merged.Open() } // in memory: nothing to close
	}
	c, err := read(f, data, open, f.config)
	switch {
	case err != nil:
		return nil, err
	case c.Width <= 0 || c.Height <= 0:
		return nil, fmt.Errorf("%s of %d x %d pixels: %w", f.name, c.Width, c.Height, ErrDamaged)
	case int64(c.Width) > maxPixels/int64(c.Height), merged != nil && !fits(merged, c):
		return nil, fmt.Errorf("%s of %d x %d pixels: %w", f.name, c.Width, c.Height, ErrHuge)
	}
	img, err := read(f, data, open, f.decode)
	if err != nil {
		return nil, err
	}
	size := image.Pt(c.Width, c.Height)
	pix := straightRows(img, size)
	if f.orientation != nil {
		pix, size = upright(pix, size, f.orientation(data))
	}
	return &Picture{Pix: pix, Stride: 4 * size.X, Size: size}, nil
}

// formatOf finds data's format by its first bytes. The error wraps ErrEmptyFile,
// ErrTruncated or ErrNotPicture.
func formatOf(data []byte) (pictureFormat, error) {
	if len(data) == 0 {
		return pictureFormat{}, ErrEmptyFile
	}
	short := false
	for _, f := range pictureFormats {
		for _, m := range f.magic {
			if n := min(len(m), len(data)); agrees(m[:n], data) {
				if n == len(m) {
					return f, nil
				}
				short = short || n > 1 // one byte could be anything
			}
		}
	}
	if short {
		return pictureFormat{}, ErrTruncated
	}
	return pictureFormat{}, ErrNotPicture
}

// agrees says whether data begins like magic, of which it has at least as many bytes.
func agrees(magic string, data []byte) bool {
	for i := range len(magic) {
		if magic[i] != '?' && magic[i] != data[i] {
			return false
		}
	}
	return true
}

// read has decoder read the picture that open opens, and explains its error.
func read[T any](f pictureFormat, data []byte, open func() (io.Reader, error), decoder func(io.Reader) (T, error)) (v T, err error) {
	r := &endReader{}
	if r.from, err = open(); err == nil {
		v, err = decoder(r)
	}
	if err != nil {
		return v, f.explain(data, err, r.ended)
	}
	return v, nil
}

// endReader notes whether its reader wanted more than there was. Decoders' errors do
// not tell it reliably.
type endReader struct {
	from  io.Reader
	ended bool
}

func (r *endReader) Read(b []byte) (int, error) {
	n, err := r.from.Read(b)
	r.ended = r.ended || errors.Is(err, io.EOF)
	return n, err
}

// ReadAt is for the TIFF decoder, which goes by offsets in the file's bytes.
func (r *endReader) ReadAt(b []byte, at int64) (int, error) {
	n, err := r.from.(*bytes.Reader).ReadAt(b, at)
	r.ended = r.ended || err != nil
	return n, err
}

// explain wraps the sentinel that a decoder's error means for data; ended says whether
// it wanted more than there was.
func (f pictureFormat) explain(data []byte, err error, ended bool) error {
	for _, said := range []error{ErrNotPicture, ErrKind, ErrHuge, ErrTruncated, ErrDamaged} {
		if errors.Is(err, said) {
			return fmt.Errorf("%s: %w", f.name, err)
		}
	}
	what := ErrDamaged
	var (
		jpegKind jpeg.UnsupportedError
		pngKind  png.UnsupportedError
		tiffKind tiff.UnsupportedError
	)
	switch {
	case errors.As(err, &jpegKind), errors.As(err, &pngKind), errors.As(err, &tiffKind),
		errors.Is(err, bmp.ErrUnsupported), errors.Is(err, zip.ErrAlgorithm), f.name == "webp" && webpIsAnimated(data):
		what = ErrKind
	case ended, f.name == "webp" && webpIsShort(data):
		what = ErrTruncated
	}
	text := strings.TrimPrefix(err.Error(), f.name+": ")
	return fmt.Errorf("%s: %w: %s", f.name, what, text)
}

// webpIsShort says whether data has fewer bytes than its RIFF header says (RFC 9649, 2.4).
func webpIsShort(data []byte) bool {
	return len(data) < 8 || uint64(len(data)) < 8+uint64(binary.LittleEndian.Uint32(data[4:]))
}

// webpIsAnimated says whether data's VP8X header announces an animation (RFC 9649, 2.7).
func webpIsAnimated(data []byte) bool {
	return len(data) > 20 && string(data[12:16]) == "VP8X" && data[20]&2 != 0
}
