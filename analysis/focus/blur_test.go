package focus

import (
	"image"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	_ "app.tonedesk/analysis/lawtest"
	"app.tonedesk/analysis/reduce"
)

// A blur is what its definition says: each cell is the sum of all cells around it, as the kernel
// weighs them, and nothing beyond the picture.
func TestBlurIsItsDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 24).Draw(t, "width"), rapid.IntRange(1, 24).Draw(t, "height")
		k := kernelOf(rapid.Float64Range(0.3, 6).Draw(t, "sigma"))
		src := rapid.SliceOfN(rapid.Float32Range(0, 100), w*h, w*h).Draw(t, "cells")
		r := reduce.New()
		defer r.Close()
		f := &Finder{src: r.Reduce(analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}, w, h, nil), w: w, h: h}
		got := make([]float32, w*h)
		f.blur(got, src, k)
		weight := func(apart int) float64 {
			if apart = max(apart, -apart); apart >= len(k) {
				return 0
			}
			return float64(k[apart])
		}
		for i := range got {
			want := 0.0
			for j, v := range src {
				want += weight(i%w-j%w) * weight(i/w-j/w) * float64(v)
			}
			if math.Abs(float64(got[i])-want) > 1e-3 {
				t.Fatalf("cell %d of %dx%d is %g, want %g", i, w, h, got[i], want)
			}
		}
	})
}

// One finder says of picture after picture what a new one says, whole or with something left out, of
// whatever sizes.
func TestFinderOfMany(t *testing.T) {
	r := reduce.New()
	defer r.Close()
	var f Finder
	for i, size := range [][2]int{{60, 40}, {60, 40}, {40, 60}, {60, 40}, {60, 40}} {
		w, h := size[0], size[1]
		p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
		for j := range w * h {
			copy(p.Pix[4*j:], []byte{byte(7 * (j % w) * i), byte(5 * (j / w)), byte(40 * i), 255})
		}
		var mask *analysis.Mask
		if i%2 == 1 {
			mask = &analysis.Mask{Areas: []image.Rectangle{image.Rect(0, 0, 20, 30)}}
		}
		src := r.Reduce(p, w, h, mask)
		if got, want := f.Find(src, DefaultOptions()), new(Finder).Find(src, DefaultOptions()); !reflect.DeepEqual(got, want) {
			t.Errorf("picture %d: %+v, alone %+v", i, got.Places, want.Places)
		}
	}
}

// What counts as the lightest light is as the options say: of a small white and a larger light grey,
// 7 L* below it, the white alone by 5, both by 10.
func TestExtremeWithin(t *testing.T) {
	const w, h = 80, 60
	p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
	for i := range w * h {
		v := byte(119) // L* 50
		switch x := i % w; {
		case x < 8:
			v = 255
		case x > 50:
			v = 235 // L* 93
		}
		copy(p.Pix[4*i:], []byte{v, v, v, 255})
	}
	for extreme, left := range map[float64]bool{5: true, 10: false} {
		o := DefaultOptions()
		o.ExtremeWithin = extreme
		f := Find(p, nil, o)
		if f.Lightest == nil || (f.Lightest.X < 0.3) != left {
			t.Errorf("within %g: %+v", extreme, f.Lightest)
		}
	}
	o := DefaultOptions()
	o.Radius = 0.15
	if r := Find(p, nil, o).Radius(); r < 0.149 || r > 0.151 {
		t.Errorf("the radius is %g", r)
	}
}
