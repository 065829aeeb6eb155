package live

import (
	"image"
	"testing"
	"time"
)

// All views' previews of a picture of 1920x1080, as they are painted once a second while their menu
// is open.
func BenchmarkPreviews(b *testing.B) {
	w := NewWorker(Owner{Show: func(*Shown) {}, Again: func(time.Duration) {}, Log: func(err error) { b.Error(err) }}, nil)
	defer w.Close()
	t := taskOf(halves(1920, 1080, black, white), wantsAll(), image.Point{})
	r := w.read(t)
	w.previews.room = image.Pt(108, 80)
	for b.Loop() {
		w.previews.paint(t, r)
	}
}
