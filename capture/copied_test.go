package capture

import (
	"bytes"
	"image"
	"testing"

	"pgregory.net/rapid"
)

// The box holds all that differs, and is no larger than that asks for.
func TestBoxChanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := image.Pt(rapid.IntRange(1, 9).Draw(t, "wide"), rapid.IntRange(1, 9).Draw(t, "high"))
		a := make([]byte, 4*size.X*size.Y)
		b := bytes.Clone(a)
		want := image.Rectangle{}
		for range rapid.IntRange(0, 5).Draw(t, "changes") {
			x, y := rapid.IntRange(0, size.X-1).Draw(t, "x"), rapid.IntRange(0, size.Y-1).Draw(t, "y")
			b[4*(y*size.X+x)+rapid.IntRange(0, 3).Draw(t, "channel")] = 9
			want = want.Union(image.Rect(x, y, x+1, y+1))
		}
		if got := boxChanged(a, b, size); got != want && !(got.Empty() && want.Empty()) {
			t.Errorf("%v, want %v", got, want)
		}
	})
}
