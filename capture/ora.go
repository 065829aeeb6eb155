package capture

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"path/filepath"
	"strings"
)

// OpenRaster is a zip archive whose first part, mimetype, is stored as it is; the whole
// picture, all layers merged, is its part mergedimage.png. Source: OpenRaster, Baseline,
// File Layout (openraster.org, version 0.0.5). Only that picture is read here, straight from
// memory: nothing of an archive is ever written anywhere.
const (
	oraType   = "image/openraster"
	oraMagic  = "PK\x03\x04??????????????????????\x08\x00??mimetype" // a local header with that name
	oraMerged = "mergedimage.png"
)

// Limits for an archive (our choice): far more parts than a painting has layers, and room
// in its picture for what a PNG may carry beside the pixels.
const (
	mostParts   = 2000
	besidePixel = 64 << 20 // bytes
)

// oraConfig returns the size that the merged image claims.
func oraConfig(r io.Reader) (image.Config, error) {
	part, err := oraPart(r)
	if err != nil {
		return image.Config{}, err
	}
	defer part.Close()
	b := &boundedReader{from: part, left: besidePixel}
	c, err := png.DecodeConfig(b)
	if err != nil {
		return image.Config{}, oraError(err, b.ended)
	}
	return c, nil
}

// oraDecode decodes the merged image. It stops reading where a picture of the size that it
// claims must have ended.
func oraDecode(r io.Reader) (image.Image, error) {
	c, err := oraConfig(r)
	if err != nil {
		return nil, err
	}
	if c.Width <= 0 || c.Height <= 0 || int64(c.Width) > MaxPixels/int64(c.Height) {
		return nil, fmt.Errorf("%d x %d pixels: %w", c.Width, c.Height, ErrHuge)
	}
	part, err := oraPart(r)
	if err != nil {
		return nil, err
	}
	defer part.Close()
	const perPixel = 8 + 1 // 16 bits a channel, and what deflate adds to what it can't shrink
	most := int64(c.Width+1)*int64(c.Height)*perPixel + besidePixel
	b := &boundedReader{from: part, left: most}
	img, err := png.Decode(b)
	if err != nil {
		return nil, oraError(err, b.ended)
	}
	return img, nil
}

// boundedReader fails with ErrHuge where more is read than it has left.
type boundedReader struct {
	from  io.Reader
	left  int64
	ended bool // more was wanted than there was
}

func (b *boundedReader) Read(p []byte) (int, error) {
	if b.left <= 0 {
		return 0, ErrHuge
	}
	n, err := b.from.Read(p[:min(int64(len(p)), b.left)])
	b.left -= int64(n)
	b.ended = b.ended || errors.Is(err, io.EOF)
	return n, err
}

// oraPart opens the archive's merged image. The error wraps a sentinel of this package.
func oraPart(r io.Reader) (io.ReadCloser, error) {
	archive, err := openArchive(r)
	if err != nil {
		return nil, err
	}
	var merged *zip.File
	for _, f := range archive.File {
		if strings.Contains(f.Name, `\`) || !filepath.IsLocal(strings.TrimSuffix(f.Name, "/")) {
			return nil, fmt.Errorf("a part named %.40q, outside the archive: %w", f.Name, ErrDamaged)
		}
		if f.Name == oraMerged {
			if merged != nil {
				return nil, fmt.Errorf("two parts named %s: %w", oraMerged, ErrDamaged)
			}
			merged = f
		}
	}
	switch {
	case merged == nil:
		return nil, fmt.Errorf("no part named %s: %w", oraMerged, ErrNoMerged)
	case merged.UncompressedSize64 > MaxFileBytes:
		return nil, fmt.Errorf("%s of %d bytes: %w", oraMerged, merged.UncompressedSize64, ErrHuge)
	}
	part, err := merged.Open()
	if err != nil {
		return nil, oraError(err, false)
	}
	return part, nil
}

// openArchive opens an archive whose parts it has counted before, and which says that it is
// OpenRaster.
func openArchive(r io.Reader) (*zip.Reader, error) {
	file, ok := r.(*endReader)
	if !ok {
		return nil, fmt.Errorf("no file in memory: %w", ErrKind)
	}
	parts, ended, err := countParts(io.NewSectionReader(file.from, 0, file.from.Size()))
	switch {
	case err != nil:
		return nil, err
	case parts > mostParts:
		return nil, fmt.Errorf("archive of %d parts: %w", parts, ErrManyParts)
	case !ended:
		return nil, fmt.Errorf("no end of the archive: %w", ErrTruncated)
	}
	archive, err := zip.NewReader(file.from, file.from.Size())
	if err != nil {
		return nil, oraError(err, false)
	}
	if len(archive.File) == 0 || archive.File[0].Name != "mimetype" || !saysORA(archive.File[0]) {
		return nil, fmt.Errorf("archive of another kind: %w", ErrNotPicture)
	}
	return archive, nil
}

// saysORA reports whether the part holds OpenRaster's type, whatever white space stands
// around it.
func saysORA(f *zip.File) bool {
	part, err := f.Open()
	if err != nil {
		return false
	}
	defer part.Close()
	text, err := io.ReadAll(io.LimitReader(part, 64))
	return err == nil && strings.TrimSpace(string(text)) == oraType
}

// countParts counts the signatures of an archive's list of parts, of which each part has at
// least one, and reports whether the record at its end is there. Source: APPNOTE.TXT 6.3,
// .ZIP File Format Specification, 4.3.12 and 4.3.16.
func countParts(r io.Reader) (parts int, ended bool, err error) {
	const part, end, endSize = "PK\x01\x02", "PK\x05\x06", 22
	buf := make([]byte, 1<<16)
	kept := 0          // bytes at the begin of buf that a signature may begin in
	size, last := 0, 0 // bytes so far, and where a record at the end, begun by now, would end
	for {
		n, err := r.Read(buf[kept:])
		seen := buf[:kept+n]
		parts += bytes.Count(seen, []byte(part))
		if at := bytes.LastIndex(seen, []byte(end)); at >= 0 {
			last = size - kept + at + endSize
		}
		size += n
		kept = copy(buf, seen[max(0, len(seen)-len(part)+1):])
		if errors.Is(err, io.EOF) {
			return parts, last > 0 && last <= size, nil
		}
		if err != nil {
			return parts, false, err
		}
	}
}

// oraError gives an error of a decoder inside the archive its sentinel; ended says whether
// it wanted more than there was.
func oraError(err error, ended bool) error {
	var kind png.UnsupportedError
	switch {
	case errors.Is(err, ErrHuge):
		return err
	case errors.As(err, &kind), errors.Is(err, zip.ErrAlgorithm):
		return fmt.Errorf("%w: %v", ErrKind, err)
	case ended:
		return fmt.Errorf("%w: %v", ErrTruncated, err)
	}
	return fmt.Errorf("%w: %v", ErrDamaged, err)
}
