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
