package stills

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// However it is driven, with time standing still, jumping or running backwards, and asked as
// often as one likes, no second holds more than three switches (WCAG 2.2, 2.3.1, allows three
// flashes, which are six).
func TestNeverMoreThanThreeSwitchesInASecond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a Alternation
		now, shown := noon, 0
		var switches []time.Time
		var latest time.Time
		for range rapid.IntRange(1, 300).Draw(t, "calls") {
			now = now.Add(time.Duration(rapid.IntRange(-50, 300).Draw(t, "ms")) * time.Millisecond)
			if now.After(latest) {
				latest = now
			}
			switch rapid.IntRange(0, 5).Draw(t, "call") {
			case 0:
				a.Run(time.Duration(rapid.IntRange(-5, 1500).Draw(t, "every"))*time.Millisecond, now)
			case 1, 2, 3: // a held key
				a.Ask()
			}
			picture, again := a.At(now)
			if picture != shown {
				shown, switches = picture, append(switches, latest)
			}
			if again < 0 || again > 2*time.Second {
				t.Fatalf("ask again after %v", again)
			}
		}
		for i := range switches {
			if i >= 3 && switches[i].Sub(switches[i-3]) <= time.Second {
				t.Fatalf("four switches within %v", switches[i].Sub(switches[i-3]))
			}
		}
	})
}

// Left alone it switches once a second; a key held with a repeat of 30 a second reaches the
// limit and not more; what was asked last is what is shown in the end.
func TestAlternationKeepsItsPace(t *testing.T) {
	var a Alternation
	count := func(seconds int, each func()) (switches int) {
		now := a.latest
		last, _ := a.At(now)
		for range 100 * seconds {
			now = now.Add(10 * time.Millisecond)
			each()
			if p, _ := a.At(now); p != last {
				last = p
				switches++
			}
		}
		return switches
	}
	a.Run(time.Second, noon)
	if n := count(10, func() {}); n != 10 {
		t.Errorf("%d switches in ten seconds, want 10", n)
	}
	a.Run(0, a.latest)
	if n := count(5, func() {}); n != 0 {
		t.Errorf("%d switches while it is stopped", n)
	}
	ticks := 0
	held := func() {
		if ticks++; ticks%3 == 0 {
			a.Ask()
		}
	}
	if n := count(10, held); n < 20 || n > 30 {
		t.Errorf("%d switches in ten seconds of a held key, want near 30", n)
	}
	a.Ask()
	want := a.wanted
	count(2, func() {})
	if p, again := a.At(a.latest); p != want || again != 0 {
		t.Errorf("picture %d is shown, want %d; again after %v", p, want, again)
	}
	a.Run(time.Millisecond, a.latest)
	if n := count(10, func() {}); n > 25 {
		t.Errorf("%d switches in ten seconds at the fastest pace", n)
	}
}
