package widgets

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestChooser(t *testing.T) {
	test.NewTempApp(t)
	chosen := -1
	c := NewChooser([]string{"one", "two", "three", "four"}, nil, func(i int) { chosen = i })
	c.Resize(fyne.NewSize(200, 32))
	c.Tapped(&fyne.PointEvent{Position: fyne.NewPos(120, 10)})
	if chosen != 2 {
		t.Errorf("a click on the third chooses %d", chosen)
	}
	c.Set(3)
	chosen = -1
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if chosen != -1 {
		t.Errorf("right of the last is %d", chosen)
	}
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if chosen != 2 {
		t.Errorf("left of the fourth is %d", chosen)
	}
	for _, tt := range []struct {
		words []float32
		width float32
		want  []float32
	}{
		{[]float32{30, 40, 50, 20}, 240, []float32{0, 60, 120, 180, 240}},        // room for all: alike
		{[]float32{62, 57, 8, 8, 49}, 284, []float32{0, 79, 154, 186, 218, 284}}, // 32 for the short ones, 17.3 more than its width for each other
	} {
		if got := slots(tt.words, tt.width); !slices.Equal(got, tt.want) {
			t.Errorf("words of %v in %g begin at %v, want %v", tt.words, tt.width, got, tt.want)
		}
	}
	end := float32(0)
	for i := range 4 {
		x, w := slot(i, 4, 201)
		if x != end || w < 50 {
			t.Errorf("slot %d begins at %g, %g wide, after %g", i, x, w, end)
		}
		end = x + w
	}
	if end != 201 {
		t.Errorf("the slots end at %g", end)
	}
}

// At every size of text, where the row has room for its words, each is within its own segment and
// each segment wide enough for a pen.
func TestChooserWordsStayWithin(t *testing.T) {
	for _, percent := range []int{100, 150, 200} {
		inText(t, percent)
		c := NewChooser([]string{"Automatic", "2", "3", "4"}, nil, func(int) {})
		test.WidgetRenderer(c)
		c.Resize(fyne.NewSize(segmentsWide(segments(false, false), segmentTight), Row()))
		at := c.slots(c.Size().Width)
		for i, text := range c.texts {
			from, to := text.Position().X, text.Position().X+text.MinSize().Width
			if from < at[i] || to > at[i+1] || at[i+1]-at[i] < 32 {
				t.Errorf("%d %%: %q from %g to %g, in a segment from %g to %g", percent, text.Text, from, to, at[i], at[i+1])
			}
		}
	}
}

// In text of twice the size a row whose words find no room is a list with the chosen word, as large as all
// text is; it opens at a tap and by a key, and a word in it is chosen. In plain text it is a row.
func TestChooserBecomesList(t *testing.T) {
	inText(t, 200)
	chosen, rows := -1, []MenuRow(nil)
	c := NewChooser([]string{"Window", "Measuring", "Rules", "Stills", "Display"}, &heardKeys{}, func(i int) { chosen = i }).
		Lists(func(r []MenuRow, _ fyne.Position) { rows = r })
	w := test.NewTempWindow(t, c)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(348, Row()))
	if !c.listed(348) || c.texts[0].Text != "Window" || c.texts[0].TextSize != TextSize() || c.texts[1].Text != "" {
		t.Errorf("in large text %q, %q are shown, %g large", c.texts[0].Text, c.texts[1].Text, c.texts[0].TextSize)
	}
	for name, open := range map[string]func(){
		"a tap": func() { test.TapCanvas(w.Canvas(), middleOf(c)) },
		"a key": func() { c.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) },
	} {
		rows, chosen = nil, -1
		if open(); len(rows) != 5 || !rows[0].Items[0].On || rows[2].Items[0].On {
			t.Fatalf("%s opens %+v", name, rows)
		}
		if rows[2].Items[0].Do(); chosen != 2 {
			t.Errorf("the third chooses %d", chosen)
		}
	}
	inText(t, 100)
	if c.listed(348) {
		t.Error("it is a list in plain text")
	}
}
