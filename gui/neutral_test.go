package gui

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// mayHaveHue are the widgets that show the picture, or swatches, by their names: nothing else does.
var mayHaveHue = []string{
	"Mirror", "Strip", "pairSide", "spotRow", "SwatchRow", "HueStrip", "FamilyRow", "StillItem", "Preview",
}

// coloured are the parts that may have a hue, and do: pictures and filled boxes of the widgets that may.
func coloured(parts []part) (boxes []box) {
	for _, p := range parts {
		may := p.within(mayHaveHue...)
		switch o := p.object.(type) {
		case *canvas.Rectangle:
			may = may && o.FillColor != nil && !hueless(o.FillColor)
		case *canvas.Image:
			may = may && o.Resource == nil
		case *canvas.Raster:
		default:
			may = false
		}
		if b := p.box.meet(p.clip); may && !b.empty() {
			boxes = append(boxes, b)
		}
	}
	return boxes
}

// masked lays black over boxes, to the next whole pixels.
func masked(img image.Image, boxes []box) *image.NRGBA {
	out := image.NewNRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	for _, b := range boxes {
		r := image.Rect(int(math.Floor(float64(b.left))), int(math.Floor(float64(b.top))), int(math.Ceil(float64(b.right))), int(math.Ceil(float64(b.bottom))))
		draw.Draw(out, r, image.Black, image.Point{}, draw.Src)
	}
	return out
}

// checkHues fails where a pixel outside of the picture and of swatches is no grey: the toolkit draws
// letters without colour at their edges.
func checkHues(t *testing.T, d *Desk) {
	t.Helper()
	img := masked(d.Window.Canvas().Capture(), coloured(d.drawnParts()))
	if at, ok := firstHue(img); ok {
		t.Errorf("the pixel at %v is %v", at, img.At(at.X, at.Y))
	}
}

// firstHue is the first pixel that is no grey.
func firstHue(img *image.NRGBA) (image.Point, bool) {
	for i := 0; i+3 < len(img.Pix); i += 4 {
		if img.Pix[i] != img.Pix[i+1] || img.Pix[i+1] != img.Pix[i+2] {
			return image.Pt(i%img.Stride/4, i/img.Stride), true
		}
	}
	return image.Point{}, false
}

// A hue that is where none may be is found.
func TestFirstHue(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 40, 30))
	draw.Draw(img, img.Rect, image.NewUniform(color.Gray{90}), image.Point{}, draw.Src)
	img.SetNRGBA(7, 5, color.NRGBA{90, 90, 91, 255})
	if at, ok := firstHue(img); !ok || at != image.Pt(7, 5) {
		t.Errorf("found is %v, %v", at, ok)
	}
	if at, ok := firstHue(masked(img, []box{boxAt(fyne.NewPos(6.5, 4.5), fyne.NewSize(1, 1))})); ok {
		t.Errorf("under a mask %v is found", at)
	}
}
