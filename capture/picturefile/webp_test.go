package picturefile

import (
	"encoding/base64"
	"image/color"
	"testing"
)

// Flat pictures of 16 x 16 pixels, written by a general tool (ImageMagick 6.9 with libwebp,
// lossy, quality 80), come back as they were, but for what 8 bits of luma and colour
// differences can't hold: 2 codes.
func TestLossyWebP(t *testing.T) {
	for _, tt := range []struct {
		file string
		want color.NRGBA
	}{
		{"UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoQABAAAUAmJaQAA3AA/v02aAA=", color.NRGBA{0, 0, 0, 255}},
		{"UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoQABAAAUAmJaQAA3AA/vz0AAA=", color.NRGBA{255, 255, 255, 255}},
		{"UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoQABAAAUAmJaQAA3AA/vaQgAA=", color.NRGBA{64, 64, 64, 255}},
		{"UklGRjYAAABXRUJQVlA4ICoAAACwAQCdASoQABAAAUAmJZgCdLoABDAAAP7yiH/4DdfFtMv/iHOhzocvAAA=", color.NRGBA{226, 171, 133, 255}},
		{"UklGRjQAAABXRUJQVlA4ICgAAACQAQCdASoQABAAAUAmJaACdLoAA5gA/q4X6FGyiYp//JT+u7yi5eAA", color.NRGBA{178, 106, 92, 255}},
		{"UklGRjoAAABXRUJQVlA4IC4AAACQAQCdASoQABAAAUAmJaACdLoAA5gA/vtV4/+lwf/S4P/pcH/pcH8bss4bpAAA", color.NRGBA{0, 0, 255, 255}},
		{"UklGRlgAAABXRUJQVlA4WAoAAAAQAAAADwAADwAAQUxQSAoAAAABB1DAiAhERP8DVlA4ICgAAACQAQCdASoQABAAAgA0JZgCdLoAA5gA/vCl1/i1rcLSw/ma2NnqaAAA", color.NRGBA{226, 171, 133, 128}},
	} {
		data, err := base64.StdEncoding.DecodeString(tt.file)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		got := p.Pix[4*(8*16+8):][:4]
		for i, want := range []uint8{tt.want.R, tt.want.G, tt.want.B, tt.want.A} {
			if d := int(got[i]) - int(want); d < -2 || d > 2 {
				t.Errorf("%v is read as %v", tt.want, got)
				break
			}
		}
	}
}
