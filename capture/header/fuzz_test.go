package header

import (
	"bytes"
	"errors"
	"testing"
)

// Whatever bytes a file has: what it says of its colours is bounded, or refused as damaged.
func FuzzColours(f *testing.F) {
	f.Add([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x04cICP\x09\x10\x00\x01abcd\x00\x00\x00\x04gAMA\x00\x00\xb1\x8fabcd"))
	f.Add([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0eiCCPa\x00\x00\x78\x9c\x03\x00\x00\x00\x00\x01abcd"))
	f.Add([]byte("\xff\xd8\xff\xe2\x00\x13ICC_PROFILE\x00\x01\x01abc\xff\xda"))
	f.Add([]byte("RIFF\x10\x00\x00\x00WEBPICCP\x04\x00\x00\x00abcd"))
	f.Add([]byte("II*\x00\x08\x00\x00\x00\x01\x00\x73\x87\x07\x00\x05\x00\x00\x00\x08\x00\x00\x00\x00\x00\x00\x00"))
	f.Add(append(append([]byte("BM\x00\x00\x00\x00\x00\x00\x00\x00\x8a\x00\x00\x00\x7c\x00\x00\x00"), make([]byte, 52)...), append([]byte("DEBM"), append(make([]byte, 52), "\x7c\x00\x00\x00\x05\x00\x00\x00\x00\x00\x00\x00abcde"...)...)...))
	f.Fuzz(func(t *testing.T, data []byte) {
		s := SourceOf(data)
		said := map[string]func() (Colours, error){
			"png":  func() (Colours, error) { return PNGColours(nil, bytes.NewReader(data)) },
			"jpeg": func() (Colours, error) { return JPEGColours(s, nil) },
			"tiff": func() (Colours, error) { return TIFFColours(s, nil) },
			"bmp":  func() (Colours, error) { return BMPColours(s, nil) },
			"webp": func() (Colours, error) { return WebPColours(s, nil) },
		}
		for format, read := range said {
			c, err := read()
			if err != nil && !errors.Is(err, ErrProfile) {
				t.Errorf("%s: %v", format, err)
			}
			if len(c.Profile) > MostProfile || c.CodePoints != nil && len(c.CodePoints) != 4 || c.Primaries != nil && len(c.Primaries) != 8 {
				t.Errorf("%s says %+.40v", format, c)
			}
		}
	})
}
