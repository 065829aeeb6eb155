package native

import (
	"image"
	"testing"
)

// The screens are those that the system counts, and all of the first one is among them.
func TestScreens(t *testing.T) {
	metrics := user32.NewProc("GetSystemMetrics")
	metric := func(which uintptr) int { v, _, _ := metrics.Call(which); return int(int32(v)) }
	const width, height, monitors = 0, 1, 80 // SM_CXSCREEN, SM_CYSCREEN, SM_CMONITORS of winuser.h
	for range 3 {
		screens, err := Screens()
		if err != nil || len(screens) != metric(monitors) {
			t.Fatalf("%v, %v; the system counts %d", screens, err, metric(monitors))
		}
		first, there := image.Rect(0, 0, metric(width), metric(height)), false
		for _, s := range screens {
			there = there || s == first
		}
		if first.Empty() || !there {
			t.Errorf("%v has not the first screen, %v", screens, first)
		}
	}
}
