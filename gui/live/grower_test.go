package live

import (
	"image"
	"image/color"
	"image/draw"
	"testing"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
)

// A colour that is left out follows the picture: where the canvas goes, the workspace around it
// is left out, and the canvas never is; the mirror shows the same of a part.
func TestColoursFollowThePicture(t *testing.T) {
	grey := colour.RGB{R: 118, G: 118, B: 118}
	canvas := func(at image.Point) *image.NRGBA {
		img := image.NewNRGBA(image.Rect(0, 0, 40, 30))
		draw.Draw(img, img.Rect, image.NewUniform(color.NRGBA{grey.R, grey.G, grey.B, 255}), image.Point{}, draw.Src)
		draw.Draw(img, image.Rectangle{Min: at, Max: at.Add(image.Pt(20, 15))}, image.NewUniform(white), image.Point{}, draw.Src)
		draw.Draw(img, image.Rectangle{Min: at.Add(image.Pt(5, 5)), Max: at.Add(image.Pt(10, 10))}, image.NewUniform(color.NRGBA{grey.R, grey.G, grey.B, 255}), image.Point{}, draw.Src)
		return img
	}
	r := newRig(t)
	r.next.Setup = r.next.Setup.LeavingOutColour(analysis.Seed{At: image.Pt(3, 2), Colour: grey, Within: 3})
	for i, at := range []image.Point{{10, 8}, {0, 0}, {20, 15}, {2, 1}} { // over the place, too
		r.now = r.now.Add(time.Second) // no flashing
		s := r.see(frameOf(canvas(at)), false)
		if s.Reading.Counted != 20*15 {
			t.Errorf("canvas at %v: %d pixels are counted, want all of it", at, s.Reading.Counted)
		}
		if again := r.see(frameOf(canvas(at)), true); again.Reading.Counted != 20*15 {
			t.Error("shown again, something else is counted")
		}
		r.next.Copies = i + 1
		c := r.see(frameOf(canvas(at)), true).Copied
		if c.Mask.Grown.Pixels() != 40*30-20*15 || c.Mask.Grown == r.Worker.mask.Grown {
			t.Errorf("the copy leaves out %d pixels", c.Mask.Grown.Pixels())
		}
	}
	r.next.Lay = func(image.Rectangle) Lay { return Lay{image.Rect(1, 1, 21, 11), image.Pt(20, 10)} }
	r.see(frameOf(canvas(image.Pt(2, 1))), false)
	for i, left := range r.mirror.reduced.Left {
		if outside := i%20 < 1; (left == 1) != outside { // the canvas begins at (2, 1), and that is (1, 0) of the part
			t.Fatalf("pixel %d of the part: left out %d", i, left)
		}
	}
	r.next.Setup = r.next.Setup.CountingAll()
	if s := r.see(frameOf(canvas(image.Pt(2, 1))), true); s.Reading.Counted != 40*30 {
		t.Errorf("%d pixels are counted again, want all", s.Reading.Counted)
	}
}
