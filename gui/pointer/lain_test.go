package pointer

import (
	"image"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest"
)

// Whatever the chip does, a picture counts nothing where the chip lay when it was read, or lies by
// now; and in the end nothing is left of it.
func TestLainHidesTheChip(t *testing.T) {
	all := image.Rect(-10000, -10000, 10000, 10000)
	rapid.Check(t, func(t *rapid.T) {
		var l lain
		now := time.Unix(1000, 0)
		lies := image.Rectangle{} // on the screen
		type picture struct {
			at  time.Time
			has image.Rectangle
		}
		var waiting []picture
		for range rapid.IntRange(1, 40).Draw(t, "steps") {
			now = now.Add(time.Duration(rapid.IntRange(1, 400).Draw(t, "ms")) * time.Millisecond)
			switch rapid.IntRange(0, 2).Draw(t, "what") {
			case 0: // it moves
				next := image.Rect(0, 0, 100, 28).Add(image.Pt(rapid.IntRange(0, 20).Draw(t, "to")*50, 0))
				l.comes(next)
				if rapid.Bool().Draw(t, "a picture meanwhile") {
					waiting = append(waiting, picture{now, lies})
				}
				lies = next
				l.went(lies, now)
			case 1:
				waiting = append(waiting, picture{now, lies})
			case 2: // the pictures that wait are shown, one after the other
				for _, p := range waiting {
					over := l.over(all)
					hidden := p.has.Empty()
					for _, box := range over {
						hidden = hidden || box == p.has
					}
					if !hidden {
						t.Fatalf("the picture of %v has the chip at %v, hidden are %v", p.at, p.has, over)
					}
					l.shown(p.at)
				}
				waiting = nil
			}
		}
		l.went(image.Rectangle{}, now)
		l.shown(now.Add(time.Second))
		if over := l.over(all); over != nil {
			t.Fatalf("%v is left", over)
		}
	})
}

// What waits for pictures waits at every rate, also the automatic one: a wait of nothing would ask
// again and again.
func TestRestAfter(t *testing.T) {
	for _, tt := range []struct {
		perSecond float64
		want      time.Duration
	}{
		{0, 2150 * time.Millisecond}, // as slow as the automatic rate may be
		{math.NaN(), 2150 * time.Millisecond},
		{1, 2150 * time.Millisecond},
		{10, 350 * time.Millisecond},
		{60, 150*time.Millisecond + time.Second/30},
	} {
		if got := restAfter(tt.perSecond); (got - tt.want).Abs() > time.Microsecond {
			t.Errorf("at %v a second it is %v, want %v", tt.perSecond, got, tt.want)
		}
	}
}
