package capture

import (
	"errors"
	"fmt"
	"image"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// A square of the screen is read where it is asked for, in every depth, and cut where the desktop ends;
// the pointer is where it was put.
func TestX11ReadsSquares(t *testing.T) {
	for _, depth := range []int{24, 16} {
		t.Run(fmt.Sprint("depth ", depth), func(t *testing.T) { readSquares(t, depth) })
	}
}

func readSquares(t *testing.T, depth int) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 300, Height: 200, Depth: depth})
	painter, b := server.Painter(), openTest(t, server)
	painter.Fill(image.Rect(0, 0, 300, 200), 0)
	painter.Fill(image.Rect(100, 50, 101, 51), 0xffffffff) // white in every depth
	for _, tt := range []struct {
		around image.Point
		want   image.Rectangle
	}{
		{image.Pt(100, 50), image.Rect(95, 45, 106, 56)},
		{image.Pt(0, 0), image.Rect(0, 0, 6, 6)},
		{image.Pt(299, 199), image.Rect(294, 194, 300, 200)},
	} {
		f, err := ReadSquare(bounded(t), b, tt.around, 11)
		if err != nil || f.Origin != tt.want.Min || f.Size != tt.want.Size() {
			t.Fatalf("around %v is %v of %v, error %v; want %v", tt.around, f.Origin, f.Size, err, tt.want)
		}
		for y := range f.Size.Y {
			for x := range f.Size.X {
				want := [3]byte{}
				if f.Origin.Add(image.Pt(x, y)) == image.Pt(100, 50) {
					want = [3]byte{255, 255, 255}
				}
				if got := at(f, x, y); got != want {
					t.Errorf("around %v the pixel %d,%d is %v, want %v", tt.around, x, y, got, want)
				}
			}
		}
	}
	if _, err := ReadSquare(bounded(t), b, image.Pt(400, 10), 11); !errors.Is(err, ErrOutside) {
		t.Errorf("a square outside gives %v", err)
	}
	server.Run("xdotool", "mousemove", "123", "45")
	if p, err := PointerAt(bounded(t), b); err != nil || p != image.Pt(123, 45) {
		t.Errorf("the pointer is at %v, error %v", p, err)
	}
}
