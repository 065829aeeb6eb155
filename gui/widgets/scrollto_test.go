package widgets

import "testing"

// By hand, from the rule: what is beyond an edge is brought in, with a step around it; of
// what is higher than the room, the beginning is.
func TestScrollToShow(t *testing.T) {
	for _, tt := range []struct{ top, height, want float32 }{
		{0, 20, 0}, {80, 20, 0}, {81, 20, 1 + Step}, {200, 20, 120 + Step}, {-5, 20, -5 - Step},
		{50, 300, 50 - Step}, {2, 300, 0},
	} {
		if got := ScrollToShow(tt.top, tt.height, 100); got != tt.want {
			t.Errorf("from %g, %g high: scrolls by %g, want %g", tt.top, tt.height, got, tt.want)
		}
	}
}
