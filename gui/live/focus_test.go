package live

import (
	"image"
	"testing"
	"time"

	"app.tonedesk/analysis/focus"
	"app.tonedesk/gui/setup"
)

// A picture's contrast is measured where searches run: once for each picture that is taken, no more
// often than every half second, and not while one waits.
func TestFocusWaitsItsTurn(t *testing.T) {
	now := time.Unix(1000, 0)
	s, log := searchAt(t, &now, func(Found) {})
	var got []Focused
	s.Focused = func(f Focused) { got = append(got, f) }
	of := Focused{Source: setup.Source{Path: "a"}, Bounds: image.Rect(10, 20, 50, 50)}
	p := pixelsOf(halves(40, 30, black, white))
	if wait := s.offerFocus(p, nil, of, focus.DefaultOptions()); wait != 0 {
		t.Errorf("the first picture has to wait %v", wait)
	}
	now = now.Add(200 * time.Millisecond)
	if wait := s.offerFocus(p, nil, of, focus.DefaultOptions()); wait != 300*time.Millisecond {
		t.Errorf("after 200 ms the next has to wait %v", wait)
	}
	now = now.Add(time.Second)
	if wait := s.offerFocus(p, nil, of, focus.DefaultOptions()); wait <= 0 {
		t.Error("one is taken while another waits")
	}
	if !s.RunOnce() || s.RunOnce() || len(got) != 1 || got[0].Source != of.Source || got[0].Bounds != of.Bounds || len(got[0].Places) == 0 {
		t.Fatalf("%+v", got)
	}
	if wait := s.offerFocus(p, nil, of, focus.DefaultOptions()); wait != 0 {
		t.Errorf("measured, the next has to wait %v", wait)
	}
	s.Focused = func(Focused) { panic("a mistake of ours") }
	if s.RunOnce(); len(*log) != 1 {
		t.Errorf("logged: %v", *log)
	}
	now = now.Add(time.Second)
	if wait := s.offerFocus(p, nil, of, focus.DefaultOptions()); wait != 0 {
		t.Error("after a mistake nothing is taken any more")
	}
}
