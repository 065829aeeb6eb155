package flashes

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/internal/testkit"
	_ "app.tonedesk/analysis/lawtest"
)

// plain is a picture in one colour.
func plain(c colour.RGB) analysis.Pixels {
	p := analysis.Pixels{Pix: make([]byte, 4*64*48), Stride: 4 * 64, Width: 64, Height: 48}
	for i := 0; i < len(p.Pix); i += 4 {
		p.Pix[i], p.Pix[i+1], p.Pix[i+2], p.Pix[i+3] = c.R, c.G, c.B, 255
	}
	return p
}

func levelsOf(layers ...Layer) *Levels {
	var l Levels
	l.Measure(colour.RGB{}, layers...)
	return &l
}

// Two pictures in turns flash where the definition says so. Its luminances are computed with
// weights of four digits, hence the tolerance.
func TestChangesCount(t *testing.T) {
	table := testkit.ReadTable(t, "wcag_flash_transitions.csv")
	for _, row := range table.Rows {
		var both [2]*Levels
		for i, column := range []string{"1", "2"} {
			var c colour.RGB
			if err := c.UnmarshalText([]byte(table.Cell(row, "hex"+column))); err != nil {
				t.Fatal(err)
			}
			both[i] = levelsOf(Whole(plain(c)))
			if want := table.Number(row, "Y"+column); math.Abs(float64(both[i].Y[0])-want) > 5e-5 || both[i].Covered != Cells {
				t.Errorf("%s: Y %.6f of %d cells, want %.6f", row[0], both[i].Y[0], both[i].Covered, want)
			}
		}
		m, now, waits := Meter{Every: Every}, time.Now(), false
		for i := range 8 {
			now = now.Add(50 * time.Millisecond)
			waits = waits || m.Wait(both[i%2], now) > 0
			m.Show(both[i%2], now)
		}
		want := table.Cell(row, "general") == "yes"
		if waits != want || m.Flashes(Cells, now) != want {
			t.Errorf("%s: waits %v, flashes %v, want %v", row[0], waits, m.Flashes(Cells, now), want)
		}
		if m.Flashes(Cells, now.Add(time.Second)) {
			t.Errorf("%s: it flashes a second after it has stopped", row[0])
		}
	}
}

// What goes one way, or covers less than a quarter, is shown at once.
func TestNoFlashIsLeftAlone(t *testing.T) {
	black, white := plain(colour.RGB{}), plain(colour.RGB{R: 255, G: 255, B: 255})
	for name, picture := range map[string]func(i int) *Levels{
		"ever lighter":           func(i int) *Levels { v := uint8(8 * i); return levelsOf(Whole(plain(colour.RGB{R: v, G: v, B: v}))) },
		"a sixth":                func(i int) *Levels { return levelsOf(Whole(black), Layer{white, 0, 0, float32(i % 2), 1.0 / 6}) },
		"a stroke over and over": func(i int) *Levels { return levelsOf(Whole(black), Layer{white, 0.4, float32(i%2) / 2, 0.1, 0.5}) },
	} {
		m, now := Meter{Every: Every}, time.Now()
		for i := range 30 {
			l := picture(i)
			if wait := m.Wait(l, now); wait > 0 {
				t.Errorf("%s: picture %d waits %v", name, i, wait)
			}
			m.Show(l, now)
			now = now.Add(20 * time.Millisecond)
		}
	}
}

// changes are when a cell changed to and fro, judged anew from the definition.
func changes(levels []*Levels, times []time.Time, cell int) (at []time.Time) {
	low, high, way := levels[0].Y[cell], levels[0].Y[cell], 0
	for i, l := range levels {
		y := l.Y[cell]
		low, high = min(low, y), max(high, y)
		if way <= 0 && y-low >= 0.10 && low < 0.80 {
			way, low, high, at = 1, y, y, append(at, times[i])
		} else if way >= 0 && high-y >= 0.10 && y < 0.80 {
			way, low, high, at = -1, y, y, append(at, times[i])
		}
	}
	return at
}

// Whatever pictures come when, less than a quarter of what is passed on changes to and fro
// more than three times in any one second, six times with parts that move (WCAG 2.2 allows
// six), and the newest is shown at last.
func TestNeverFlashes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, now, moves := Meter{Every: Every}, time.Now(), rapid.Bool().Draw(t, "moves too")
		limit := 3
		if moves {
			limit = 6
		}
		var shown []*Levels
		var times []time.Time
		var due time.Time
		var waiting *Levels
		pass := func(l *Levels) {
			wait := m.Wait(l, now)
			if moves && rapid.Bool().Draw(t, "move") {
				wait = m.WaitToMove(l, now)
			}
			if wait < 0 || wait > 3*Every || !moves && wait > Every {
				t.Fatalf("waits %v", wait)
			}
			if waiting, due = l, now.Add(wait); wait == 0 {
				m.Show(l, now)
				shown, times, waiting = append(shown, l), append(times, now), nil
			}
		}
		grey := rapid.SampledFrom([]float32{0, 0.05, 0.3, 0.5, 0.79, 0.95, 1})
		for range rapid.IntRange(1, 120).Draw(t, "pictures") {
			next := now.Add(time.Duration(rapid.IntRange(0, 150).Draw(t, "ms")) * time.Millisecond)
			for waiting != nil && due.Before(next) {
				now = due
				pass(waiting)
			}
			now = next
			l := &Levels{Covered: Cells}
			var bands [4]float32 // so that parts can take turns
			for i := range bands {
				bands[i] = grey.Draw(t, "grey")
			}
			for i := range l.Y {
				l.Y[i] = bands[i*len(bands)/Cells]
			}
			pass(l)
		}
		if last := waiting; last != nil {
			if now = due; moves {
				now = due.Add(3 * Every)
			}
			if pass(last); waiting != nil || shown[len(shown)-1] != last {
				t.Fatalf("the newest still waits after its time")
			}
		}
		most(t, limit, shown, times)
	})
}

// Fifths that flash in turns, none of them a quarter, are no way round.
func TestPartsInTurnsFlashToo(t *testing.T) {
	m, now := Meter{Every: Every}, time.Now()
	var shown []*Levels
	var times []time.Time
	for i := range 100 {
		l := &Levels{Covered: Cells}
		for cell := range l.Y {
			l.Y[cell] = float32((i + cell*5/Cells) / 5 % 2)
		}
		if m.Wait(l, now) == 0 {
			m.Show(l, now)
			shown, times = append(shown, l), append(times, now)
		}
		now = now.Add(20 * time.Millisecond)
	}
	most(t, 3, shown, times)
}

// most fails where a quarter of the cells changed more often in a second.
func most(t testkit.Fataler, limit int, shown []*Levels, times []time.Time) {
	for _, from := range times {
		over := 0
		for cell := range Cells {
			n := 0
			for _, at := range changes(shown, times, cell) {
				if d := at.Sub(from); d >= 0 && d < time.Second {
					n++
				}
			}
			if n > limit {
				over++
			}
		}
		if 4*over >= Cells {
			t.Fatalf("%d of %d cells change more than %d times in a second", over, Cells, limit)
		}
	}
}

// A cell's level is that of what covers it, layers laid over each other as they are drawn.
func TestMeasureLays(t *testing.T) {
	white, half := plain(colour.RGB{R: 255, G: 255, B: 255}), plain(colour.RGB{})
	for i := 3; i < len(half.Pix); i += 4 {
		half.Pix[i] = 128 // black at 128 of 255: what is below shows as 127
	}
	l := levelsOf(Layer{white, 0, 0, 0.51, 1}, Layer{half, 0, 0, 0.25, 1})
	for cell, want := range map[int]float64{0: colour.Linear(127), 5: 1, 8: 1, 9: 0} { // cell 8 is covered in part
		if got := float64(l.Y[cell]); math.Abs(got-want) > 1e-6 {
			t.Errorf("cell %d is %.4f, want %.4f", cell, got, want)
		}
	}
	if l.Covered != 9*rows {
		t.Errorf("%d cells are covered, want %d", l.Covered, 9*rows)
	}
	bgr := plain(colour.RGB{R: 255})
	bgr.Layout = analysis.BGRX
	if got := float64(levelsOf(Whole(bgr)).Y[0]); math.Abs(got-0.0722) > 5e-5 { // IEC 61966-2-1: the share of blue
		t.Errorf("the first byte counts %.4f, want 0.0722", got)
	}
	levelsOf(Whole(analysis.Pixels{}), Layer{white, -0.5, -0.5, 3, 3}, Layer{white, 0.9, 0.9, 0, 0}) // no panic
}

func TestMeterAllocatesNothing(t *testing.T) {
	var l Levels
	m, picture, now := Meter{Every: Every}, Whole(plain(colour.RGB{R: 90})), time.Now()
	if n := testkit.LeastAllocs(20, func() {
		l.Measure(colour.RGB{}, picture, picture)
		m.Wait(&l, now)
		m.Show(&l, now)
		m.Flashes(l.Covered, now)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// Budget, our choice: 0.1 ms and 0 allocs/op. The picture of a large window, notes over it.
func BenchmarkMeter(b *testing.B) {
	var l Levels
	picture := func(w, h int, alpha byte) Layer {
		p := analysis.Pixels{Pix: make([]byte, 4*w*h), Stride: 4 * w, Width: w, Height: h}
		for i := range p.Pix {
			p.Pix[i] = alpha
		}
		return Whole(p)
	}
	m, below, over, now := Meter{Every: Every}, picture(1920, 1080, 255), picture(1920, 1080, 0), time.Now()
	b.ReportAllocs()
	for b.Loop() {
		l.Measure(colour.RGB{}, below, over)
		m.Wait(&l, now)
		m.Show(&l, now)
	}
}
