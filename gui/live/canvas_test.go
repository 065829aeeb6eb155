package live

import (
	"image"
	"image/color"
	"image/draw"
	"testing"
	"time"
)

// canvasAt is a view of a canvas in a workspace.
func canvasAt(canvas image.Rectangle) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 320, 240))
	draw.Draw(img, img.Rect, image.NewUniform(color.NRGBA{90, 90, 90, 255}), image.Point{}, draw.Src)
	draw.Draw(img, canvas, image.NewUniform(white), image.Point{}, draw.Src)
	draw.Draw(img, canvas.Inset(20), image.NewUniform(color.NRGBA{200, 120, 80, 255}), image.Point{}, draw.Src)
	return img
}

// A canvas is told when it has stayed for a while, and as long until another one has: pictures
// that differ in a flash, or a pan, tell nothing.
func TestCanvasSettles(t *testing.T) {
	r := newRig(t)
	first, second := image.Rect(40, 30, 280, 200), image.Rect(50, 40, 290, 210)
	see := func(canvas image.Rectangle, repeated bool, after time.Duration) Canvas {
		r.now = r.now.Add(after)
		s := r.see(frameOf(canvasAt(canvas)), repeated)
		if s == nil {
			t.Fatal("nothing is shown")
		}
		return s.Canvas
	}
	if got := see(first, false, 0); got != (Canvas{}) {
		t.Errorf("at once it tells %v", got)
	}
	if len(r.again) == 0 || r.again[len(r.again)-1] > canvasSettles {
		t.Errorf("it comes back after %v", r.again)
	}
	if got := see(first, true, canvasSettles); got != (Canvas{first, true}) {
		t.Errorf("when it has settled it tells %v", got)
	}
	for i := range 8 { // a pan, slow enough to be no flashing
		if got := see(second.Add(image.Pt(i%2, 0)), false, canvasSettles-time.Millisecond); got.Rectangle != first {
			t.Errorf("meanwhile it tells %v", got)
		}
	}
	see(second, false, canvasSettles)
	if got := see(second, true, canvasSettles); got.Rectangle != second {
		t.Errorf("then it tells %v", got)
	}
	see(image.Rectangle{}, false, canvasSettles)
	if got := see(image.Rectangle{}, true, canvasSettles); !got.Empty() {
		t.Errorf("nothing is there, and it tells %v", got)
	}
}

func TestCanvasLiesInTheSource(t *testing.T) {
	r := newRig(t)
	r.CanvasSettles = 0
	f := frameOf(canvasAt(image.Rect(40, 30, 280, 200)))
	f.Origin = image.Pt(1000, 500)
	if got := r.see(f, false).Canvas; got.Rectangle != image.Rect(1040, 530, 1280, 700) {
		t.Errorf("it tells %v", got)
	}
}
