package analysis

import (
	"errors"
	"image"
	"math"
	"testing"

	"app.tonedesk/analysis/colour"
)

func TestCheck(t *testing.T) {
	tests := []struct {
		name string
		p    Pixels
		ok   bool
	}{
		{"nothing", Pixels{}, true},
		{"no width, no bytes", Pixels{Height: 7}, true},
		{"one pixel", Pixels{Pix: make([]byte, 4), Stride: 4, Width: 1, Height: 1}, true},
		{"the last row needs no stride", Pixels{Pix: make([]byte, 21+8), Stride: 21, Width: 2, Height: 2}, true},
		{"one byte short", Pixels{Pix: make([]byte, 21+7), Stride: 21, Width: 2, Height: 2}, false},
		{"no bytes", Pixels{Stride: 4, Width: 1, Height: 1}, false},
		{"rows overlap", Pixels{Pix: make([]byte, 64), Stride: 7, Width: 2, Height: 2}, false},
		{"stride 0", Pixels{Pix: make([]byte, 64), Width: 2, Height: 2}, false},
		{"stride below 0", Pixels{Pix: make([]byte, 64), Stride: -8, Width: 2, Height: 2}, false},
		{"width below 0", Pixels{Pix: make([]byte, 64), Stride: 8, Width: -2, Height: 2}, false},
		{"height below 0", Pixels{Pix: make([]byte, 64), Stride: 8, Width: 2, Height: -2}, false},
		{"height times stride overflows", Pixels{Pix: make([]byte, 64), Stride: math.MaxInt / 2, Width: 2, Height: 4}, false},
		{"width times 4 overflows", Pixels{Pix: make([]byte, 64), Stride: 8, Width: math.MaxInt/4 + 2, Height: 1}, false},
		{"unknown layout", Pixels{Layout: 2}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			err := tt.p.Check()
			if (err == nil) != tt.ok {
				t.Errorf("Check() = %v, want ok %v", err, tt.ok)
			}
			if err != nil && !errors.Is(err, ErrPixels) {
				t.Errorf("%v does not wrap ErrPixels", err)
			}
		})
	}
}

// What Check lets pass can be read at all its corners, cropped, and read as a whole.
func FuzzCheck(f *testing.F) {
	f.Add(64, 8, 2, 2, uint8(0))
	f.Add(29, 21, 2, 2, uint8(1))
	f.Add(64, math.MaxInt/2, 2, 4, uint8(0))
	f.Add(3, 4, 1, 1, uint8(1))
	f.Fuzz(func(t *testing.T, size, stride, width, height int, layout uint8) {
		p := Pixels{Pix: make([]byte, max(0, min(size, 1<<16))), Stride: stride, Width: width, Height: height, Layout: Layout(layout)}
		err := p.Check()
		if r := Read(p, Options{}); err != nil && r.Counted != 0 {
			t.Fatalf("counted %d pixels of what is none", r.Counted)
		}
		if err != nil {
			return
		}
		p.At(width-1, height-1)
		p.At(0, height-1)
		if c := p.Crop(image.Rect(width/2, height/2, width, height)); c.Check() != nil {
			t.Errorf("the crop fails: %v", c.Check())
		}
	})
}

func TestAtAndCrop(t *testing.T) {
	for _, layout := range []Layout{RGBA, BGRX} {
		p := Pixels{Pix: make([]byte, 100), Stride: 19, Width: 4, Height: 3, Layout: layout}
		set(p, 2, 1, colour.RGB{R: 10, G: 20, B: 30}, 255)
		set(p, 3, 1, colour.RGB{R: 40, G: 50, B: 60}, 0)
		for _, tt := range []struct {
			p    Pixels
			x, y int
			want colour.RGB
			ok   bool
		}{
			{p, 2, 1, colour.RGB{R: 10, G: 20, B: 30}, true},
			{p, 3, 1, colour.RGB{R: 40, G: 50, B: 60}, layout == BGRX}, // alpha 0, or a byte that means nothing
			{p, -1, 0, colour.RGB{}, false},
			{p, 4, 0, colour.RGB{}, false},
			{p, 0, 3, colour.RGB{}, false},
			{p.Crop(image.Rect(1, 1, 3, 9)), 1, 0, colour.RGB{R: 10, G: 20, B: 30}, true},
			{p.Crop(image.Rect(1, 1, 3, 9)), 2, 0, colour.RGB{}, false},
			{p.Crop(image.Rect(9, 9, 20, 20)), 0, 0, colour.RGB{}, false},
		} {
			r, g, b, ok := tt.p.At(tt.x, tt.y)
			if (colour.RGB{R: r, G: g, B: b}) != tt.want || ok != tt.ok {
				t.Errorf("layout %d: At(%d, %d) = %v %v, want %v %v", layout, tt.x, tt.y, colour.RGB{R: r, G: g, B: b}, ok, tt.want, tt.ok)
			}
		}
		if c := p.Crop(image.Rect(-5, 1, 3, 9)); c.Width != 3 || c.Height != 2 || c.Check() != nil {
			t.Errorf("Crop gives %d x %d, %v", c.Width, c.Height, c.Check())
		}
	}
}

func TestLayOver(t *testing.T) {
	ground := colour.RGB{R: 255, G: 0, B: 100}
	tests := []struct {
		source string // W3C Compositing and Blending Level 1, 5.1: co = cs αs + cb (1 - αs), on encoded values
		colour colour.RGB
		alpha  uint8
		want   colour.RGB
	}{
		{"opaque stays", colour.RGB{R: 1, G: 2, B: 3}, 255, colour.RGB{R: 1, G: 2, B: 3}},
		{"transparent stays", colour.RGB{R: 1, G: 2, B: 3}, 0, colour.RGB{R: 1, G: 2, B: 3}},
		{"a fifth: 0.2 * 0 + 0.8 * 255, 0.2 * 255, 0.2 * 200 + 0.8 * 100", colour.RGB{R: 0, G: 255, B: 200}, 51, colour.RGB{R: 204, G: 51, B: 120}},
		{"77/255, to nearest: 100 * 178/255 = 69.8", colour.RGB{R: 255, G: 0, B: 0}, 77, colour.RGB{R: 255, G: 0, B: 70}},
		{"128/255, to nearest: 127, 128, 100.2", colour.RGB{R: 0, G: 255, B: 100}, 128, colour.RGB{R: 127, G: 128, B: 100}},
	}
	for _, tt := range tests {
		p := Pixels{Pix: make([]byte, 4), Stride: 4, Width: 1, Height: 1}
		set(p, 0, 0, tt.colour, tt.alpha)
		p.LayOver(ground)
		wantAlpha := tt.alpha
		if wantAlpha > 0 {
			wantAlpha = 255
		}
		if got := (colour.RGB{R: p.Pix[0], G: p.Pix[1], B: p.Pix[2]}); got != tt.want || p.Pix[3] != wantAlpha {
			t.Errorf("%s: %v alpha %d, want %v alpha %d", tt.source, got, p.Pix[3], tt.want, wantAlpha)
		}
	}
	p := Pixels{Pix: []byte{1, 2, 3, 77}, Stride: 4, Width: 1, Height: 1, Layout: BGRX}
	p.LayOver(ground)
	if string(p.Pix) != "\x01\x02\x03\x4d" {
		t.Errorf("BGRX changed to %v", p.Pix)
	}
}
