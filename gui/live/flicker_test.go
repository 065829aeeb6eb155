package live

import (
	"image/color"
	"slices"
	"testing"
	"time"

	"app.tonedesk/analysis/flashes"
	"app.tonedesk/capture"
)

// A picture that flashes by itself is shown at most three times in a second (WCAG 2.2, success
// criterion 2.3.1, allows six changes), the newest at last, and it is said for as long as it
// flashes; one that changes otherwise is shown at once.
func TestFlickerIsShownSeldom(t *testing.T) {
	grey := func(v uint8) *capture.Frame {
		c := color.NRGBA{v, v, v, 255}
		return frameOf(halves(64, 48, c, c))
	}
	for _, tt := range []struct {
		what    string
		picture func(i int) uint8
		flashes bool
	}{
		{"black and white in turns", func(i int) uint8 { return uint8(255 * (i % 2)) }, true},
		{"ever lighter", func(i int) uint8 { return uint8(5 * i) }, false},
		{"to and fro by less than 10 %: #000000 to #404040 is 0.0513 (WCAG 2.2)", func(i int) uint8 { return uint8(0x40 * (i % 2)) }, false},
	} {
		r := newRig(t)
		f := grey(0)
		var due, shown []time.Time
		see := func(repeated bool) {
			asked := len(r.again)
			before := r.Worker.shown.Img
			s := r.see(f, repeated)
			if s != nil && s.Img != before {
				shown = append(shown, r.now)
			}
			for _, after := range r.again[asked:] {
				due = append(due, r.now.Add(after))
			}
			due = slices.DeleteFunc(due, func(at time.Time) bool { return !at.After(r.now) })
		}
		run := func(picture func(i int) uint8, pictures int) (said bool) {
			for i := range pictures {
				for step := range 10 { // ten pictures a second
					r.now = r.now.Add(10 * time.Millisecond)
					back := slices.ContainsFunc(due, func(at time.Time) bool { return !at.After(r.now) })
					if step == 0 && picture != nil {
						f = grey(picture(i))
						see(false)
					} else if back {
						see(true)
					}
				}
				said = said || r.Worker.shown.Flashes
			}
			return said
		}
		if said := run(tt.picture, 50); said != tt.flashes {
			t.Errorf("%s: said %v that it flashes", tt.what, said)
		}
		if many := len(due); many > 2 {
			t.Errorf("%s: it comes back %d times at once", tt.what, many)
		}
		if tt.flashes {
			last := shown[4:] // the first three are needed to see it
			for i := 3; i < len(last); i++ {
				if d := last[i].Sub(last[i-3]); d <= time.Second {
					t.Errorf("%s: four pictures within %v", tt.what, d)
				}
			}
		} else if len(shown) < 45 {
			t.Errorf("%s: %d of 50 pictures are shown", tt.what, len(shown))
		}
		run(nil, 20)
		if want := f.Pix[0]; r.Worker.shown.Img.Pix[0] != want || r.Worker.shown.Flashes {
			t.Errorf("%s: two seconds later %d is shown, want %d; said that it flashes: %v", tt.what, r.Worker.shown.Img.Pix[0], want, r.Worker.shown.Flashes)
		}
	}
}

// Another source is shown at once, however the one before flashed.
func TestAnotherSourceIsNoFlicker(t *testing.T) {
	r := newRig(t)
	dark, light := frameOf(halves(8, 4, black, black)), frameOf(halves(8, 4, white, white))
	for range 4 {
		r.now = r.now.Add(flashes.Every / 4)
		r.see(dark, false)
		r.now = r.now.Add(flashes.Every / 4)
		r.see(light, false)
	}
	if !r.Worker.shown.Flashes {
		t.Fatal("it doesn't flash")
	}
	r.next.Setup.Source.Path = "another.png"
	if s := r.see(dark, false); s == nil || s.Flashes {
		t.Error("another source waits for the one before")
	}
}
