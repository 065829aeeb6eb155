package widgets

import (
	"image"
	"testing"

	"pgregory.net/rapid"
)

var testDesktop = image.Rect(-100, 0, 1900, 1000)

func TestGripPull(t *testing.T) {
	r := image.Rect(100, 100, 300, 200)
	tests := []struct {
		name    string
		at, by  image.Point
		want    image.Rectangle
		outside bool
	}{
		{"inside moves", image.Pt(200, 150), image.Pt(10, -5), image.Rect(110, 95, 310, 195), false},
		{"inside stops at the desktop's edge", image.Pt(200, 150), image.Pt(-500, 0), image.Rect(-100, 100, 100, 200), false},
		{"left edge", image.Pt(97, 150), image.Pt(-20, 99), image.Rect(80, 100, 300, 200), false},
		{"corner", image.Pt(304, 203), image.Pt(10, 20), image.Rect(100, 100, 310, 220), false},
		{"left edge past the right one", image.Pt(100, 150), image.Pt(250, 0), image.Rect(300, 100, 350, 200), false},
		{"outside", image.Pt(400, 150), image.Point{}, image.Rectangle{}, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			g := gripAt(r, tt.at)
			if g.outside() != tt.outside {
				t.Fatalf("grip %+v", g)
			}
			if got := g.pull(r, tt.by, testDesktop); !tt.outside && got != tt.want {
				t.Errorf("pulled to %v, want %v", got, tt.want)
			}
		})
	}
}

// Whatever keys are pressed, the region keeps a pixel and stays on the desktop; moving
// never changes its size.
func TestNudgeStaysOnDesktop(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := middleHalf(testDesktop)
		for range rapid.IntRange(1, 40).Draw(t, "keys") {
			by := image.Pt(rapid.IntRange(-300, 300).Draw(t, "x"), rapid.IntRange(-300, 300).Draw(t, "y"))
			size := r.Size()
			if rapid.Bool().Draw(t, "grow") {
				r = grow(r, by, testDesktop)
			} else if r = slide(r, by, testDesktop); r.Size() != size {
				t.Fatalf("moving made %v of %v", r.Size(), size)
			}
			if r.Empty() || !r.In(testDesktop) {
				t.Fatalf("the region became %v", r)
			}
		}
	})
}
