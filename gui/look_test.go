package gui

import (
	"testing"
	"time"

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
	d.flashes.Every = 60 * time.Millisecond
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
		if i > 0 && changes[i].Sub(changes[i-1]) < d.flashes.Every-time.Millisecond {
			t.Fatalf("two changes within %v", changes[i].Sub(changes[i-1]))
		}
	}
	if len(changes) == 0 {
		t.Fatal("held keys change nothing")
	}
	views := views.All()
	want := look{view: views[(1+300)%len(views)].Key, flipped: false, how: comparing.Nothing}
	d.flashes.Every = 0
	for _, f := range due {
		f()
	}
	if d.currentLook() != want {
		t.Errorf("in the end it looks %+v, want %+v", d.currentLook(), want)
	}
}
