package gui

import (
	"testing"
	"time"

	"pgregory.net/rapid"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/comparing"
	"app.tonedesk/gui/guitest"
	"app.tonedesk/gui/settings"
)

// Whatever keys are held and whatever is clicked, all of the picture changes its look no
// more than three times in a second (WCAG 2.2, success criterion 2.3.1, allows six changes),
// and in the end it looks as was asked last.
func TestLookChangesNoFasterThanAllowed(t *testing.T) {
	d := newTestDesk(t, settings.Defaults())
	d.see(t, guitest.Halves(guitest.Light, guitest.Shadow))
	d.flashes.every = 60 * time.Millisecond
	var due []func()
	d.Later = func(_ time.Duration, f func()) func() { due = append(due, f); return func() {} }
	var changes []time.Time
	was := d.currentLook()
	note := func() {
		if now := d.currentLook(); now != was {
			was = now
			changes = append(changes, time.Now())
		}
	}
	for range 300 {
		d.nextView(1)
		note()
		d.flip()
		note()
		if len(due) > 0 { // a timer that comes too early is no excuse
			f := due[0]
			due = due[1:]
			f()
			note()
		}
	}
	for i := range changes {
		if i > 0 && changes[i].Sub(changes[i-1]) < d.flashes.every-time.Millisecond {
			t.Fatalf("two changes within %v", changes[i].Sub(changes[i-1]))
		}
	}
	if len(changes) == 0 {
		t.Fatal("held keys change nothing")
	}
	views := views.All()
	want := look{view: views[(1+300)%len(views)].Key, flipped: false, how: comparing.Nothing}
	d.flashes.last = time.Time{}
	for _, f := range due {
		f()
	}
	if d.currentLook() != want {
		t.Errorf("in the end it looks %+v, want %+v", d.currentLook(), want)
	}
}

// The wait is never longer than the span, and the second of two changes comes after it.
func TestFlashLimiterWaits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := flashLimiter{every: lookEvery}
		now := time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)
		var last time.Time
		for range rapid.IntRange(1, 100).Draw(t, "asks") {
			now = now.Add(time.Duration(rapid.IntRange(0, 500).Draw(t, "ms")) * time.Millisecond)
			switch wait := c.wait(now); {
			case wait < 0 || wait > lookEvery:
				t.Fatalf("waits %v", wait)
			case wait == 0 && !last.IsZero() && now.Sub(last) < lookEvery:
				t.Fatalf("a change %v after the last", now.Sub(last))
			case wait == 0:
				last = now
			}
		}
	})
}
