package pointer

import (
	"image"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest"
)

// drawnScreen is a screen anywhere on a desktop, and a pixel on it.
func drawnScreen(t *rapid.T) (screen image.Rectangle, at image.Point) {
	corner := image.Pt(rapid.IntRange(-4000, 4000).Draw(t, "x"), rapid.IntRange(-4000, 4000).Draw(t, "y"))
	size := image.Pt(rapid.IntRange(1, 8000).Draw(t, "width"), rapid.IntRange(1, 5000).Draw(t, "height"))
	screen = image.Rectangle{Min: corner, Max: corner.Add(size)}
	at = corner.Add(image.Pt(rapid.IntRange(0, size.X-1).Draw(t, "at x"), rapid.IntRange(0, size.Y-1).Draw(t, "at y")))
	return screen, at
}

// The chip lies wholly on its screen, in its size and never on the square that is read; and where the
// screen has room for it beside the pointer there is a place.
func TestChipLies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		screen, at := drawnScreen(t)
		size := image.Pt(rapid.IntRange(1, 900).Draw(t, "chip width"), rapid.IntRange(1, 120).Draw(t, "chip height"))
		away := gap * rapid.IntRange(1, 3).Draw(t, "scale")
		var avoid []image.Rectangle
		for range rapid.IntRange(0, 8).Draw(t, "spots") {
			corner := screen.Min.Add(image.Pt(rapid.IntRange(0, screen.Dx()).Draw(t, "spot x"), rapid.IntRange(0, screen.Dy()).Draw(t, "spot y")))
			avoid = append(avoid, image.Rectangle{Min: corner, Max: corner.Add(image.Pt(11, 11))})
		}
		box, ok := lie(at, size, away, screen, avoid)
		room := screen.Dx() >= size.X && screen.Dy() >= 2*(size.Y+away) || screen.Dy() >= size.Y && screen.Dx() >= 2*(size.X+away)
		switch {
		case !ok && room:
			t.Fatalf("no place on %v beside %v", screen, at)
		case !ok:
			return
		case !box.In(screen) || box.Size() != size:
			t.Fatalf("a chip of %v lies at %v on %v", size, box, screen)
		case box.Overlaps(square(at)):
			t.Fatalf("the chip %v lies on %v, which is read", box, square(at))
		}
	})
}

// With room all around, it lies on no spot that is far enough from the pointer's other sides.
func TestChipKeepsOffSpots(t *testing.T) {
	screen, at, size := image.Rect(0, 0, 1920, 1080), image.Pt(960, 540), image.Pt(250, 28)
	plain, _ := lie(at, size, gap, screen, nil)
	spot := image.Rectangle{Min: plain.Min, Max: plain.Min.Add(image.Pt(3, 3))}
	if box, ok := lie(at, size, gap, screen, []image.Rectangle{spot}); !ok || box.Overlaps(spot) {
		t.Errorf("the chip lies at %v on the spot %v", box, spot)
	}
}

func TestScreenAt(t *testing.T) {
	screens := []image.Rectangle{image.Rect(0, 0, 100, 100), image.Rect(100, 0, 300, 200)}
	for at, want := range map[image.Point]image.Rectangle{{X: 99, Y: 99}: screens[0], {X: 100, Y: 0}: screens[1], {X: 50, Y: 150}: {}} {
		if got := screenAt(at, screens); got != want {
			t.Errorf("%v lies on %v, want %v", at, got, want)
		}
	}
}
