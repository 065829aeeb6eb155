package overlay

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"app.tonedesk/gui/guitest"
)

// An arrow goes the way of its light, its head where that goes, over the middle of its form.
func TestArrowGoesTheWayOfTheLight(t *testing.T) {
	whole := image.Rect(200, 100, 240, 130)
	for degrees, head := range map[float64]image.Point{0: {-1, 0}, 90: {0, 1}, 180: {1, 0}, 270: {0, -1}} {
		for _, flipped := range []bool{false, true} {
			lay := Lay{Part: whole, Size: image.Pt(160, 120), Unit: 1, Flipped: flipped}
			img := Arrows([]Arrow{{X: 0.25, Y: 0.5, Degrees: degrees}}, whole, lay)
			guitest.AssertNeutral(t, img)
			middle, way := image.Pt(40, 60), head
			if flipped {
				middle.X, way.X = 120, -way.X
			}
			box, _ := drawnIn(img)
			if centre := box.Min.Add(box.Max).Div(2); math.Abs(float64(centre.X-middle.X)) > 2 || math.Abs(float64(centre.Y-middle.Y)) > 2 {
				t.Errorf("from %g degrees, flipped %v: drawn in %v, want it round %v", degrees, flipped, box, middle)
			}
			at, away := thick(img, middle.Add(way.Mul(12)), way), thick(img, middle.Sub(way.Mul(12)), way)
			if at <= away {
				t.Errorf("from %g degrees, flipped %v: %d wide where the head is to be, %d at the other end", degrees, flipped, at, away)
			}
		}
	}
}

// thick counts drawn pixels across a way, at a point.
func thick(img *image.RGBA, at, way image.Point) (n int) {
	for by := -20; by <= 20; by++ {
		if img.RGBAAt(at.X+by*way.Y, at.Y+by*way.X).A > 0 {
			n++
		}
	}
	return n
}

// One that is lit from elsewhere has a ring round it; none draws nothing.
func TestOddArrowHasARing(t *testing.T) {
	whole := image.Rect(0, 0, 160, 120)
	lay := Lay{Part: whole, Size: whole.Max, Unit: 1}
	box := func(a ...Arrow) image.Rectangle { b, _ := drawnIn(Arrows(a, whole, lay)); return b }
	if b := box(); !b.Empty() {
		t.Errorf("drawn in %v", b)
	}
	plain, odd := box(Arrow{X: 0.5, Y: 0.5}), box(Arrow{X: 0.5, Y: 0.5, Odd: true})
	if plain.Dx() < arrowLong || plain.Dy() > arrowLong/2 || odd.Dx() < 2*arrowRing || odd.Dy() < 2*arrowRing {
		t.Errorf("plain in %v, odd in %v", plain, odd)
	}
}

// Flipped, whatever there is is mirrored, but for how edges round; enlarged, it lies where its form does.
func TestArrowsAreMirrored(t *testing.T) {
	whole := image.Rect(10, 20, 90, 80)
	rapid.Check(t, func(t *rapid.T) {
		a := Arrow{rapid.Float64Range(0, 1).Draw(t, "x"), rapid.Float64Range(0, 1).Draw(t, "y"), rapid.Float64Range(0, 360).Draw(t, "degrees"), rapid.Bool().Draw(t, "odd")}
		lay := Lay{Part: whole, Size: image.Pt(240, 180), Unit: 1}
		lit := Arrows([]Arrow{a}, whole, lay)
		lay.Flipped = true
		flipped := Arrows([]Arrow{a}, whole, lay)
		apart, all := 0, 0
		for y := range lay.Size.Y {
			for x := range lay.Size.X {
				is := lit.RGBAAt(x, y).A > 127
				if is {
					all++
				}
				if is != (flipped.RGBAAt(lay.Size.X-1-x, y).A > 127) {
					apart++
				}
			}
		}
		if apart*20 > all {
			t.Fatalf("%d of %d pixels are not mirrored", apart, all)
		}
	})
	lay := Lay{Part: image.Rect(10, 20, 50, 50), Size: image.Pt(240, 180), Unit: 1} // the upper left quarter
	box, _ := drawnIn(Arrows([]Arrow{{X: 0.25, Y: 0.25}}, whole, lay))
	if at := box.Min.Add(box.Max).Div(2); at != image.Pt(120, 90) {
		t.Errorf("enlarged it lies round %v", at)
	}
}
