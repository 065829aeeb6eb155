package movement

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand.
func TestTransforms(t *testing.T) {
	for _, tt := range []struct {
		what         string
		by           Transform
		x, y         float64 // where (3, 1) comes to lie
		zoom, degree float64
		mirrored     bool
	}{
		{"nothing", Transform{}, 3, 1, 1, 0, false},
		{"shift", Shift(10, -2), 13, -1, 1, 0, false},
		{"zoom about (1, 1)", ZoomBy(2, 1, 1), 5, 1, 2, 0, false},
		{"turn about (1, 1)", Turn(90, 1, 1), 1, 3, 1, 90, false},
		{"mirror at 5", Mirror(5), 7, 1, 1, 0, true},
		{"mirror, then turn", Mirror(5).Compose(Turn(90, 0, 0)), -1, 7, 1, 90, true},
		{"turn, then mirror", Turn(90, 0, 0).Compose(Mirror(5)), 11, 3, 1, -90, true},
		{"zoom, then shift", ZoomBy(0.5, 0, 0).Compose(Shift(1, 1)), 2.5, 1.5, 0.5, 0, false},
		{"shift, then zoom", Shift(1, 1).Compose(ZoomBy(0.5, 0, 0)), 2, 1, 0.5, 0, false},
	} {
		x, y := tt.by.Apply(3, 1)
		if math.Hypot(x-tt.x, y-tt.y) > 1e-12 || math.Abs(tt.by.Zoom()-tt.zoom) > 1e-12 || math.Abs(tt.by.Degrees()-tt.degree) > 1e-9 || tt.by.Mirrored() != tt.mirrored {
			t.Errorf("%s: (%g, %g), zoom %g, turned %g, mirrored %v", tt.what, x, y, tt.by.Zoom(), tt.by.Degrees(), tt.by.Mirrored())
		}
	}
}

// anyTransform draws any.
func anyTransform(t *rapid.T, name string) Transform {
	number := func(least, most float64, what string) float64 {
		return rapid.Float64Range(least, most).Draw(t, name+" "+what)
	}
	by := ZoomBy(number(0.05, 20, "zoom"), number(-4000, 4000, "x"), number(-4000, 4000, "y")).
		Compose(Turn(number(-360, 360, "degrees"), number(-4000, 4000, "turned about x"), number(-4000, 4000, "y")))
	if rapid.Bool().Draw(t, name+" mirrored") {
		by = by.Compose(Mirror(number(-4000, 4000, "mirror")))
	}
	return by.Compose(Shift(number(-4000, 4000, "shift x"), number(-4000, 4000, "y")))
}

// One after the other is as both at once; what is undone is where it was; lengths grow by the
// zoom; what is mirrored twice is not mirrored.
func TestTransformLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		one, two := anyTransform(t, "one"), anyTransform(t, "two")
		x, y := rapid.Float64Range(-4000, 4000).Draw(t, "x"), rapid.Float64Range(-4000, 4000).Draw(t, "y")
		ax, ay := one.Apply(x, y)
		bx, by := two.Apply(ax, ay)
		both := one.Compose(two)
		if cx, cy := both.Apply(x, y); math.Hypot(cx-bx, cy-by) > 1e-6 {
			t.Fatalf("one after the other (%g, %g), at once (%g, %g)", bx, by, cx, cy)
		}
		if ux, uy := one.Inverse().Apply(ax, ay); math.Hypot(ux-x, uy-y) > 1e-6 {
			t.Fatalf("undone (%g, %g) from (%g, %g)", ux, uy, x, y)
		}
		if both.Mirrored() != (one.Mirrored() != two.Mirrored()) || math.Abs(both.Zoom()/(one.Zoom()*two.Zoom())-1) > 1e-9 {
			t.Fatalf("mirrored %v, zoom %g of %g and %g", both.Mirrored(), both.Zoom(), one.Zoom(), two.Zoom())
		}
		ex, ey := one.Apply(x+3, y+4)
		if math.Abs(math.Hypot(ex-ax, ey-ay)-5*one.Zoom()) > 1e-6 {
			t.Fatalf("a length of 5 becomes %g at zoom %g", math.Hypot(ex-ax, ey-ay), one.Zoom())
		}
	})
}
