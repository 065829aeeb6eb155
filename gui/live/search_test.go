package live

import (
	"context"
	"image"
	"image/color"
	"slices"
	"strings"
	"testing"
	"time"
)

// form is a ground with a form on it, painted as a light and a shadow side.
func form() *image.NRGBA {
	ground := color.NRGBA{0xd8, 0xdc, 0xe0, 255}
	img := halves(400, 300, ground, ground)
	for y := range 300 {
		for x := range 400 {
			dx, dy := float64(x-200)/120, float64(y-150)/110
			switch {
			case dx*dx+dy*dy > 1:
			case dx < 0.15:
				img.SetNRGBA(x, y, color.NRGBA{0xe2, 0xab, 0x85, 255})
			default:
				img.SetNRGBA(x, y, color.NRGBA{0xb2, 0x6a, 0x5c, 255})
			}
		}
	}
	return img
}

// searchAt is a search in a time of its own.
func searchAt(t *testing.T, now *time.Time, found func(Found)) (s *Search, log *[]error) {
	log = new([]error)
	s = NewSearch(found, func(err error) { *log = append(*log, err) })
	s.now = func() time.Time { return *now }
	t.Cleanup(s.Close)
	return s, log
}

func TestSearchWaitsItsTurn(t *testing.T) {
	now := time.Unix(1000, 0)
	s, _ := searchAt(t, &now, func(Found) {})
	p := pixelsOf(halves(40, 30, black, white))
	if wait := s.offer(p, nil, job{}); wait != 0 {
		t.Errorf("the first picture has to wait %v", wait)
	}
	now = now.Add(200 * time.Millisecond)
	if wait := s.offer(p, nil, job{}); wait != 300*time.Millisecond {
		t.Errorf("after 200 ms the next has to wait %v, want 300ms", wait)
	}
	now = now.Add(time.Second)
	if wait := s.offer(p, nil, job{}); wait <= 0 {
		t.Error("a picture is taken while the search is under way")
	}
	if !s.RunOnce() || s.RunOnce() {
		t.Error("what was offered is searched once")
	}
	if wait := s.offer(p, nil, job{}); wait != 0 {
		t.Errorf("after the search the next has to wait %v", wait)
	}
	s.RunOnce()
}

// What is found is told with where it lies, by the goroutine that searches.
func TestSearchFinds(t *testing.T) {
	now := time.Unix(1000, 0)
	told := make(chan Found, 1)
	s, _ := searchAt(t, &now, func(f Found) { told <- f })
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() { s.Run(ctx); close(ended) }()
	img := form()
	next := wantsAll()
	source := next.Setup.Source
	s.offer(pixelsOf(img), nil, job{next.Settings.Rules, next.Settings.Light, source, image.Pt(7, 8), image.Pt(400, 300)})
	clear(img.Pix) // the frame is gone
	f := <-told
	stop()
	<-ended
	if len(f.List) != 1 || f.Source != source || f.Origin != image.Pt(7, 8) || f.Size != image.Pt(400, 300) {
		t.Errorf("found %d families, of %+v", len(f.List), f)
	}
}

// A mistake of ours ends neither the search nor those to come.
func TestPanicInASearch(t *testing.T) {
	now := time.Unix(1000, 0)
	calls := 0
	s, log := searchAt(t, &now, func(Found) {
		if calls++; calls == 1 {
			panic("a mistake")
		}
	})
	for range 2 {
		if wait := s.offer(pixelsOf(halves(40, 30, black, white)), nil, job{}); wait != 0 {
			t.Fatalf("it has to wait %v", wait)
		}
		s.RunOnce()
		now = now.Add(time.Second)
	}
	if calls != 2 || len(*log) != 1 || !strings.Contains((*log)[0].Error(), "looking for families: a mistake") {
		t.Errorf("%d searches, logged %v", calls, *log)
	}
}

// Families are looked for when they are wanted and the picture, what is counted of it or
// the rules have changed; and if it is too early, the frame comes back once.
func TestLookForFamilies(t *testing.T) {
	r := newRig(t)
	f := frameOf(halves(40, 30, black, white))
	step := func(what string, after time.Duration, repeated, searched bool, again ...time.Duration) {
		t.Helper()
		r.now, r.again = r.now.Add(after), nil
		r.TextEvery = 0
		r.see(f, repeated)
		if got := r.search.RunOnce(); got != searched || !slices.Equal(r.again, again) {
			t.Errorf("%s: searched %v, again in %v, want %v, %v", what, got, r.again, searched, again)
		}
	}
	step("not wanted", 0, false, false)
	r.next.Families = true
	step("wanted", 0, true, true)
	step("nothing new", time.Second, true, false)
	r.next.Settings.Rules.LeastTones++
	step("other rules", 0, true, true)
	step("a change, too early", 200*time.Millisecond, false, false, 300*time.Millisecond)
	step("another, earlier than asked for", 100*time.Millisecond, false, false)
	step("as asked for", 200*time.Millisecond, true, true)
	r.next.Setup = r.next.Setup.LeavingOut(image.Rect(0, 0, 9, 9))
	step("another count", time.Second, true, true)
	r.next.Families = false
	step("wanted no longer", time.Second, false, false)
	if len(r.log) > 0 {
		t.Error(r.log)
	}
}
