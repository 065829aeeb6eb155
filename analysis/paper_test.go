package analysis

import (
	"bytes"
	"image"
	"slices"
	"testing"

	"app.tonedesk/analysis/colour"
)

// row is a picture of one row, with what lies behind it in memory.
func row(layout Layout, pix ...byte) Pixels {
	return Pixels{Pix: pix, Stride: len(pix), Width: len(pix) / 4, Height: 1, Layout: layout}
}

func TestPaper(t *testing.T) {
	black := colour.RGB{}
	for _, tt := range []struct {
		what   string
		from   Pixels
		ground colour.RGB
		want   []byte // nil: the picture itself
	}{
		{"opaque", row(RGBA, 1, 2, 3, 255, 4, 5, 6, 255), White, nil},
		{"fully transparent: no colour", row(RGBA, 1, 2, 3, 0, 4, 5, 6, 255), White, nil},
		{"a byte that means nothing", row(BGRX, 1, 2, 3, 77), White, nil},
		{"no pixels", Pixels{}, White, nil},
		{"too few bytes", Pixels{Pix: make([]byte, 3), Stride: 4, Width: 1, Height: 1}, White, nil},
		// W3C Compositing and Blending Level 1, 5.1: co = cs αs + cb (1 - αs); 51 of 255 is a fifth
		{"a fifth over white", row(RGBA, 0, 255, 100, 51, 9, 9, 9, 0), White, []byte{204, 255, 224, 255, 9, 9, 9, 0}},
		{"a fifth over black", row(RGBA, 0, 255, 100, 51), black, []byte{0, 51, 20, 255}},
	} {
		p := new(Paper)
		before := slices.Clone(tt.from.Pix)
		got := p.Opaque(tt.from, tt.ground)
		again := p.Again(tt.from)
		if !bytes.Equal(tt.from.Pix, before) {
			t.Errorf("%s: the picture was written to", tt.what)
		}
		if tt.want == nil {
			if len(got.Pix) > 0 && &got.Pix[0] != &tt.from.Pix[0] || got.Width != tt.from.Width {
				t.Errorf("%s: copied", tt.what)
			}
			continue
		}
		if !bytes.Equal(got.Pix, tt.want) || !bytes.Equal(again.Pix, tt.want) || got.Check() != nil {
			t.Errorf("%s: %v, again %v, want %v", tt.what, got.Pix, again.Pix, tt.want)
		}
	}
}

// Rows of a picture may lie apart, and a part of one may be all that is given.
func TestPaperOfAPart(t *testing.T) {
	whole := Pixels{Pix: bytes.Repeat([]byte{0, 0, 0, 51}, 20), Stride: 20, Width: 5, Height: 4}
	got := new(Paper).Opaque(whole.Crop(image.Rect(1, 1, 4, 4)), White)
	if got.Width != 3 || got.Height != 3 || !bytes.Equal(got.Pix, bytes.Repeat([]byte{204, 204, 204, 255}, 9)) {
		t.Errorf("%d x %d: %v", got.Width, got.Height, got.Pix)
	}
}

// A frame after the first costs no memory.
func TestPaperAllocatesNothing(t *testing.T) {
	p, large, small := new(Paper), half(200, 100), half(100, 100)
	p.Opaque(large, White)
	if n := testing.AllocsPerRun(10, func() { p.Opaque(small, White); p.Opaque(large, White) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// Budget: a millisecond for a look at an opaque frame, 0 allocs/op.
func BenchmarkPaperOpaque(b *testing.B) {
	p := half(1920, 1080)
	for i := 3; i < len(p.Pix); i += 4 {
		p.Pix[i] = 255
	}
	benchmarkPaper(b, p)
}

func BenchmarkPaperTransparent(b *testing.B) { benchmarkPaper(b, half(1920, 1080)) }

func benchmarkPaper(b *testing.B, px Pixels) {
	p := new(Paper)
	p.Opaque(px, White)
	b.ReportAllocs()
	for b.Loop() {
		p.Opaque(px, White)
	}
}

func half(w, h int) Pixels {
	return Pixels{Pix: bytes.Repeat([]byte{10, 20, 30, 128}, w*h), Stride: 4 * w, Width: w, Height: h}
}
