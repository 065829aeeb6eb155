package widgets

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/gui/icons"
)

// openMenu shows a menu of a heading, an entry, two beside each other, and another that is on, in a
// window of a height. What is chosen is added to the list.
func openMenu(t *testing.T, height float32) (m *Menu, chosen *[]string, gone *int) {
	t.Helper()
	test.NewTempApp(t)
	w := test.NewWindow(canvas.NewRectangle(nil))
	t.Cleanup(w.Close)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(380, height))
	chosen, gone = new([]string), new(int)
	item := func(words string, on bool) MenuItem {
		return MenuItem{Icon: icons.Box, Words: words, Keys: "K", On: on, Do: func() { *chosen = append(*chosen, words) }}
	}
	m = NewMenu([]MenuRow{
		{Heading: "Spots"},
		{Items: []MenuItem{item("first", false)}},
		{Rule: true, Items: []MenuItem{item("left", false), item("right", false)}},
		{Items: []MenuItem{item("on", true)}},
	}, &heardKeys{}, func() { *gone++ })
	m.ShowAt(w.Canvas(), fyne.NewPos(300, 40))
	return m, chosen, gone
}

// The arrows go through the rows and, within one, to the one beside; Enter chooses, and the menu is
// gone. The first key begins at what is on.
func TestMenuByKeys(t *testing.T) {
	for _, tt := range []struct {
		keys []fyne.KeyName
		want string
	}{
		{[]fyne.KeyName{fyne.KeyDown}, "on"},
		{[]fyne.KeyName{fyne.KeyUp, fyne.KeyUp}, "left"},
		{[]fyne.KeyName{fyne.KeyUp, fyne.KeyUp, fyne.KeyRight}, "right"},
		{[]fyne.KeyName{fyne.KeyUp, fyne.KeyUp, fyne.KeyRight, fyne.KeyLeft}, "left"},
		{[]fyne.KeyName{fyne.KeyUp, fyne.KeyUp, fyne.KeyUp}, "first"},
		{[]fyne.KeyName{fyne.KeyUp, fyne.KeyUp, fyne.KeyUp, fyne.KeyUp}, "first"},
	} {
		m, chosen, gone := openMenu(t, 600)
		for _, k := range append(tt.keys, fyne.KeyReturn) {
			m.TypedKey(&fyne.KeyEvent{Name: k})
		}
		if len(*chosen) != 1 || (*chosen)[0] != tt.want || *gone != 1 {
			t.Errorf("%v chooses %q, want %q; gone %d times", tt.keys, *chosen, tt.want, *gone)
		}
	}
}

// Esc, a tap beside it and a letter close it; a tap on a heading doesn't. None of them chooses.
func TestMenuCloses(t *testing.T) {
	for name, tt := range map[string]struct {
		does func(m *Menu)
		gone int
	}{
		"Esc":      {func(m *Menu) { m.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }, 1},
		"Enter":    {func(m *Menu) { m.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }, 0},
		"beside":   {func(m *Menu) { m.Tapped(&fyne.PointEvent{Position: fyne.NewPos(5, 300)}) }, 1},
		"a letter": {func(m *Menu) { m.TypedRune('r') }, 1},
		"heading":  {func(m *Menu) { m.Tapped(&fyne.PointEvent{Position: m.edge.Position().AddXY(20, 10)}) }, 0},
	} {
		m, chosen, gone := openMenu(t, 600)
		c := m.canvas
		tt.does(m)
		if *gone != tt.gone || len(*chosen) != 0 || (c.Overlays().Top() == nil) != (tt.gone == 1) {
			t.Errorf("%s: gone %d times, chosen %q", name, *gone, *chosen)
		}
	}
}

// Rows are no lower than a pen needs, all of the menu lies in the window, and in a low window keys
// scroll to what they reach.
func TestMenuFits(t *testing.T) {
	for _, height := range []float32{600, 90} {
		m, _, _ := openMenu(t, height)
		box := m.edge
		end := box.Position().Add(box.Size())
		if box.Position().X < 0 || box.Position().Y < 0 || end.X > 380 || end.Y > height {
			t.Errorf("in a window %g high it lies at %v, %v", height, box.Position(), box.Size())
		}
		for _, c := range m.Cells() {
			if c.Part.Size().Height < 32 || c.Part.Size().Width < c.Part.MinSize().Width {
				t.Errorf("%s is %v", c.Words, c.Part.Size())
			}
		}
		m.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown}) // the last
		if scrolled := m.scroll.Offset.Y > 0; scrolled != (height < 100) {
			t.Errorf("in a window %g high it is scrolled to %v", height, m.scroll.Offset)
		}
	}
}

// A tap chooses what lies there.
func TestMenuTapped(t *testing.T) {
	m, chosen, _ := openMenu(t, 600)
	for _, c := range m.Cells() {
		if c.Words == "right" {
			test.Tap(c.Part.(fyne.Tappable))
		}
	}
	if len(*chosen) != 1 || (*chosen)[0] != "right" {
		t.Errorf("chosen %q", *chosen)
	}
}

// In large text keys stand in smaller letters before they go, none smaller than those of plain text.
func TestMenuKeysShrinkFirst(t *testing.T) {
	inText(t, 200)
	wide := func(words, keys string) float32 { return textWidth(words) + Step + textWidth(keys) }
	for _, tt := range []struct {
		words, keys string
		room        float32
		shrinks     [2]bool // words, keys
		gone        bool
	}{
		{"Clear all spots", "Shift+Delete", wide("Clear all spots", "Shift+Delete") + 1, [2]bool{}, false},
		{"Clear all spots", "Shift+Delete", 0.9 * wide("Clear all spots", "Shift+Delete"), [2]bool{false, true}, false},
		{"Clear all spots", "Shift+Delete", 0.6 * wide("Clear all spots", "Shift+Delete"), [2]bool{true, true}, false},
		{"Clear all spots", "Shift+Delete", 0.3 * wide("Clear all spots", "Shift+Delete"), [2]bool{true, true}, true},
	} {
		words, keys := entrySizes(tt.words, tt.keys, tt.room)
		if gone := keys == 0; gone != tt.gone || words < TextSize() != tt.shrinks[0] || keys < TextSize() != tt.shrinks[1] {
			t.Errorf("in %g words are %g high, keys %g", tt.room, words, keys)
		}
		if keys != 0 && plainWidth(tt.words, words)+Step+plainWidth(tt.keys, keys) > tt.room {
			t.Errorf("in %g they are too wide", tt.room)
		}
	}
}

// What a name stands for is said at the end of a row while it is at hand, and then what was there.
func TestMenuSaysWhatANameStandsFor(t *testing.T) {
	test.NewTempApp(t)
	w := test.NewWindow(canvas.NewRectangle(nil))
	t.Cleanup(w.Close)
	m := NewMenu([]MenuRow{
		{Items: []MenuItem{{Words: "plain"}, {Words: "odd", Says: "a long story"}}},
		{Items: []MenuItem{{Words: "last"}}, Words: "next V"},
	}, &heardKeys{}, nil)
	m.ShowAt(w.Canvas(), fyne.NewPos(0, 0))
	for _, tt := range []struct {
		at   int
		want string
	}{{-1, "next V"}, {1, "a long story"}, {0, "next V"}, {1, "a long story"}, {-1, "next V"}} {
		m.point(tt.at)
		if got := m.notes[0].text.Text; got != tt.want {
			t.Errorf("at %d it says %q, want %q", tt.at, got, tt.want)
		}
	}
}

// At every size of text words and keys of a row of a menu stand apart and within it, in the least
// window: the words whole, the keys only where there is room.
func TestMenuRowsAreNotCut(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		inText(t, percent)
		for _, is := range []MenuItem{{Words: "Count left-out areas again", Keys: "A"}, {Words: "Clear all spots", Keys: "Shift+Delete"}} {
			e := newMenuEntry(is, NewMenu(nil, &heardKeys{}, nil), 0, false)
			test.WidgetRenderer(e)
			e.Resize(fyne.NewSize(300, Row()))
			end := e.words.Position().X + e.words.MinSize().Width
			if e.words.Text != is.Words || end > 300 || e.keys.Text != "" && end+Step > e.keys.Position().X+0.5 || percent == 100 && e.keys.Text == "" {
				t.Errorf("%d %%: %q ends at %g, %q begins at %g", percent, e.words.Text, end, e.keys.Text, e.keys.Position().X)
			}
		}
	}
}
