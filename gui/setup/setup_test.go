package setup

import (
	"image"
	"reflect"
	"testing"

	"app.tonedesk/analysis"
)

// The rule of the window: the first click sets A, every further one B again, with Shift
// one spot more.
func TestSetupWith(t *testing.T) {
	var s Setup
	steps := []struct {
		x    int
		add  bool
		at   int
		want []int // x of each spot
	}{
		{1, false, 0, []int{1}},
		{2, false, 1, []int{1, 2}},
		{3, false, 1, []int{1, 3}},
		{4, true, 2, []int{1, 3, 4}},
		{5, false, 1, []int{1, 5, 4}},
	}
	for i, step := range steps {
		before := s
		var at int
		s, at = s.With(Place{At: image.Pt(step.x, 0)}, step.add)
		var got []int
		for _, p := range s.Places {
			got = append(got, p.At.X)
		}
		if at != step.at || !reflect.DeepEqual(got, step.want) {
			t.Fatalf("step %d: spots %v, placed %d; want %v, %d", i, got, at, step.want, step.at)
		}
		if len(before.Places) > 0 && step.at < len(before.Places) && &before.Places[0] == &s.Places[0] {
			t.Fatalf("step %d wrote into the setup before it", i)
		}
	}
}

func TestSetupFull(t *testing.T) {
	var s Setup
	for i := range MaxSpots + 3 {
		s, _ = s.With(Place{At: image.Pt(i, 0)}, true)
	}
	if len(s.Places) != MaxSpots || s.Places[MaxSpots-1].At.X != MaxSpots+2 {
		t.Errorf("a full set has %d spots, the last at %v", len(s.Places), s.Places[len(s.Places)-1].At)
	}
}

func TestSetupOut(t *testing.T) {
	s := Setup{Out: Out{Tones: []float64{100}}}.LeavingOut(image.Rect(110, 210, 120, 220))
	var out analysis.Mask
	s.Mask(&out, image.Pt(100, 200), image.Rect(150, 250, 160, 260))
	want := []image.Rectangle{image.Rect(10, 10, 20, 20), image.Rect(50, 50, 60, 60)}
	if !reflect.DeepEqual(out.Areas, want) {
		t.Errorf("areas %v, want %v", out.Areas, want)
	}
	// white, and what is within 1 L* of it: bins 252 (99 of 100 in 255 steps) to 255
	for bin, left := range out.Lightness {
		if left != (bin >= 252) {
			t.Errorf("bin %d left out: %v", bin, left)
		}
	}
	s.CountingAll().Mask(&out, image.Point{}, image.Rectangle{})
	if len(out.Areas) != 0 || out.Lightness != [256]bool{} {
		t.Error("something is still left out")
	}
}

func TestPlaceTo(t *testing.T) {
	area := Place{Area: image.Rect(0, 0, 10, 20), Moved: true}.To(image.Pt(105, 110))
	if want := image.Rect(100, 100, 110, 120); area.Area != want || area.Moved {
		t.Errorf("area at %v (moved: %v), want %v", area.Area, area.Moved, want)
	}
}

// After many steps the oldest are gone, the newest are not, and there is a way back to each of them.
func TestHistoryEnds(t *testing.T) {
	var h History
	for i := range 3 * mostSteps {
		h.Step(Setup{Groups: i}, "")
	}
	now, n := Setup{Groups: 3 * mostSteps}, 0
	for back, ok := h.Undo(now); ok; back, ok = h.Undo(now) {
		if n++; back.Groups != now.Groups-1 {
			t.Fatalf("after step %d comes %d", now.Groups, back.Groups)
		}
		now = back
	}
	if n != mostSteps {
		t.Errorf("there are %d steps back, want %d", n, mostSteps)
	}
}

func TestHistory(t *testing.T) {
	at := func(x int) Setup { s, _ := Setup{}.With(Place{At: image.Pt(x, 0)}, false); return s }
	var h History
	h.Step(at(0), "")
	h.Step(at(1), "carry A")
	h.Step(at(2), "carry A") // joins
	h.Settle()
	h.Step(at(3), "carry A")
	now := at(4)
	var ok bool
	for _, want := range []int{3, 1, 0} {
		if now, ok = h.Undo(now); !ok || now.Places[0].At.X != want {
			t.Fatalf("undo leads to %v, want %d", now.Places[0].At, want)
		}
	}
	if _, ok = h.Undo(now); ok {
		t.Fatal("undo goes on before the first step")
	}
	for _, want := range []int{1, 3, 4} {
		if now, ok = h.Redo(now); !ok || now.Places[0].At.X != want {
			t.Fatalf("redo leads to %v, want %d", now.Places[0].At, want)
		}
	}
	h.Undo(now)
	h.Step(at(9), "")
	if _, ok = h.Redo(at(10)); ok {
		t.Error("a new step leaves something to do again")
	}
}

// Of too many colours the oldest is counted again; another distance is one for all of them.
func TestSetupColours(t *testing.T) {
	var s Setup
	for i := range analysis.MostSeeds + 2 {
		before := s
		s = s.LeavingOutColour(analysis.Seed{At: image.Pt(i, 0), Within: 3})
		if before.Same(s.Out) || len(before.Seeds) > 0 && before.Seeds[len(before.Seeds)-1].At.X != i-1 {
			t.Fatalf("colour %d changes the setup before it", i)
		}
	}
	wider := s.WithWithin(5)
	if len(s.Seeds) != analysis.MostSeeds || s.Seeds[0].At.X != 2 || s.Seeds[0].Within != 3 || wider.Seeds[0].Within != 5 || wider.Seeds[0].At.X != 2 {
		t.Errorf("left out are %v, wider %v", s.Seeds, wider.Seeds)
	}
}

// A workspace takes the place of the one before, and is undone with it.
func TestSetupWorkspace(t *testing.T) {
	bounds := image.Rect(100, 100, 200, 180)
	s := Setup{}.LeavingOut(image.Rect(0, 0, 5, 5)).LeavingOutWorkspace(bounds, image.Rect(110, 100, 190, 170))
	s = s.LeavingOutWorkspace(bounds, image.Rect(120, 110, 180, 180))
	var out analysis.Mask
	s.Mask(&out, bounds.Min, image.Rectangle{})
	left := 0
	for y := range 80 {
		for x := range 100 {
			for _, a := range out.Areas[1:] {
				if image.Pt(x, y).In(a) {
					left++
				}
			}
		}
	}
	if want := 100*80 - 60*70; left != want || len(out.Areas) != 4 {
		t.Errorf("%d pixels in %v are left out, want %d around the canvas", left, out.Areas, want)
	}
	if s.CountingAll().Workspace != nil {
		t.Error("the workspace is still left out")
	}
}

// A window that is called otherwise is so in every setup to go back to; another one is not.
func TestHistoryRename(t *testing.T) {
	window := Setup{Source: Source{Kind: SourceWindow, Title: "Heron", Class: "Painter"}}
	part, other := window, window
	part.Source.Region, other.Source.Class = image.Rect(1, 2, 30, 40), "Viewer"
	var h History
	for _, s := range []Setup{other, window} {
		h.Step(s, "")
	}
	now := h.Rename(part, "Egret")
	for _, want := range []Source{
		{Kind: SourceWindow, Title: "Egret", Class: "Painter"}, {Kind: SourceWindow, Title: "Heron", Class: "Viewer"},
	} {
		var ok bool
		if now, ok = h.Undo(now); !ok || now.Source != want {
			t.Errorf("back to %+v, want %+v", now.Source, want)
		}
	}
	h.Redo(now)
	if now, _ = h.Redo(now); now.Source.Region != part.Source.Region || now.Source.Title != "Egret" {
		t.Errorf("on to %+v", now.Source)
	}
}

// Of two windows of the same title and class only their numbers tell; where one isn't known they may
// be the same.
func TestSameWindow(t *testing.T) {
	heron := Source{Kind: SourceWindow, Title: "Heron", Class: "Painter", Window: 1}
	with := func(change func(*Source)) Source {
		s := heron
		change(&s)
		return s
	}
	for _, tt := range []struct {
		name string
		of   Source
		want bool
	}{
		{"itself", heron, true},
		{"a part of it", with(func(s *Source) { s.Region = image.Rect(1, 2, 3, 4) }), true},
		{"by title and class", with(func(s *Source) { s.Window = 0 }), true},
		{"its twin", with(func(s *Source) { s.Window = 2 }), false},
		{"another title", with(func(s *Source) { s.Title = "Egret" }), false},
		{"another title, by title and class", with(func(s *Source) { s.Title, s.Window = "Egret", 0 }), false},
		{"another class", with(func(s *Source) { s.Class = "Viewer" }), false},
		{"no window", with(func(s *Source) { s.Kind = SourceRegion }), false},
	} {
		if got := heron.SameWindow(tt.of); got != tt.want || tt.of.SameWindow(heron) != got {
			t.Errorf("%s: %v", tt.name, got)
		}
	}
}
