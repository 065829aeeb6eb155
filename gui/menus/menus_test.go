package menus

import (
	"image"
	"slices"
	"testing"

	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// items are a menu's, in order.
func items(rows []widgets.MenuRow) (list []widgets.MenuItem) {
	for _, r := range rows {
		list = append(list, r.Items...)
	}
	return list
}

// A window is the first choice where it can be followed, a region the second; else the first.
func TestSourceRows(t *testing.T) {
	for _, follows := range []bool{true, false} {
		s := Source{}
		want := []string{"Choose a region", "Open a picture"}
		if follows {
			s.Window, want = func() {}, append([]string{"Follow a window"}, want...)
		}
		var got []string
		for _, i := range items(s.Rows())[:len(want)] {
			got = append(got, i.Words)
		}
		if !slices.Equal(got, want) {
			t.Errorf("windows can be followed: %v: the menu begins with %q, want %q", follows, got, want)
		}
		s.Shares, want[len(want)-2] = true, wording.ShareScreen.String()
		if got := items(s.Rows())[len(want)-2].Words; got != want[len(want)-2] {
			t.Errorf("where the desktop shares the screen it has %q, want %q", got, want[len(want)-2])
		}
	}
}

// The list begins with the way to point where there is one. Windows of the same title and program are
// told apart by their size, and only the one that is followed is marked.
func TestWindowsRows(t *testing.T) {
	of := func(number uint64, title string) Window {
		return Window{From: setup.Source{Kind: setup.SourceWindow, Title: title, Class: "Painter", Window: number}, Width: 100 * int(number), Height: 90}
	}
	list := []Window{of(1, "Heron"), of(2, "Heron"), of(3, "Egret")}
	list[2].Minimised = true
	for _, tt := range []struct {
		name string
		now  setup.Source
		on   []bool
	}{
		{"one of two", list[1].From, []bool{false, true, false}},
		{"a part of it", setup.Source{Kind: setup.SourceWindow, Title: "Egret", Class: "Painter", Window: 3, Region: image.Rect(1, 2, 30, 40)}, []bool{false, false, true}},
		{"known by title and class alone", setup.Source{Kind: setup.SourceWindow, Title: "Egret", Class: "Painter"}, []bool{false, false, true}},
		{"a region", setup.Source{Kind: setup.SourceRegion, Region: image.Rect(1, 2, 30, 40)}, []bool{false, false, false}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var taken setup.Source
			pointed := false
			w := Windows{List: list, Now: tt.now, Follow: func(from setup.Source) { taken = from }, Point: func() { pointed = true }}
			got := items(w.Rows())
			if len(got) != 4 || got[0].Words != wording.PointAtIt.String() {
				t.Fatalf("the list is %+v", got)
			}
			if got[0].Do(); !pointed {
				t.Error("its first row doesn't have the painter point")
			}
			for i, row := range got[1:] {
				keys := []string{wording.SizeSay(100, 90), wording.SizeSay(200, 90), wording.SayMinimised.String()}[i]
				if row.Do(); taken != list[i].From || row.On != tt.on[i] || row.Keys != keys {
					t.Errorf("row %d: %q beside it, marked %v, takes %+v", i, row.Keys, row.On, taken)
				}
			}
			w.Point = nil
			if got := items(w.Rows()); len(got) != 3 {
				t.Errorf("without a way to point it has %d rows, want 3", len(got))
			}
		})
	}
}

// Screens are rows by their names and sizes.
func TestScreensRows(t *testing.T) {
	from := setup.Source{Kind: setup.SourceShared, Window: 7}
	var watched setup.Source
	list := items(Screens([]Screen{{From: from, Name: "DP-1", Width: 1920, Height: 1080}}, func(s setup.Source) { watched = s }))
	if len(list) != 1 || list[0].Words != "DP-1" || list[0].Keys != wording.SizeSay(1920, 1080) {
		t.Fatalf("the rows are %+v", list)
	}
	if list[0].Do(); watched != from {
		t.Errorf("it watches %+v", watched)
	}
}
