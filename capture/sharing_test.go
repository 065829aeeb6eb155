package capture

import (
	"image"
	"testing"

	"pgregory.net/rapid"
)

// A screen of 3840 x 2160 pixels that the desktop measures as 1920 x 1080, right of another.
func TestPlaceOf(t *testing.T) {
	whole, size := image.Rect(1280, 100, 3200, 1180), image.Pt(3840, 2160)
	for name, tt := range map[string]struct{ part, want image.Rectangle }{
		"all":            {image.Rectangle{}, whole},
		"a part":         {image.Rect(400, 200, 1400, 1200), image.Rect(1480, 200, 1980, 700)},
		"partly outside": {image.Rect(3640, 2060, 9000, 9000), image.Rect(3100, 1130, 3200, 1180)},
		"a pixel":        {image.Rect(1, 1, 2, 2), image.Rect(1280, 100, 1281, 101)},
		"wholly outside": {image.Rect(5000, 0, 5001, 1), image.Rectangle{}},
	} {
		if got := PlaceOf(whole, size, tt.part); got.Part != tt.want {
			t.Errorf("%s lies at %v, want %v", name, got.Part, tt.want)
		}
	}
	if got := PlaceOf(image.Rectangle{}, size, image.Rectangle{}); got != (Place{}) {
		t.Errorf("what has no place lies at %+v", got)
	}
}

// Whatever is shared and read, the part lies in the whole.
func TestPartLiesInTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
		whole := image.Rect(0, 0, n("wide", 0, 3000), n("high", 0, 3000)).Add(image.Pt(n("x", -5000, 5000), n("y", -5000, 5000)))
		part := image.Rect(n("left", -9, 5000), n("top", -9, 5000), n("right", -9, 5000), n("bottom", -9, 5000))
		at := PlaceOf(whole, image.Pt(n("across", 0, 4000), n("down", 0, 4000)), part)
		if !at.Part.In(at.Whole) || at != (Place{}) && (at.Whole != whole || at.Part.Empty()) {
			t.Errorf("%v of %v", at.Part, at.Whole)
		}
	})
}

// The way back: what of our window lies on a screen, in pixels of its picture, to the outside of those
// that it touches; and from a part there and back is never less.
func TestPixelsOfAPlace(t *testing.T) {
	whole, size := image.Rect(1280, 100, 3200, 1180), image.Pt(3840, 2160)
	at := PlaceOf(whole, size, image.Rectangle{})
	for _, tt := range []struct{ own, want image.Rectangle }{
		{image.Rect(1380, 200, 1480, 300), image.Rect(200, 200, 400, 400)},
		{image.Rect(1000, 0, 1290, 110), image.Rect(0, 0, 20, 20)},
		{image.Rect(0, 0, 100, 100), image.Rectangle{}},
	} {
		if got := at.Pixels(tt.own); got != tt.want {
			t.Errorf("%v lies at %v, want %v", tt.own, got, tt.want)
		}
	}
	if got := (Place{}).Pixels(whole); !got.Empty() {
		t.Errorf("on nothing it lies at %v", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		size := image.Pt(rapid.IntRange(1, 4000).Draw(t, "across"), rapid.IntRange(1, 4000).Draw(t, "down"))
		x, y := rapid.IntRange(0, size.X-1).Draw(t, "x"), rapid.IntRange(0, size.Y-1).Draw(t, "y")
		part := image.Rect(x, y, rapid.IntRange(x+1, size.X).Draw(t, "right"), rapid.IntRange(y+1, size.Y).Draw(t, "bottom"))
		at := PlaceOf(image.Rect(-7, 5, 800, 600), size, part)
		got, pixel := at.Pixels(at.Part), image.Pt(size.X/at.Whole.Dx()+1, size.Y/at.Whole.Dy()+1)
		if got.Inset(-max(pixel.X, pixel.Y)).Intersect(part) != part || !got.In(image.Rectangle{Max: size}) {
			t.Errorf("%v comes back as %v", part, got)
		}
	})
}
