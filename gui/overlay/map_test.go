package overlay

import (
	"image"
	"testing"

	"app.tonedesk/gui/guitest"
)

var figures = [3]string{"\u22125", "0", "+5 tones"}

// In the map no change is L* 50, which is sRGB grey 119 (CIE15); what became much darker is
// black and what became much lighter is white.
func TestMapGreys(t *testing.T) {
	size := image.Pt(20, 20)
	lay := Lay{Part: image.Rectangle{Max: size}, Size: size, Unit: 1}
	for name, tt := range map[string]struct{ was, is, want uint8 }{
		"the same": {90, 90, 119},
		"darker":   {255, 0, 0},
		"lighter":  {0, 255, 255},
	} {
		img := Map(changeOf(t, grey(size, tt.was), grey(size, tt.is)), 5, lay.Part, lay)
		guitest.AssertNeutral(t, img)
		if got := img.RGBAAt(10, 10).R; got != tt.want {
			t.Errorf("%s: the map is %d, want %d", name, got, tt.want)
		}
	}
}

// The scale runs from black over the grey of no change to white, inside the image, with
// figures over it.
func TestScale(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	Scale(img, figures, 1)
	guitest.AssertNeutral(t, img)
	bar := scaleBar(img.Rect.Size(), 1)
	if !bar.In(img.Rect) || bar.Dx()%2 != 0 {
		t.Fatalf("the bar lies at %v", bar)
	}
	y := bar.Min.Y + bar.Dy()/2
	// L* of sRGB grey 118 is 49.7 and of 119 is 50.0 (CIE15): no change is that, within a step
	left, middle, right := img.RGBAAt(bar.Min.X, y).R, img.RGBAAt(bar.Min.X+bar.Dx()/2, y).R, img.RGBAAt(bar.Max.X-1, y).R
	if left != 0 || middle < 116 || middle > 122 || right != 255 {
		t.Errorf("the scale runs %d, %d, %d", left, middle, right)
	}
	for x := bar.Min.X + 1; x < bar.Max.X; x++ {
		if img.RGBAAt(x, y).R < img.RGBAAt(x-1, y).R {
			t.Fatalf("the scale falls at %d", x)
		}
	}
	over := func(x int) image.Rectangle { // over a place of the bar
		box, _ := drawnIn(img.SubImage(image.Rect(x-10, 0, x+10, bar.Min.Y-2)).(*image.RGBA))
		return box
	}
	for i, x := range []int{bar.Min.X + 5, bar.Min.X + bar.Dx()/2, bar.Max.X} {
		if over(x).Empty() {
			t.Errorf("over the scale %q is not written", figures[i])
		}
	}
}

func TestScaleNeedsRoom(t *testing.T) {
	for _, size := range []image.Point{{30, 20}, {95, 300}, {400, 63}, {}} { // 12 steps by 8 are the least
		img := image.NewRGBA(image.Rectangle{Max: size})
		Scale(img, figures, 1)
		if box, _ := drawnIn(img); !box.Empty() {
			t.Errorf("a scale is drawn at %v in %v", box, size)
		}
	}
}
