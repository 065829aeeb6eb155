package widgets

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"app.tonedesk/gui/settings"
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

// The parts of the page never overlap and stay in the window, at every size that fits.
func TestPageRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := float32(rapid.IntRange(settings.MinWidth, 2600).Draw(t, "w"))
		h := float32(rapid.IntRange(settings.MinHeight, 1600).Draw(t, "h"))
		heights := pageHeights{bar: 80, verdict: 74, content: float32(rapid.IntRange(0, 900).Draw(t, "content"))}
		heights.messages = float32(rapid.SampledFrom([]int{0, 40, 80}).Draw(t, "strip"))
		r := pageRowsFor(fyne.NewSize(w, h), heights)
		all := []rect{r.bar, r.mirror, r.verdict, r.lower}
		if heights.messages > 0 {
			all = append(all, r.messages)
		}
		for i, a := range all {
			if a.w < 0 || a.h < 0 || a.x < 0 || a.y < 0 || a.x+a.w > w+0.01 || a.y+a.h > h+0.01 {
				t.Fatalf("part %d lies at %+v in %v x %v", i, a, w, h)
			}
			for j, b := range all[:i] {
				if a.x < b.x+b.w && b.x < a.x+a.w && a.y < b.y+b.h && b.y < a.y+a.h {
					t.Fatalf("parts %d and %d overlap: %+v, %+v", i, j, a, b)
				}
			}
		}
		if r.mirror.h < 80 || r.lower.h < 30 {
			t.Fatalf("mirror %+v, lower %+v are too low to be of use", r.mirror, r.lower)
		}
	})
}
