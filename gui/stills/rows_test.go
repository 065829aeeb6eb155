package stills

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"io"
	"math/rand/v2"
	"runtime"
	"testing"
)

// What is written by rows is what the general encoder writes, pixel for pixel: opaque or not, its
// colours multiplied or not, of one part or several, and from within a larger picture.
func TestRowsAreThePicture(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, size := range []image.Point{{1, 1}, {1, 70}, {70, 1}, {33, 21}, {1500, 900}} {
		for _, opaque := range []bool{true, false} {
			all := image.Rectangle{Max: size.Add(image.Pt(3, 2))}
			straight, multiplied := image.NewNRGBA(all), image.NewRGBA(all)
			for i := 0; i < len(straight.Pix); i += 4 {
				c := color.NRGBA{uint8(r.Uint32()), uint8(r.Uint32()), uint8(r.Uint32()), 255}
				if !opaque {
					c.A = [...]uint8{0, 255, 128, uint8(r.Uint32())}[r.IntN(4)]
				}
				copy(straight.Pix[i:], []uint8{c.R, c.G, c.B, c.A})
				m := color.RGBAModel.Convert(c).(color.RGBA)
				copy(multiplied.Pix[i:], []uint8{m.R, m.G, m.B, m.A})
			}
			in := image.Rectangle{Min: image.Pt(3, 2), Max: all.Max}
			for _, img := range []image.Image{straight.SubImage(in), multiplied.SubImage(in)} {
				var got, want bytes.Buffer
				if err := WritePNG(&got, img); err != nil {
					t.Fatal(err)
				}
				if err := png.Encode(&want, img); err != nil {
					t.Fatal(err)
				}
				g, err := png.Decode(&got)
				if err != nil {
					t.Fatalf("%v, opaque %v: %v", size, opaque, err)
				}
				w, err := png.Decode(&want)
				if err != nil {
					t.Fatal(err)
				}
				for y := range size.Y {
					for x := range size.X {
						if g.At(x, y) != w.At(x, y) {
							t.Fatalf("%v, opaque %v: pixel %d, %d is %v, want %v", size, opaque, x, y, g.At(x, y), w.At(x, y))
						}
					}
				}
			}
		}
	}
}

// A still as large as what is commonly watched takes little beside its pixels to be written: one
// shrinker of some 1.3 MB, its rows (0.46 MB) and what they are shrunk to; our choice of a limit.
func TestSmallPictureTakesLittle(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 480, 320))
	for i := 3; i < len(img.Pix); i += 4 {
		img.Pix[i] = 255
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	if err := WritePNG(io.Discard, img); err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; took > 3_000_000 {
		t.Errorf("it took %d bytes", took)
	}
}
