package capture

import "testing"

// The window that is wanted is known by its number; else by title and class, the topmost first, and
// then it is said how many others have these.
func TestSought(t *testing.T) {
	list := []Window{
		{ID: 1, Title: "Heron", Class: "Painter", Minimised: true}, {ID: 2, Title: "Heron", Class: "Painter"},
		{ID: 3, Title: "Heron", Class: "Painter"}, {ID: 4, Title: "Heron", Class: "Viewer"}, {ID: 5, Title: "Reeds", Class: "Painter"},
	}
	for _, tt := range []struct {
		what   string
		wanted Window
		id     uint64
		alike  int
		found  bool
	}{
		{"by its number", Window{ID: 3, Title: "Heron", Class: "Painter"}, 3, 0, true},
		{"by its number, of another class", Window{ID: 4, Title: "Heron", Class: "Painter"}, 2, 2, true},
		{"by its number, of another title", Window{ID: 5, Title: "Heron", Class: "Painter"}, 5, 0, true},
		{"by its number, in doubt before", Window{ID: 2, Title: "Heron", Class: "Painter", Alike: 2}, 2, 2, true},
		{"the topmost that can be read", Window{Title: "Heron", Class: "Painter"}, 2, 2, true},
		{"a sole one", Window{Title: "Heron", Class: "Viewer", Alike: 1}, 4, 0, true},
		{"none", Window{Title: "Reeds", Class: "Viewer"}, 0, 0, false},
	} {
		got, found := sought(tt.wanted, list)
		if found != tt.found || found && (got.ID != tt.id || got.Alike != tt.alike) {
			t.Errorf("%s: window %d, %d alike, found %v", tt.what, got.ID, got.Alike, found)
		}
	}
}
