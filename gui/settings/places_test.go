package settings

import (
	"image"
	"testing"

	"pgregory.net/rapid"

	_ "app.tonedesk/analysis/lawtest" // the same cases every time
	"app.tonedesk/gui/files"
)

// On each arrangement of screens the window comes back to where it was there, whatever it was on
// another, and however the system lists them; on one that is new, to where it was last.
func TestPlaceOn(t *testing.T) {
	laptop, wide := image.Rect(0, 0, 1920, 1080), image.Rect(1920, 0, 4480, 1440)
	left := image.Rect(-1920, 0, 0, 1080) // as large as the laptop's, elsewhere
	s := Defaults()
	s = s.WithPlace([]image.Rectangle{laptop}, image.Rect(100, 50, 480, 810))
	s.Width, s.Height = 500, 900
	s = s.WithPlace([]image.Rectangle{laptop, wide}, image.Rect(3000, 80, 3500, 980))
	for _, tt := range []struct {
		name    string
		screens []image.Rectangle
		at      image.Rectangle
		width   float32
	}{
		{"one", []image.Rectangle{laptop}, image.Rect(100, 50, 480, 810), 380},
		{"two", []image.Rectangle{laptop, wide}, image.Rect(3000, 80, 3500, 980), 500},
		{"two, listed otherwise", []image.Rectangle{wide, laptop}, image.Rect(3000, 80, 3500, 980), 500},
		{"another two", []image.Rectangle{left, laptop}, image.Rect(3000, 80, 3500, 980), 500},
		{"none known", nil, image.Rect(3000, 80, 3500, 980), 500},
	} {
		if at, width, _ := s.PlaceOn(tt.screens); at != tt.at || width != tt.width {
			t.Errorf("%s: %v, %g wide; want %v, %g", tt.name, at, width, tt.at, tt.width)
		}
	}
	if at, width, height := Defaults().PlaceOn([]image.Rectangle{laptop}); !at.Empty() || width != 380 || height != 760 {
		t.Errorf("at first it is at %v, %g by %g", at, width, height)
	}
}

// A place that was kept last is had, and is where the window comes back to; there are never more
// than so many, and what is kept is in range.
func TestWithPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Defaults()
		for range rapid.IntRange(1, 3*mostPlaces).Draw(t, "moves") {
			screens := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) image.Rectangle {
				return image.Rect(0, 0, 640, 480).Add(image.Pt(640*rapid.IntRange(-9, 9).Draw(t, "x"), 480*rapid.IntRange(0, 2).Draw(t, "y")))
			}), 0, 3).Draw(t, "screens")
			at := image.Rect(0, 0, 380, 480).Add(image.Pt(rapid.IntRange(-99, 99).Draw(t, "at x"), 0))
			was := s.Place
			s = s.WithPlace(screens, at)
			if got, _, _ := s.PlaceOn(screens); got != at || !s.HasPlace(screens, at) || s.HasPlace(screens, at.Add(image.Pt(1, 0))) {
				t.Fatalf("on %v it is at %v, want %v", screens, got, at)
			}
			if changed := s.confine(); len(changed) > 0 || len(s.Places) > mostPlaces {
				t.Fatalf("%d places; out of range: %v; before: %v", len(s.Places), changed, was)
			}
		}
	})
	s := Defaults()
	s.Place = &files.Rect{X: 1, Width: 380, Height: 760} // of a file that knows one place alone
	if on := []image.Rectangle{image.Rect(0, 0, 1920, 1080)}; s.HasPlace(on, s.Place.Rectangle()) {
		t.Error("a place without its screens is had for some")
	}
}
