package overlay

import (
	"image"
	"image/color"
	"testing"

	"app.tonedesk/gui/guitest"
)

// The light side of a family has a light line along its inner edge, all around, with dark on
// both sides of it; inside and outside of that nothing lies.
func TestOutlineOfALightSide(t *testing.T) {
	whole := image.Rect(200, 100, 240, 130)
	lay := Lay{Part: whole, Size: image.Pt(80, 60), Unit: 1}
	side := image.Rect(20, 10, 60, 50) // of the map in display pixels
	img := Outline(found(40, 30, image.Rect(10, 5, 30, 25), image.Rectangle{}), 0, whole, lay)
	for y := range lay.Size.Y {
		for x := range lay.Size.X {
			p, want := image.Pt(x, y), color.RGBA{}
			switch {
			case p.In(side) && !p.In(side.Inset(1)):
				want = light
			case p.In(side.Inset(-1)) && !p.In(side.Inset(2)):
				want = dark
			}
			if got := img.RGBAAt(x, y); got != want {
				t.Fatalf("pixel %v is %v, want %v", p, got, want)
			}
		}
	}
	if box, _ := drawnIn(Outline(found(40, 30, image.Rect(10, 5, 30, 25), image.Rectangle{}), 1, whole, lay)); !box.Empty() {
		t.Errorf("a family that isn't there is outlined in %v", box)
	}
}

// The shadow side's border is in dashes: some of it is drawn, some not, all of it on the edge.
func TestOutlineOfAShadowSide(t *testing.T) {
	whole := image.Rect(0, 0, 40, 30)
	lay := Lay{Part: whole, Size: image.Pt(80, 60), Unit: 1}
	side := image.Rect(20, 10, 60, 50)
	img := Outline(found(40, 30, image.Rectangle{}, image.Rect(10, 5, 30, 25)), 0, whole, lay)
	guitest.AssertNeutral(t, img)
	on, off := 0, 0
	for y := range lay.Size.Y {
		for x := range lay.Size.X {
			p := image.Pt(x, y)
			edge, drawn := p.In(side) && !p.In(side.Inset(1)), img.RGBAAt(x, y) == light
			switch {
			case drawn && !edge:
				t.Fatalf("%v is drawn, off the edge", p)
			case drawn:
				on++
			case edge:
				off++
			}
		}
	}
	if on == 0 || off == 0 {
		t.Errorf("%d pixels of the edge are drawn and %d not", on, off)
	}
}

// Of an enlarged picture the same border is drawn, where it now lies.
func TestOutlineEnlarged(t *testing.T) {
	whole := image.Rect(200, 100, 240, 130)
	lay := Lay{Part: image.Rect(200, 100, 220, 115), Size: image.Pt(80, 60), Unit: 1}
	img := Outline(found(40, 30, image.Rect(10, 5, 15, 10), image.Rectangle{}), 0, whole, lay)
	if box, _ := drawnIn(img); box != image.Rect(40, 20, 60, 40).Inset(-1) {
		t.Errorf("drawn in %v", box)
	}
}

// Nothing is drawn where nothing was looked for yet.
func TestOutlineOfNothing(t *testing.T) {
	lay := Lay{Part: image.Rect(0, 0, 4, 4), Size: image.Pt(8, 8), Unit: 1}
	for name, img := range map[string]*image.RGBA{
		"no map":     Outline(found(0, 0, image.Rectangle{}, image.Rectangle{}), 0, lay.Part, lay),
		"no picture": Outline(found(4, 4, lay.Part, image.Rectangle{}), 0, image.Rectangle{}, lay),
	} {
		if box, _ := drawnIn(img); !box.Empty() {
			t.Errorf("%s: drawn in %v", name, box)
		}
	}
}
