package live

import (
	"errors"
	"image"
	"testing"
	"time"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/setup"
)

// A question is answered for the picture that was searched last, in pixels of the source; one
// that the worker has given meanwhile is searched first.
func TestAskAround(t *testing.T) {
	now := time.Unix(1000, 0)
	searches := 0
	s, _ := searchAt(t, &now, func(Found) { searches++ })
	next := wantsAll()
	source, origin := next.Setup.Source, image.Pt(7, 8)
	ask := func(x, y int, from setup.Source) (r Around) {
		t.Helper()
		answered := false
		s.Ask(image.Pt(x, y), from, func(a Around) { r, answered = a, true })
		for s.RunOnce() {
		}
		if !answered {
			t.Fatal("no answer")
		}
		return r
	}
	if r := ask(100, 100, source); !errors.Is(r.Err, families.ErrUnsearched) {
		t.Errorf("before any search: %+v", r)
	}
	s.offer(pixelsOf(form()), nil, job{next.Settings.Rules, next.Settings.Light, source, origin, image.Pt(400, 300)})
	s.Ask(image.Pt(0, 0), source, func(Around) {})
	s.answer(<-s.asks)
	if searches != 1 {
		t.Errorf("%d searches, want the picture that was given", searches)
	}
	// on the light: 150, 150 of the picture
	r := ask(157, 158, source)
	if r.Err != nil || r.Sides.Light != image.Pt(157, 158) || r.Sides.Shadow.X < 7+218 || r.Lightness < 70 { // its shadow begins at 218; its L* is 74.2 (CIE15)
		t.Errorf("on the light: %+v", r)
	}
	if r := ask(157, 158, setup.Source{Kind: setup.SourceDemo}); !errors.Is(r.Err, families.ErrUnsearched) {
		t.Errorf("of another source: %+v", r)
	}
	if r := ask(3, 3, source); !errors.Is(r.Err, families.ErrUnsearched) {
		t.Errorf("outside: %+v", r)
	}
	now = now.Add(time.Second)
	if wait := s.offer(pixelsOf(form()), nil, job{}); wait != 0 {
		t.Errorf("after an answer the worker has to wait %v", wait)
	}
	for range mostAsks + 3 { // none blocks whoever asks
		s.Ask(image.Pt(1, 1), source, func(Around) {})
	}
	for s.RunOnce() {
	}
}
