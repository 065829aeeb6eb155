package host

import (
	"image"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
)

// A window begins on a screen, all of it and its frame, whatever it was last.
func TestPlaced(t *testing.T) {
	screens := []image.Rectangle{image.Rect(0, 0, 1000, 800), image.Rect(1000, 100, 2000, 900)}
	around := frame{left: 5, top: 30, right: 5, bottom: 5}
	for _, tt := range []struct {
		name     string
		at, size image.Point
		want     image.Rectangle
	}{
		{"on a screen stays", image.Pt(100, 30), image.Pt(380, 760), image.Rect(100, 30, 480, 790)},
		{"hanging over two", image.Pt(900, 60), image.Pt(380, 640), image.Rect(1005, 130, 1385, 770)},
		{"on a screen that is gone", image.Pt(2500, 300), image.Pt(380, 400), image.Rect(615, 300, 995, 700)},
		{"above all screens", image.Pt(100, -500), image.Pt(380, 600), image.Rect(100, 30, 480, 630)},
		{"larger than the screen", image.Pt(100, 100), image.Pt(1140, 2280), image.Rect(5, 30, 995, 795)},
	} {
		if got, _, ok := placed(tt.at, tt.size, around, screens); !ok || got != tt.want {
			t.Errorf("%s goes to %v (%v), want %v", tt.name, got, ok, tt.want)
		}
	}
	if _, _, ok := placed(image.Point{}, image.Pt(380, 760), around, nil); ok {
		t.Error("a place is found without screens")
	}
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(t, name) }
		screen := image.Rect(0, 0, number("screen w", 640, 4000), number("screen h", 480, 3000)).Add(image.Pt(number("x", -2000, 2000), number("y", -2000, 2000)))
		size := image.Pt(number("w", 1, 9000), number("h", 1, 9000))
		got, room, ok := placed(image.Pt(number("at x", -9000, 9000), number("at y", -9000, 9000)), size, around, []image.Rectangle{screen})
		if whole := image.Rect(got.Min.X-5, got.Min.Y-30, got.Max.X+5, got.Max.Y+5); !ok || !whole.In(screen) || got.Dx() > room.X || got.Dy() > room.Y {
			t.Fatalf("of %v the window goes to %v on %v", size, got, screen)
		}
	})
}

// What the desktop says of a frame is taken; where it says none, a title is.
func TestFrameOf(t *testing.T) {
	inside := image.Rect(10, 40, 390, 800)
	for _, tt := range []struct {
		whole image.Rectangle
		want  frame
	}{{image.Rect(5, 10, 394, 806), frame{5, 30, 4, 6}}, {inside, plainFrame}, {image.Rectangle{}, plainFrame}} {
		if got := frameOf(tt.whole, inside); got != tt.want {
			t.Errorf("%v has the frame %v, want %v", tt.whole, got, tt.want)
		}
	}
}
