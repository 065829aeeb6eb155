package host

import (
	"image"
	"testing"
	"time"
)

// Where a window is before the desktop has put it where it was is no place that the painter chose: it
// would be remembered instead of that. A desktop that puts it elsewhere has the last word.
func TestArrivesWhereItWasPut(t *testing.T) {
	screens := []image.Rectangle{image.Rect(0, 0, 900, 900), image.Rect(900, 0, 1600, 900)}
	asked, before := image.Pt(1100, 90), image.Rect(300, 60, 700, 760)
	for _, tt := range []struct {
		what     string
		inside   image.Rectangle
		ago      time.Duration
		arriving bool
	}{
		{"not there yet", before, 0, true},
		{"there", before.Add(asked.Sub(before.Min)), 0, false},
		{"put elsewhere, a while ago", before, pollAnyway, false},
	} {
		w := OwnWindow{screens: screens, going: asked, asked: time.Now().Add(-tt.ago)}
		now := WindowPlace{Inside: tt.inside, Screens: screens}
		w.arrive(&now)
		if now.Arriving != tt.arriving {
			t.Errorf("%s: arriving is %v", tt.what, now.Arriving)
		}
		if now.Inside = before; tt.arriving {
			continue
		}
		if w.arrive(&now); now.Arriving {
			t.Errorf("%s, and moved by the painter then: still arriving", tt.what)
		}
	}
}
