package live

import (
	"image"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // a few cases, or many
	"app.tonedesk/analysis/views"
	"app.tonedesk/capture"
)

// Previews of all views are painted while they are wanted: at once when their menu is opened, then
// no more than once a second, only where something has changed, and that is never missed.
func TestPreviews(t *testing.T) {
	r := newRig(t)
	a, b := frameOf(halves(40, 30, black, white)), frameOf(halves(40, 30, white, black))
	if s := r.see(a, false); s.Previews != nil {
		t.Error("they are painted, and nobody looks")
	}
	r.next.Previews = image.Pt(20, 20)
	s := r.see(a, true)
	if len(s.Previews) != len(views.All()) {
		t.Fatalf("%d previews", len(s.Previews))
	}
	for i, img := range s.Previews {
		if img.Rect.Size() != image.Pt(20, 15) {
			t.Errorf("%s is %v", views.All()[i].Key, img.Rect)
		}
	}
	if left, right := s.Previews[1].RGBAAt(2, 7).R, s.Previews[1].RGBAAt(17, 7).R; left != 0 || right != 255 {
		t.Errorf("the grey one shows %d and %d", left, right)
	}
	if s := r.see(a, true); s.Previews != nil {
		t.Error("they are painted again, and nothing has changed")
	}
	r.again = nil
	if s := r.see(b, false); s.Previews != nil || len(r.again) == 0 {
		t.Errorf("another picture within a second: %d previews, and it comes back after %v", len(s.Previews), r.again)
	}
	r.now = r.now.Add(PreviewsEvery)
	if s := r.see(b, true); s.Previews == nil || s.Previews[1].RGBAAt(2, 7).R != 255 {
		t.Error("a second later the change is not shown")
	}
	r.next.Previews, r.again = image.Point{}, nil
	r.now = r.now.Add(time.Minute)
	if s := r.see(a, false); s.Previews != nil {
		t.Error("they are painted, and the menu is closed")
	}
}

// However often the picture changes while the menu is open, the previews are renewed once a second at most,
// show the picture of then, and what changed in between is shown once the second is over.
func TestPreviewsOnceASecond(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := newRig(t)
		pictures := []*capture.Frame{frameOf(halves(40, 30, black, white)), frameOf(halves(40, 30, white, black))}
		r.next.Previews = image.Pt(20, 20)
		var at []time.Time // of the renewals
		shows, seen := -1, -1
		see := func(picture int, after time.Duration) {
			r.now = r.now.Add(after)
			s := r.see(pictures[picture], picture == seen)
			if seen = picture; s == nil || s.Previews == nil {
				return
			}
			shows = map[uint8]int{0: 0, 255: 1}[s.Previews[1].RGBAAt(2, 7).R]
			at = append(at, r.now)
		}
		for range rapid.IntRange(1, 12).Draw(rt, "frames") {
			see(rapid.IntRange(0, 1).Draw(rt, "picture"), time.Duration(rapid.IntRange(0, 1400).Draw(rt, "milliseconds"))*time.Millisecond)
		}
		see(seen, time.Second)
		if shows != seen {
			rt.Fatalf("picture %d is shown, and it is %d", shows, seen)
		}
		for i := 1; i < len(at); i++ {
			if since := at[i].Sub(at[i-1]); since < time.Second {
				rt.Fatalf("renewed after %v", since)
			}
		}
	})
}

// The previews keep the picture's proportion, and are never larger than it.
func TestPreviewSize(t *testing.T) {
	for _, tt := range [][3]image.Point{
		{{1200, 900}, {108, 80}, {107, 80}}, {{900, 1200}, {108, 80}, {60, 80}}, {{5, 4}, {108, 80}, {5, 4}}, {{9000, 8}, {108, 80}, {108, 1}},
	} {
		if got := within(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%v in %v is %v, want %v", tt[0], tt[1], got, tt[2])
		}
	}
}
