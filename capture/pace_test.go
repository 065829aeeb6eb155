package capture

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
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
				p.spend(at(tt.ends[i]), at(tt.ends[i]).Sub(at(tt.began[i])))
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

// Whatever frames cost, at the automatic rate no stretch of time has more spent in it than a fifth of
// it and what may be saved up; where they cost less, none is left out; and a rate that was chosen is
// kept. The clock is made up.
func TestPaceShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		told := rapid.Bool().Draw(t, "told")
		p := pace{told: told}
		p.restart(time.Unix(0, 0))
		p.set(0)
		most := rapid.IntRange(1, 400).Draw(t, "most")
		now := time.Unix(0, 0)
		var begins []time.Time
		var spent []time.Duration // before each
		total := time.Duration(0)
		for range rapid.IntRange(2, 80).Draw(t, "frames") {
			begins, spent = append(begins, now), append(spent, total)
			p.begin(now)
			read := time.Duration(rapid.IntRange(0, most).Draw(t, "read")) * time.Millisecond
			work := time.Duration(rapid.IntRange(0, most).Draw(t, "work")) * time.Millisecond
			cores := time.Duration(rapid.IntRange(1, 4).Draw(t, "cores"))
			now = now.Add(read)
			p.spend(now, read)
			now = now.Add(work)
			p.spend(now, cores*work)
			total += read + cores*work
			if rapid.Bool().Draw(t, "word of a change") {
				p.restart(now)
			}
			if p.due.After(now) {
				now = p.due
			}
			now = now.Add(time.Duration(rapid.IntRange(0, 30).Draw(t, "late")) * time.Millisecond)
		}
		for i := range begins {
			for j := i + 1; j < len(begins); j++ {
				if most := begins[j].Sub(begins[i])/restShare + savedTime; spent[j]-spent[i] > most {
					t.Fatalf("%v are spent in %v", spent[j]-spent[i], begins[j].Sub(begins[i]))
				}
			}
		}
	})
}

func TestPaceCost(t *testing.T) {
	for _, tt := range []struct {
		name       string
		rate       float64
		told       bool
		cost       time.Duration
		seconds    int
		least, top int // reads
	}{
		{"cheap, on a timer", 0, false, 5 * time.Millisecond, 10, 100, 101},
		{"cheap, told of changes", 0, true, 2 * time.Millisecond, 10, 595, 601},
		{"35 ms: every second point", 0, false, 35 * time.Millisecond, 10, 55, 62}, // 2 s / 35 ms, and what is saved
		{"35 ms, told of changes", 0, true, 35 * time.Millisecond, 10, 55, 62},
		{"the rate was chosen", 10, false, 35 * time.Millisecond, 10, 100, 101},
	} {
		p := pace{told: tt.told}
		now := time.Unix(0, 0)
		p.restart(now)
		p.set(tt.rate)
		reads := 0
		for end := now.Add(time.Duration(tt.seconds) * time.Second); now.Before(end); now = p.due {
			p.begin(now)
			p.spend(now.Add(tt.cost), tt.cost)
			reads++
		}
		if reads < tt.least || reads > tt.top {
			t.Errorf("%s: %d reads in %d s", tt.name, reads, tt.seconds)
		}
	}
	var p pace // one slow read among quick ones changes nothing
	now := time.Unix(0, 0)
	p.restart(now)
	p.set(0)
	for _, cost := range []time.Duration{1, 90, 1} {
		p.begin(now)
		p.spend(now.Add(cost*time.Millisecond), cost*time.Millisecond)
		now = now.Add(100 * time.Millisecond)
	}
	if !p.due.Equal(now) {
		t.Errorf("one slow read: due %v after the next point", p.due.Sub(now))
	}
}

// The processor's time goes on where something is worked on.
func TestProcessorTime(t *testing.T) {
	before := ProcessorTime()
	for start := time.Now(); ProcessorTime()-before < 10*time.Millisecond; {
		if time.Since(start) > 10*time.Second {
			t.Fatalf("after %v of work it says %v", time.Since(start), ProcessorTime()-before)
		}
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
