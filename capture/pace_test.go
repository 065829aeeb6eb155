package capture

import (
	"math"
	"testing"
	"time"
)

func TestPaceGrid(t *testing.T) {
	start := time.Unix(0, 0)
	at := func(ms float64) time.Time { return start.Add(time.Duration(ms * float64(time.Millisecond))) }
	tests := []struct {
		name        string
		began, ends []float64 // ms; step 100 ms
		due         float64
	}{
		{"on time", []float64{0, 100}, []float64{1, 101}, 200},
		{"late wake-ups do not add up", []float64{0, 103, 207, 304}, []float64{1, 104, 208, 305}, 400},
		{"a read longer than a step is made up once", []float64{0, 120}, []float64{120, 130}, 200},
		{"many missed points are dropped but one", []float64{0, 750}, []float64{750, 751}, 800},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var p pace
			p.restart(start)
			p.set(10)
			for i := range tt.began {
				p.begin(at(tt.began[i]))
				p.end(at(tt.ends[i]))
			}
			if !p.due.Equal(at(tt.due)) {
				t.Errorf("due after %v, want %v ms", p.due.Sub(start), tt.due)
			}
		})
	}
}

func TestPaceRates(t *testing.T) {
	tests := []struct {
		perSecond float64
		every     time.Duration
		auto      bool
	}{
		{0, 100 * time.Millisecond, true},
		{-3, 100 * time.Millisecond, true},
		{math.NaN(), 100 * time.Millisecond, true},
		{10, 100 * time.Millisecond, false},
		{1, time.Second, false},
		{0.01, time.Second, false},
		{60, time.Second / 60, false},
		{1e9, time.Second / 60, false},
		{math.Inf(1), time.Second / 60, false},
	}
	for _, tt := range tests {
		var p pace
		p.restart(time.Unix(0, 0))
		p.set(tt.perSecond)
		if d := p.every - tt.every; d < -time.Nanosecond || d > time.Nanosecond || p.auto != tt.auto {
			t.Errorf("set(%g): every %v, auto %v, want %v, %v", tt.perSecond, p.every, p.auto, tt.every, tt.auto)
		}
	}
}

// The automatic rate leaves four fifths of the time free and stays on its grid; a
// rate that was chosen is kept.
func TestPaceCost(t *testing.T) {
	for _, tt := range []struct {
		rate float64
		due  time.Duration
	}{{0, 400 * time.Millisecond}, {10, 300 * time.Millisecond}} {
		var p pace
		now := time.Unix(0, 0)
		p.restart(now)
		p.set(tt.rate)
		for range 3 { // 35 ms a read: 5 x 35 = 175 ms, so every second point
			p.begin(now)
			p.end(now.Add(35 * time.Millisecond))
			now = now.Add(100 * time.Millisecond)
		}
		if got := p.due.Sub(time.Unix(0, 0)); got != tt.due {
			t.Errorf("rate %g: due after %v, want %v", tt.rate, got, tt.due)
		}
	}
	var p pace // one slow read among quick ones changes nothing
	now := time.Unix(0, 0)
	p.restart(now)
	p.set(0)
	for _, cost := range []time.Duration{1, 90, 1} {
		p.begin(now)
		p.end(now.Add(cost * time.Millisecond))
		now = now.Add(100 * time.Millisecond)
	}
	if !p.due.Equal(now) {
		t.Errorf("one slow read: due %v after the next point", p.due.Sub(now))
	}
}

func TestBackoff(t *testing.T) {
	var b backoff
	for i, want := range []time.Duration{250, 500, 1000, 2000, 2000, 2000} {
		if got := b.next(); got != want*time.Millisecond {
			t.Errorf("wait %d is %v, want %v ms", i, got, int64(want))
		}
	}
}
