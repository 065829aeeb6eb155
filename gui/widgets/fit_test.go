package widgets

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"
)

// Expected values follow from the rule stated at fitPicture, by hand.
func TestFitPicture(t *testing.T) {
	tests := []struct {
		name   string
		bounds image.Rectangle
		size   fyne.Size
		scale  float32
		pixels image.Point
		pos    fyne.Position
		Shown  fyne.Size
	}{
		{"reduced by the width", image.Rect(0, 0, 1280, 720), fyne.NewSize(320, 300), 1, image.Pt(320, 180), fyne.NewPos(0, 60), fyne.NewSize(320, 180)},
		{"reduced by the height", image.Rect(0, 0, 200, 400), fyne.NewSize(300, 100), 1, image.Pt(50, 100), fyne.NewPos(125, 0), fyne.NewSize(50, 100)},
		{"display pixels count", image.Rect(0, 0, 1280, 720), fyne.NewSize(320, 300), 2, image.Pt(640, 360), fyne.NewPos(0, 60), fyne.NewSize(320, 180)},
		{"enlarged by whole steps", image.Rect(5, 5, 105, 55), fyne.NewSize(390, 390), 1, image.Pt(100, 50), fyne.NewPos(45, 120), fyne.NewSize(300, 150)},
		{"enlarged a little fills the pane", image.Rect(0, 0, 100, 100), fyne.NewSize(150, 200), 1, image.Pt(100, 100), fyne.NewPos(0, 25), fyne.NewSize(150, 150)},
		{"nothing to show", image.Rectangle{}, fyne.NewSize(100, 100), 1, image.Point{}, fyne.Position{}, fyne.Size{}},
		{"no room", image.Rect(0, 0, 9, 9), fyne.NewSize(0, 100), 1, image.Point{}, fyne.Position{}, fyne.Size{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := fitPicture(tt.bounds, tt.size, tt.scale, false)
			if f.Pixels != tt.pixels || f.Pos != tt.pos || f.Size != tt.Shown {
				t.Errorf("pixels %v at %v, %v; want %v at %v, %v", f.Pixels, f.Pos, f.Size, tt.pixels, tt.pos, tt.Shown)
			}
		})
	}
}

// A source pixel's place in the pane leads back to that pixel, mirrored or not.
func TestFitRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bounds := image.Rect(0, 0, rapid.IntRange(1, 3000).Draw(t, "w"), rapid.IntRange(1, 3000).Draw(t, "h"))
		bounds = bounds.Add(image.Pt(rapid.IntRange(-2000, 2000).Draw(t, "x"), rapid.IntRange(-2000, 2000).Draw(t, "y")))
		size := fyne.NewSize(float32(rapid.IntRange(20, 2000).Draw(t, "paneW")), float32(rapid.IntRange(20, 2000).Draw(t, "paneH")))
		f := fitPicture(bounds, size, rapid.SampledFrom([]float32{1, 1.5, 2, 3}).Draw(t, "scale"), rapid.Bool().Draw(t, "flipped"))
		at := image.Pt(rapid.IntRange(bounds.Min.X, bounds.Max.X-1).Draw(t, "atX"), rapid.IntRange(bounds.Min.Y, bounds.Max.Y-1).Draw(t, "atY"))
		if got, in := f.source(f.Pane(at)); got != at || !in {
			t.Fatalf("%v lies at %v, which leads to %v (inside: %v)", at, f.Pane(at), got, in)
		}
	})
}

func TestFitFlipped(t *testing.T) {
	f := fitPicture(image.Rect(0, 0, 100, 50), fyne.NewSize(100, 50), 1, true)
	if got, in := f.source(fyne.NewPos(10.5, 20.5)); got != image.Pt(89, 20) || !in {
		t.Errorf("the mirrored picture shows %v at (10.5, 20.5), want (89,20)", got)
	}
	pos, size := f.box(image.Rect(0, 0, 10, 5))
	if pos != fyne.NewPos(90, 0) || size != fyne.NewSize(10, 5) {
		t.Errorf("the left corner's box lies at %v, %v; want (90, 0), 10 x 5", pos, size)
	}
}
