package pictures

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
)

// row is a picture of one row, with what lies behind it in memory.
func row(layout analysis.Layout, pix ...byte) analysis.Pixels {
	return analysis.Pixels{Pix: pix, Stride: len(pix), Width: len(pix) / 4, Height: 1, Layout: layout}
}

func TestPaper(t *testing.T) {
	black := colour.RGB{}
	for _, tt := range []struct {
		what   string
		from   analysis.Pixels
		ground colour.RGB
		want   []byte // nil: the picture itself
	}{
		{"opaque", row(analysis.RGBA, 1, 2, 3, 255, 4, 5, 6, 255), analysis.White, nil},
		{"fully transparent: no colour", row(analysis.RGBA, 1, 2, 3, 0, 4, 5, 6, 255), analysis.White, nil},
		{"a byte that means nothing", row(analysis.BGRX, 1, 2, 3, 77), analysis.White, nil},
		{"no pixels", analysis.Pixels{}, analysis.White, nil},
		{"too few bytes", analysis.Pixels{Pix: make([]byte, 3), Stride: 4, Width: 1, Height: 1}, analysis.White, nil},
		// W3C Compositing and Blending Level 1, 5.1: co = cs αs + cb (1 - αs); 51 of 255 is a fifth
		{"a fifth over white", row(analysis.RGBA, 0, 255, 100, 51, 9, 9, 9, 0), analysis.White, []byte{204, 255, 224, 255, 9, 9, 9, 0}},
		{"a fifth over black", row(analysis.RGBA, 0, 255, 100, 51), black, []byte{0, 51, 20, 255}},
	} {
		p := new(analysis.Paper)
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
	whole := analysis.Pixels{Pix: bytes.Repeat([]byte{0, 0, 0, 51}, 20), Stride: 20, Width: 5, Height: 4}
	got := new(analysis.Paper).Opaque(whole.Crop(image.Rect(1, 1, 4, 4)), analysis.White)
	if got.Width != 3 || got.Height != 3 || !bytes.Equal(got.Pix, bytes.Repeat([]byte{204, 204, 204, 255}, 9)) {
		t.Errorf("%d x %d: %v", got.Width, got.Height, got.Pix)
	}
}

// A frame after the first costs no memory.
func TestPaperAllocatesNothing(t *testing.T) {
	p, large, small := new(analysis.Paper), half(200, 100), half(100, 100)
	p.Opaque(large, analysis.White)
	if n := testing.AllocsPerRun(10, func() { p.Opaque(small, analysis.White); p.Opaque(large, analysis.White) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func half(w, h int) analysis.Pixels {
	return analysis.Pixels{Pix: bytes.Repeat([]byte{10, 20, 30, 128}, w*h), Stride: 4 * w, Width: w, Height: h}
}

func TestCopy(t *testing.T) {
	for _, tt := range []struct {
		from analysis.Pixels
		want []byte
	}{
		{row(analysis.RGBA, 1, 2, 3, 255, 4, 5, 6, 0), []byte{1, 2, 3, 255, 4, 5, 6, 0}},
		{row(analysis.BGRX, 1, 2, 3, 77, 4, 5, 6, 0), []byte{3, 2, 1, 255, 6, 5, 4, 255}},
		{half(3, 3).Crop(image.Rect(1, 1, 2, 3)), []byte{10, 20, 30, 128, 10, 20, 30, 128}},
	} {
		got := Copy(tt.from)
		if !bytes.Equal(got.Pix, tt.want) || got.Layout != analysis.RGBA || got.Check() != nil {
			t.Errorf("a copy of %v is %v, want %v", tt.from.Pix, got.Pix, tt.want)
		}
		if got.Pix[0]++; bytes.Equal(got.Pix[:1], tt.want[:1]) || got.Pix[0] == tt.from.Pix[0] && tt.from.Layout == analysis.RGBA {
			t.Error("the copy is no copy")
		}
	}
}

func TestPixelsOfAFrame(t *testing.T) {
	f := capture.Frame{Pix: []byte{1, 2, 3, 4, 5, 6, 7, 8}, Stride: 8, Size: image.Pt(1, 1), Layout: capture.BGRX}
	if r, g, b, ok := Pixels(&f).At(0, 0); r != 3 || g != 2 || b != 1 || !ok {
		t.Errorf("BGRX reads %d %d %d", r, g, b)
	}
	f.Layout = capture.RGBA
	if r, g, b, ok := Pixels(&f).At(0, 0); r != 1 || g != 2 || b != 3 || !ok {
		t.Errorf("RGBA reads %d %d %d", r, g, b)
	}
}

// A target lies over the ground that was asked for. Black of half a byte over black stays
// black, L* 0, over white it is the grey 127, L* 53.2 (sRGB and CIE15, computed apart).
func TestTargetOnItsGround(t *testing.T) {
	path := filepath.Join(t.TempDir(), "target.png")
	img := image.NewNRGBA(image.Rect(0, 0, 8, 8))
	for i := 3; i < len(img.Pix); i += 4 {
		img.Pix[i] = 128
	}
	img.SetNRGBA(0, 0, color.NRGBA{})
	var b bytes.Buffer
	if err := errors.Join(png.Encode(&b, img), os.WriteFile(path, b.Bytes(), 0o600)); err != nil {
		t.Fatal(err)
	}
	y := math.Pow((127.0/255+0.055)/1.055, 2.4) // IEC 61966-2-1
	for _, tt := range []struct {
		ground colour.RGB
		want   float64
	}{{colour.RGB{}, 0}, {analysis.White, 116*math.Cbrt(y) - 16}} {
		target, err := ReadTarget(path, 0, tt.ground)
		if err != nil {
			t.Fatal(err)
		}
		groups := target.Groups()
		if len(groups) != 1 || math.Abs(groups[0].Mean-tt.want) > 0.2 { // half a bin
			t.Errorf("over %v the groups are %+v, want one of L* %.1f", tt.ground, groups, tt.want)
		}
	}
	if _, err := ReadTarget(path+"no", 0, analysis.White); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a target that isn't there: %v", err)
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

func benchmarkPaper(b *testing.B, px analysis.Pixels) {
	p := new(analysis.Paper)
	p.Opaque(px, analysis.White)
	b.ReportAllocs()
	for b.Loop() {
		p.Opaque(px, analysis.White)
	}
}
