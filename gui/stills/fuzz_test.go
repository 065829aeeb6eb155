package stills

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Whatever lies in picture.png: it is a picture of the size that still.json tells, or refused
// as damaged.
func FuzzPicture(f *testing.F) {
	var file bytes.Buffer
	if err := WritePNG(&file, imageOf(noise(1))); err != nil {
		f.Fatal(err)
	}
	f.Add(file.Bytes(), uint8(noise(1).Width), uint8(noise(1).Height))
	f.Add(file.Bytes()[:40], uint8(3), uint8(2))
	f.Fuzz(func(t *testing.T, data []byte, width, height uint8) {
		p, err := readPNG(bytes.NewReader(data), int(width), int(height))
		switch {
		case err != nil && !errors.Is(err, ErrDamaged):
			t.Fatalf("%v is no word", err)
		case err == nil && (p.Check() != nil || p.Width != int(width) || p.Height != int(height)):
			t.Fatalf("%d x %d became %d x %d, %v", width, height, p.Width, p.Height, p.Check())
		}
		if c, configErr := png.DecodeConfig(bytes.NewReader(data)); err == nil && (configErr != nil || c.Width != p.Width) {
			t.Fatalf("%v, %v", c, configErr)
		}
	})
}

// Whatever lies in the cache of small pictures: the still has a small picture, and no large one.
func FuzzThumbnail(f *testing.F) {
	var small, large bytes.Buffer
	if err := WritePNG(&small, imageOf(noise(1))); err != nil {
		f.Fatal(err)
	}
	if err := WritePNG(&large, image.NewRGBA(image.Rect(0, 0, ThumbnailSide+1, 1))); err != nil {
		f.Fatal(err)
	}
	f.Add(small.Bytes())
	f.Add(large.Bytes())
	f.Add(small.Bytes()[:40])
	s := storeAt(f)
	id := keep(f, s, 1)
	f.Fuzz(func(t *testing.T, cached []byte) {
		if err := os.MkdirAll(s.folders.Cache, 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(s.cachePath(id), cached, 0o600); err != nil {
			t.Fatal(err)
		}
		img, err := s.Thumbnail(id, false)
		if err != nil || img.Rect.Empty() || max(img.Rect.Dx(), img.Rect.Dy()) > ThumbnailSide {
			t.Errorf("%v, %v", img, err)
		}
	})
}

// Whatever a folder beside the stills is called, and whichever name is asked for: only what
// has the name of a still is one, and nothing outside of the stills' folder is touched.
func FuzzNames(f *testing.F) {
	for _, name := range []string{"20260102-030405-abcdefghij", "..", "../outside", "trash", ".new-20260102-030405-abcdefghij", "lock", "", "a/b", "20260102-030405-abcdefghij/../../.."} {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		s := storeAt(t)
		outside := filepath.Join(filepath.Dir(s.folders.Data), "outside")
		if err := os.MkdirAll(outside, 0o700); err != nil {
			t.Fatal(err)
		}
		if inside := filepath.Join(s.folders.Data, name); filepath.IsLocal(name) && os.MkdirAll(inside, 0o700) != nil {
			return // no name for a folder
		}
		list, problems, err := s.List()
		if err != nil && filepath.IsLocal(name) || len(list) > 0 {
			t.Errorf("%q: listed %v, %v", name, list, err)
		}
		for _, p := range problems {
			if !isID(p.ID) || !filepath.IsLocal(p.ID) || strings.ContainsAny(p.ID, `/\`) {
				t.Errorf("%q counts as a still", p.ID)
			}
		}
		_, errOpen := s.Open(name)
		for _, err := range []error{errOpen, s.Delete(name), s.Restore(name), s.Rename(name, "a")} {
			if err == nil {
				t.Errorf("%q was taken for a still", name)
			}
		}
		beside, err := os.ReadDir(filepath.Dir(s.folders.Data))
		for _, e := range beside {
			if !slices.Contains([]string{"outside", "stills"}, e.Name()) {
				t.Errorf("%q: beside the stills lies %s", name, e.Name())
			}
		}
		if _, errOutside := os.Stat(outside); errOutside != nil || err != nil {
			t.Errorf("%q: %v, %v", name, errOutside, err)
		}
	})
}
