package picturefile

import (
	"archive/zip"
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"strings"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"

	"app.tonedesk/capture/header"
	"app.tonedesk/capture/memory"
)

// pictureFormat is a format of picture files that we read.
type pictureFormat struct {
	name        string
	magic       []string // how its files begin; ? stands for any byte
	config      func(io.Reader) (image.Config, error)
	decode      func(io.Reader) (image.Image, error)
	takes       func(image.Config, *header.Source) float64 // bytes of memory
	orientation func(*header.Source) int                   // 1 to 8; nil: the format has none
	// colours reads what the file says of its colours, from its bytes, or those of the picture in it;
	// nil: nothing is read. The error wraps ErrProfile.
	colours func(*header.Source, io.Reader) (header.Colours, error)
}

var pictureFormats = []pictureFormat{
	{"png", []string{"\x89PNG\r\n\x1a\n"}, png.DecodeConfig, png.Decode, pngTakes, header.PNGOrientation, header.PNGColours},
	{"jpeg", []string{"\xff\xd8\xff"}, jpeg.DecodeConfig, jpeg.Decode, jpegTakes, header.JPEGOrientation, header.JPEGColours},
	{"gif", []string{"GIF87a", "GIF89a"}, gif.DecodeConfig, gif.Decode, plainTakes, nil, nil},
	{"tiff", []string{"II*\x00", "MM\x00*"}, tiff.DecodeConfig, tiff.Decode, tiffTakes, header.TIFFOrientation, header.TIFFColours},
	{"webp", []string{"RIFF????WEBP"}, webp.DecodeConfig, webpDecode, webpTakes, header.WebPOrientation, header.WebPColours},
	// BM alone could begin any text: its info header's length, under 256, says more.
	{"bmp", []string{"BM?????????????\x00\x00\x00"}, bmp.DecodeConfig, bmp.Decode, plainTakes, nil, header.BMPColours},
	{oraName, []string{oraMagic}, png.DecodeConfig, png.Decode, pngTakes, nil, header.PNGColours}, // of its merged image
}

// decode decodes the picture file s, of at most maxPixels pixels. It copes with any
// bytes: decoders that panic are caught.
func decode(s *header.Source, maxPixels int64) (p *Picture, err error) {
	defer func() {
		if r := recover(); r != nil {
			p, err = nil, fmt.Errorf("%w: decoder broke down: %v", ErrDamaged, r)
		}
	}()
	l, err := lookAt(s)
	if err != nil {
		return nil, err
	}
	f, c := l.format, l.config
	if err := f.allow(c, maxPixels, int64(l.takes)); err != nil {
		return nil, err
	}
	if l.merged != nil && !fits(l.merged, c) {
		return nil, fmt.Errorf("%s of %d x %d pixels: %w", f.name, c.Width, c.Height, ErrHuge)
	}
	if c.ColorModel == color.CMYKModel { // what light they make only their printing tells
		return nil, fmt.Errorf("%s: %w", f.name, ErrInks)
	}
	said, err := l.colours(s)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", f.name, err)
	}
	img, err := read(f, s, l.open, f.decode)
	if err != nil {
		return nil, err
	}
	size := image.Pt(c.Width, c.Height)
	memory.LetGo(pixelBytes * size.X * size.Y) // what the decoder needed
	deep := deepRows(img, size)
	rows, each := deep, deepBytes
	if deep == nil {
		rows, each = straightRows(img, size), pixelBytes
	}
	rows, size = upright(rows, size, each, l.orientation)
	memory.LetGo(len(rows)) // what they were made of
	p = &Picture{Pix: rows, Stride: each * size.X, Size: size, Colours: said}
	if deep != nil {
		p.Pix, p.Rest = split(rows, size.X)
	}
	return p, nil
}

// looked is what a picture file says of itself before it is decoded.
type looked struct {
	format      pictureFormat
	config      image.Config
	open        func() (io.Reader, error)
	merged      *zip.File // of OpenRaster; nil: of another format
	orientation int       // 1 to 8
	takes       float64   // bytes that decoding it takes at most
}

// lookAt reads no more of a file than its header.
func lookAt(s *header.Source) (l looked, err error) {
	if l.format, err = formatOf(s.Head(headBytes)); err != nil {
		return l, err
	}
	f, png := l.format, s
	l.open = func() (io.Reader, error) { return s.Reader(), nil }
	if f.name == oraName {
		if l.merged, err = mergedPart(s); err != nil {
			return l, f.explain(s, err, false)
		}
		l.open, png = func() (io.Reader, error) { return l.merged.Open() }, headOf(l.merged) // nothing to close
	}
	if l.config, err = read(f, s, l.open, f.config); err != nil {
		return l, err
	}
	l.orientation = 1
	if f.orientation != nil {
		l.orientation = f.orientation(s)
	}
	l.takes = f.takes(l.config, png)
	if l.orientation > 1 {
		l.takes = max(l.takes, 2*heldBytes(l.config.ColorModel)*pixelsOf(l.config)) // it is turned from one memory into another
	}
	return l, nil
}

// colours returns what the file says of its colours.
func (l looked) colours(s *header.Source) (c header.Colours, err error) {
	if l.format.colours == nil {
		return c, nil
	}
	r, err := l.open()
	if err != nil {
		return c, err
	}
	return l.format.colours(s, bufio.NewReader(r))
}

// allow refuses a size that can't be, or is too large, or has no room in memory.
func (f pictureFormat) allow(c image.Config, maxPixels, takes int64) error {
	err := ErrDamaged
	switch {
	case c.Width <= 0 || c.Height <= 0:
	case int64(c.Width) > maxPixels/int64(c.Height), c.Width > MaxSide, c.Height > MaxSide:
		err = ErrHuge
	default:
		if err = memory.Room(takes); err == nil {
			return nil
		}
	}
	return fmt.Errorf("%s of %d x %d pixels: %w", f.name, c.Width, c.Height, err)
}

// headBytes is how much of a file says what it is.
const headBytes = 64

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
func read[T any](f pictureFormat, s *header.Source, open func() (io.Reader, error), decoder func(io.Reader) (T, error)) (v T, err error) {
	r := &endReader{}
	if r.from, err = open(); err == nil {
		v, err = decoder(r)
	}
	if err != nil {
		return v, f.explain(s, err, r.ended)
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
	n, err := r.from.(io.ReaderAt).ReadAt(b, at)
	r.ended = r.ended || err != nil
	return n, err
}

// explain wraps the sentinel that a decoder's error means for a file; ended says whether
// it wanted more than there was.
func (f pictureFormat) explain(s *header.Source, err error, ended bool) error {
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
		errors.Is(err, bmp.ErrUnsupported), errors.Is(err, zip.ErrAlgorithm), f.name == "webp" && webpIsAnimated(s.Head(headBytes)):
		what = ErrKind
	case ended, f.name == "webp" && webpIsShort(s):
		what = ErrTruncated
	}
	text := strings.TrimPrefix(err.Error(), f.name+": ")
	return fmt.Errorf("%s: %w: %s", f.name, what, text)
}

// webpIsShort says whether data has fewer bytes than its RIFF header says (RFC 9649, 2.4).
func webpIsShort(s *header.Source) bool {
	length := s.Part(4, 4)
	return length == nil || s.Size < 8+int64(binary.LittleEndian.Uint32(length))
}

// webpIsAnimated says whether data's VP8X header announces an animation (RFC 9649, 2.7).
func webpIsAnimated(data []byte) bool {
	return len(data) > 20 && string(data[12:16]) == "VP8X" && data[20]&2 != 0
}
