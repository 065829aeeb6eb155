package host

import (
	"image"
	"testing"
)

func TestReachable(t *testing.T) {
	screens := []image.Rectangle{image.Rect(0, 0, 1000, 800), image.Rect(1000, 100, 2000, 900)}
	tests := []struct {
		name     string
		at, want image.Rectangle
	}{
		{"on a screen stays", image.Rect(100, 50, 480, 810), image.Rect(100, 50, 480, 810)},
		{"hanging over the edge stays", image.Rect(900, 60, 1280, 700), image.Rect(900, 60, 1280, 700)},
		{"on a screen that is gone", image.Rect(2500, 300, 2880, 700), image.Rect(620, 300, 1000, 700)},
		{"above all screens", image.Rect(100, -500, 480, 100), image.Rect(100, reachHeight, 480, reachHeight+600)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got, ok := reachable(tt.at, screens); !ok || got != tt.want {
				t.Errorf("goes to %v (%v), want %v", got, ok, tt.want)
			}
		})
	}
	if _, ok := reachable(tests[0].at, nil); ok {
		t.Error("a place is found without screens")
	}
}
