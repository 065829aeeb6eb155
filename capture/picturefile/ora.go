package picturefile

import (
	"archive/zip"
	"fmt"
	"image"
	"io"
	"path/filepath"
	"strings"

	"app.tonedesk/capture/header"
)

// OpenRaster is a zip archive whose first part, mimetype, is stored as it is; the whole
// picture, all layers merged, is its part mergedimage.png. Source: OpenRaster, Baseline,
// File Layout (openraster.org, version 0.0.5). Only that picture is read here, straight from
// the archive: nothing of an archive is ever written anywhere.
const (
	oraName   = "openraster"
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

// mergedPart returns the archive's merged image.
func mergedPart(s *header.Source) (*zip.File, error) {
	archive, err := openArchive(s)
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
	if merged == nil {
		return nil, fmt.Errorf("no part named %s: %w", oraMerged, ErrNoMerged)
	}
	return merged, nil
}

// openArchive opens an archive whose parts it has counted before, and which says that it is
// OpenRaster. Each part has at least one signature in the list of parts, and the list ends in
// a record. Source: APPNOTE.TXT 6.3, .ZIP File Format Specification, 4.3.12 and 4.3.16.
func openArchive(s *header.Source) (*zip.Reader, error) {
	const part, end, endSize = "PK\x01\x02", "PK\x05\x06", 22
	if parts, _ := s.Count(part); parts > mostParts {
		return nil, fmt.Errorf("archive of %d parts: %w", parts, ErrManyParts)
	}
	if _, at := s.Count(end); at < 0 || at+endSize > s.Size {
		return nil, fmt.Errorf("no end of the archive: %w", ErrTruncated)
	}
	archive, err := zip.NewReader(s.From, s.Size)
	if err != nil {
		return nil, err
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

// headOf returns the first bytes of the merged image, none where it can't be read.
func headOf(merged *zip.File) *header.Source {
	part, err := merged.Open()
	if err != nil {
		return header.SourceOf(nil)
	}
	defer part.Close()
	head, _ := io.ReadAll(io.LimitReader(part, headBytes)) // what is wrong with it the decoder says
	return header.SourceOf(head)
}

// fits says whether a PNG file of c's size can be as long as the merged image, which is never
// unpacked any further than it says that it is long.
func fits(merged *zip.File, c image.Config) bool {
	const perPixel = 8 + 1 // 16 bits a channel, and what deflate adds to what it can't shrink
	return merged.UncompressedSize64 <= uint64(c.Width+1)*uint64(c.Height)*perPixel+besidePixel
}
