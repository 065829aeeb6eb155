package settings

import (
	"image"
	"testing"

	"app.tonedesk/gui/setup"
)

// What is watched comes back at the next start, a window with its part; the region from before stays
// remembered while a window is followed, and no longer.
func TestRemembering(t *testing.T) {
	region := setup.Source{Kind: setup.SourceRegion, Region: image.Rect(1, 2, 31, 42)}
	window := setup.Source{Kind: setup.SourceWindow, Title: "Heron", Class: "Painter"}
	part := window
	part.Region = image.Rect(3, 4, 50, 60)
	picture := setup.Source{Kind: setup.SourcePicture, Path: "/tmp/heron.png"}
	nothing := setup.Source{Kind: setup.SourceNothing}
	s := Defaults()
	for _, tt := range []struct {
		from, first setup.Source
		region      bool
	}{
		{nothing, nothing, false}, {region, region, true}, {window, window, true}, {part, part, true},
		{region, region, true}, {part, part, true}, {picture, picture, false}, {window, window, false},
		{setup.Source{Kind: setup.SourceDemo}, nothing, false},
	} {
		s = s.Remembering(tt.from).Valid()
		if got := s.First(); got != tt.first || (s.Region != nil) != tt.region {
			t.Errorf("after %+v: %+v, region %v", tt.from, got, s.Region)
		}
	}
}

// Of a window one entry is offered again, with its last part.
func TestWatchingWindows(t *testing.T) {
	window := setup.Source{Kind: setup.SourceWindow, Title: "Heron", Class: "Painter"}
	part, other := window, window
	part.Region, other.Class = image.Rect(3, 4, 50, 60), "Viewer"
	s := Defaults()
	for _, from := range []setup.Source{window, other, part} {
		s = s.Watching(WatchedOf(from))
	}
	if s = s.Valid(); len(s.Before) != 2 || s.Before[0].Source() != part || s.Before[1].Source() != other {
		t.Errorf("before are %+v", s.Before)
	}
	renamed := part
	renamed.Title = "Heron, changed"
	if s = s.Renaming(part, renamed); len(s.Before) != 2 || s.Before[0].Source() != renamed || s.Before[1].Source() != other {
		t.Errorf("renamed, before are %+v", s.Before)
	}
}

// The region stays remembered while a window is followed, and the window among what was watched before
// while a region is.
func TestRegionAndWindowStayRemembered(t *testing.T) {
	region := setup.Source{Kind: setup.SourceRegion, Region: image.Rect(20, 30, 220, 330)}
	window := setup.Source{Kind: setup.SourceWindow, Title: "Heron", Class: "Painter", Window: 7}
	watch := func(s Settings, from setup.Source) Settings { return s.Remembering(from).Watching(WatchedOf(from)) }
	s := watch(watch(Defaults(), region), window)
	window.Window = 0 // its number means nothing at the next start
	if s.Region.Rectangle() != region.Region || s.First() != window {
		t.Errorf("while the window is followed: the region is %v, and the next start watches %+v", s.Region, s.First())
	}
	s = watch(s, region)
	if len(s.Before) != 2 || s.Before[1].Source() != window || s.First() != region {
		t.Errorf("while the region is watched: before are %+v, and the next start watches %+v", s.Before, s.First())
	}
}
