package stills

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture/plainfile"
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
	still, err := s.picture(id)
	if err != nil {
		return analysis.Pixels{}, err
	}
	w, h := Fit(still.Meta.Width, still.Meta.Height, ThumbnailSide, ThumbnailSide)
	img := Paint(still.Picture, "colour", w, h, views.Look{})
	s.cache(id, img)
	return pixelsOf(img), nil
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
	data, err := plainfile.Read(s.cachePath(id), 8*ThumbnailSide*ThumbnailSide)
	if err != nil {
		return analysis.Pixels{}, false
	}
	c, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil || c.Width > ThumbnailSide || c.Height > ThumbnailSide {
		return analysis.Pixels{}, false
	}
	p, err := readPNG(bytes.NewReader(data), c.Width, c.Height)
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
