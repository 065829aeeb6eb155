package stills

import (
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/files"
)

// ThumbnailSide is the longer side of a small picture, in pixels.
const ThumbnailSide = 192

// Thumbnail returns a small picture of a still, in colour or as greys of the same
// lightness. It is made when it is first asked for, and kept in the cache where that can be
// written. Errors are those of Open.
func (s *Store) Thumbnail(id string, grey bool) (*image.RGBA, error) {
	p, err := s.small(id)
	if err != nil {
		return nil, fmt.Errorf("thumbnail of still %q: %w", id, err)
	}
	view := "colour"
	if grey {
		view = "grey"
	}
	return Paint(p, view, p.Width, p.Height, views.Look{}), nil
}

// small returns a still's picture, reduced.
func (s *Store) small(id string) (analysis.Pixels, error) {
	if !isID(id) {
		return analysis.Pixels{}, ErrGone
	}
	if p, ok := s.cached(id); ok {
		return p, nil
	}
	m, err := s.readMeta(id)
	if err != nil {
		return analysis.Pixels{}, err
	}
	data, err := os.ReadFile(filepath.Join(s.Folder(id), pictureFile))
	if err != nil {
		return analysis.Pixels{}, s.missing(id, err)
	}
	picture, err := readPNG(data, m.Width, m.Height)
	if err != nil {
		return analysis.Pixels{}, err
	}
	w, h := Fit(picture.Width, picture.Height, ThumbnailSide, ThumbnailSide)
	img := Paint(picture, "colour", w, h, views.Look{})
	s.cache(id, img)
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: w, Height: h}, nil
}

// Fit returns the size of a picture of w x h pixels in a box, no larger than it is.
func Fit(w, h, boxW, boxH int) (int, int) {
	k := min(1, float64(boxW)/float64(w), float64(boxH)/float64(h))
	return max(1, int(k*float64(w)+0.5)), max(1, int(k*float64(h)+0.5))
}

// cachePath is where a still's small picture lies.
func (s *Store) cachePath(id string) string { return filepath.Join(s.folders.Cache, id+".png") }

// cached returns a small picture from the cache.
func (s *Store) cached(id string) (analysis.Pixels, bool) {
	data, err := readUpTo(s.cachePath(id), 8*ThumbnailSide*ThumbnailSide)
	if err != nil {
		return analysis.Pixels{}, false
	}
	w, h, err := pngSize(data)
	if err != nil || w > ThumbnailSide || h > ThumbnailSide {
		return analysis.Pixels{}, false
	}
	p, err := readPNG(data, w, h)
	return p, err == nil
}

// cache keeps a small picture. It is no loss if it can't.
func (s *Store) cache(id string, img image.Image) {
	if s.folders.Cache == "" || os.MkdirAll(s.folders.Cache, 0o700) != nil {
		return
	}
	_ = files.Replace(s.disk, s.cachePath(id), func(w io.Writer) error { return WritePNG(w, img) })
}

func (s *Store) forgetThumbnail(id string) {
	if s.folders.Cache != "" {
		_ = os.Remove(s.cachePath(id))
	}
}
