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
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
)

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
		target, err := ReadTarget(path, analysis.Options{}, tt.ground)
		if err != nil {
			t.Fatal(err)
		}
		groups := target.Groups()
		if len(groups) != 1 || math.Abs(groups[0].Mean-tt.want) > 0.2 { // half a bin
			t.Errorf("over %v the groups are %+v, want one of L* %.1f", tt.ground, groups, tt.want)
		}
	}
	if _, err := ReadTarget(path+"no", analysis.Options{}, analysis.White); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a target that isn't there: %v", err)
	}
}

// row is a picture of one row, with what lies behind it in memory.
func row(layout analysis.Layout, pix ...byte) analysis.Pixels {
	return analysis.Pixels{Pix: pix, Stride: len(pix), Width: len(pix) / 4, Height: 1, Layout: layout}
}

// A file of 16 bits a channel keeps them on both ways to the analysis, laid over white too
// (W3C Compositing and Blending Level 1, simple alpha compositing, computed here): between two codes
// of 8 bits.
func TestSixteenBitsOfAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "deep.png")
	img := image.NewNRGBA64(image.Rect(0, 0, 4, 4))
	for i := range 16 {
		img.SetNRGBA64(i%4, i/4, color.NRGBA64{R: 0x8080, G: 0x8080, B: 0x8080, A: 0x8000})
	}
	var file bytes.Buffer
	if err := png.Encode(&file, img); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	opened, err := ReadOpaque(path, analysis.White)
	if err != nil {
		t.Fatal(err)
	}
	stream, err := Follow(path)
	if err != nil {
		t.Fatal(err)
	}
	defer stream.Close()
	var f capture.Frame
	if _, err := stream.Grab(t.Context(), &f); err != nil {
		t.Fatal(err)
	}
	want := colour.Lightness(colour.LinearOf((0x8080*0x8000 + 0xffff*(0xffff-0x8000)) / 65535.0 / 65535))
	for way, p := range map[string]analysis.Pixels{"opened": opened, "followed": Pixels(&f)} {
		spot, err := analysis.ReadSpot(p, 1, 1, 3)
		if err != nil || math.Abs(spot.Lightness-want) > 0.003 {
			t.Errorf("%s: L* %.4f, want %.4f, %v", way, spot.Lightness, want, err)
		}
	}
}
