package flashlimit

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest"
)

// The wait is never longer than the span, and the second of two changes comes after it.
func TestWaits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Limiter[int]{Every: Every}
		now := time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)
		var last time.Time
		for range rapid.IntRange(1, 100).Draw(t, "asks") {
			now = now.Add(time.Duration(rapid.IntRange(0, 500).Draw(t, "ms")) * time.Millisecond)
			switch wait := c.Wait(now); {
			case wait < 0 || wait > Every:
				t.Fatalf("waits %v", wait)
			case wait == 0 && !last.IsZero() && now.Sub(last) < Every:
				t.Fatalf("a change %v after the last", now.Sub(last))
			case wait == 0:
				last = now
			}
		}
	})
}
