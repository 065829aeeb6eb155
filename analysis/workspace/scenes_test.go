package workspace

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"math"
	"testing"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/analysistest"
)

// view is what a painting program might show: a canvas in a workspace, with what it has at the
// rim.
type view struct {
	size     image.Point
	grey     color.NRGBA
	canvas   image.Rectangle // may reach beyond the view
	content  func(size image.Point) *image.NRGBA
	rulers   int // pixels, at the top and at the left
	scroll   int // pixels, at the right and at the foot
	line     color.NRGBA
	lineWide int // of a line around the canvas
}

func filled(size image.Point, c color.Color) *image.NRGBA {
	img := image.NewNRGBA(image.Rectangle{Max: size})
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

// painted is a painting that fills its canvas.
func painted(size image.Point) *image.NRGBA {
	p := analysistest.Painting(size.X, size.Y, analysis.RGBA)
	return &image.NRGBA{Pix: p.Pix, Stride: p.Stride, Rect: image.Rectangle{Max: size}}
}

// sketch is a figure on white paper.
func sketch(size image.Point) *image.NRGBA {
	img := filled(size, color.White)
	figure(img, size.Div(2), float64(min(size.X, size.Y))/3, color.NRGBA{200, 120, 90, 255})
	return img
}

// figure paints a smooth-edged disc with a darker half.
func figure(img *image.NRGBA, centre image.Point, r float64, c color.NRGBA) {
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			part := min(max(r-math.Hypot(float64(x-centre.X), float64(y-centre.Y))+0.5, 0), 1)
			if part == 0 {
				continue
			}
			at, dark := img.NRGBAAt(x, y), 1.0
			if x > centre.X {
				dark = 0.7
			}
			mix := func(a, b uint8) uint8 { return uint8((1-part)*float64(a) + part*dark*float64(b) + 0.5) }
			img.SetNRGBA(x, y, color.NRGBA{mix(at.R, c.R), mix(at.G, c.G), mix(at.B, c.B), 255})
		}
	}
}

func (v view) paint() *image.NRGBA {
	img := filled(v.size, v.grey)
	if v.lineWide > 0 {
		draw.Draw(img, v.canvas.Inset(-v.lineWide), image.NewUniform(v.line), image.Point{}, draw.Src)
	}
	draw.Draw(img, v.canvas, v.content(v.canvas.Size()), image.Point{}, draw.Src)
	bar, tick := color.NRGBA{44, 44, 46, 255}, color.NRGBA{190, 190, 190, 255}
	for _, ruler := range []image.Rectangle{image.Rect(0, 0, v.size.X, v.rulers), image.Rect(0, 0, v.rulers, v.size.Y)} {
		draw.Draw(img, ruler, image.NewUniform(bar), image.Point{}, draw.Src)
	}
	for i := 0; v.rulers > 0 && i < max(v.size.X, v.size.Y); i += 10 {
		long := v.rulers / (2 + i/10%5)
		draw.Draw(img, image.Rect(i, v.rulers-long, i+1, v.rulers), image.NewUniform(tick), image.Point{}, draw.Src)
		draw.Draw(img, image.Rect(v.rulers-long, i, v.rulers, i+1), image.NewUniform(tick), image.Point{}, draw.Src)
	}
	for _, s := range []image.Rectangle{image.Rect(v.size.X-v.scroll, 0, v.size.X, v.size.Y), image.Rect(0, v.size.Y-v.scroll, v.size.X, v.size.Y)} {
		draw.Draw(img, s, image.NewUniform(bar), image.Point{}, draw.Src)
		thumb := image.Rectangle{Min: s.Min.Add(s.Size().Div(4)), Max: s.Max.Sub(s.Size().Div(4))}
		draw.Draw(img, thumb, image.NewUniform(color.NRGBA{110, 110, 110, 255}), image.Point{}, draw.Src)
	}
	return img
}

// saved is a picture as JPEG of a quality gives it back.
func saved(t testing.TB, img image.Image, quality int) *image.NRGBA {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	out := image.NewNRGBA(back.Bounds())
	draw.Draw(out, out.Rect, back, image.Point{}, draw.Src)
	return out
}

func pixelsOf(img *image.NRGBA) analysis.Pixels {
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: img.Rect.Dx(), Height: img.Rect.Dy(), Layout: analysis.RGBA}
}
