package native

import (
	"image"
	"testing"
)

// Whatever a property holds, a window with its frame is a little larger than its inside, and
// lies where a display can be.
func FuzzProperties(f *testing.F) {
	f.Add(byte(32), []byte{5, 0, 0, 0, 5, 0, 0, 0, 20, 0, 0, 0, 5, 0, 0, 0})
	f.Add(byte(32), []byte{255, 255, 255, 255, 0, 0, 0, 128, 1, 0, 0, 0, 0, 0, 0, 0})
	f.Add(byte(8), []byte("text"))
	f.Fuzz(func(t *testing.T, format byte, value []byte) {
		numbers := numbersIn(format, value)
		if len(numbers) > len(value)/4 {
			t.Fatalf("%d numbers in %d bytes", len(numbers), len(value))
		}
		inside := image.Rect(10, 20, 110, 220)
		if frame := framed(inside, numbers); !inside.In(frame) || !frame.In(inside.Inset(-1<<15)) {
			t.Errorf("%v has the frame %v", inside, frame)
		}
	})
}
