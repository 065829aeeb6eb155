package widgets

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever the zoom, the part shown lies in the picture, has its shape, and the pixel under
// the pointer stays where it is, as far as the picture's borders let it.
func TestZoomed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bounds := image.Rect(0, 0, rapid.IntRange(40, 3000).Draw(t, "width"), rapid.IntRange(40, 3000).Draw(t, "height")).
			Add(image.Pt(rapid.IntRange(-500, 500).Draw(t, "x"), rapid.IntRange(-500, 500).Draw(t, "y")))
		view := image.Rectangle{}
		for range rapid.IntRange(1, 20).Draw(t, "steps") {
			part := PartShown(view, bounds)
			at := image.Pt(rapid.IntRange(part.Min.X, part.Max.X-1).Draw(t, "at x"), rapid.IntRange(part.Min.Y, part.Max.Y-1).Draw(t, "at y"))
			by := rapid.SampledFrom([]float64{zoomStep, 1 / zoomStep, 2}).Draw(t, "by")
			view = zoomed(part, bounds, at, by)
			now := PartShown(view, bounds)
			if !now.In(bounds) || now.Dx() < LeastView || now.Dy() < LeastView {
				t.Fatalf("part %v of %v", now, bounds)
			}
			if !at.In(now) {
				t.Fatalf("the pixel %v is not in the part %v any more", at, now)
			}
			inside := now.Min.X > bounds.Min.X && now.Min.Y > bounds.Min.Y && now.Max.X < bounds.Max.X && now.Max.Y < bounds.Max.Y
			before := (float64(at.X-part.Min.X) + 0.5) / float64(part.Dx())
			after := (float64(at.X-now.Min.X) + 0.5) / float64(now.Dx())
			if inside && math.Abs(before-after) > 1.6/float64(now.Dx()) {
				t.Fatalf("the pixel went from %.3f to %.3f of the width", before, after)
			}
		}
	})
}
