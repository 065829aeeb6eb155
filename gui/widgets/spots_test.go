package widgets

import (
	"fmt"
	"image/color"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// watchWidths are those of a page in a window 320 wide up to one of 500, and watchTexts the sizes
// of text that can be set.
var (
	watchWidths = func() (all []float32) {
		for w := float32(304); w <= 484; w += 4 {
			all = append(all, w)
		}
		return all
	}()
	watchTexts = []int{100, 110, 125, 150, 175, 200}
)

// extremeSpots have the longest figures and words there may be.
func extremeSpots(n int) (state SpotsState) {
	hue := 359.94
	long := wording.SaySpotText("W", analysis.Spot{
		Colour: colour.RGB{R: 170, G: 170, B: 170}, Lightness: 100, Value: 10, LayerGrey: 255, Chroma: 133.8, Hue: &hue, OnEdge: true,
	}, wording.SpotState{Selected: true})
	long.FromFirst, long.Fixed = "−10.0", true
	for range n {
		state.Texts = append(state.Texts, long)
	}
	state.Differences = wording.FigureText{Lightness: "−100.0", Value: "−10.0", LayerGrey: "−255", Chroma: "−133.8", Hue: "−179.9°"}
	state.Remark = "W looks clearly lighter than its grey"
	return state
}

// wordsIn are all texts that are seen of a part, with where they lie in it.
func wordsIn(o fyne.CanvasObject, at fyne.Position) (words []*canvas.Text, places []fyne.Position) {
	if !o.Visible() {
		return nil, nil
	}
	var parts []fyne.CanvasObject
	switch o := o.(type) {
	case *canvas.Text:
		if o.Text != "" {
			return []*canvas.Text{o}, []fyne.Position{at}
		}
	case *fyne.Container:
		parts = o.Objects
	case fyne.Widget:
		parts = test.WidgetRenderer(o).Objects()
	}
	for _, p := range parts {
		w, places2 := wordsIn(p, at.Add(p.Position()))
		words, places = append(words, w...), append(places, places2...)
	}
	return words, places
}

// checkApart fails where words leave a width, or letters touch; the gaps above and below them may.
func checkApart(t *testing.T, what string, o fyne.CanvasObject, width float32) {
	t.Helper()
	words, places := wordsIn(o, fyne.Position{})
	for i, a := range words {
		pa, sa := places[i], a.MinSize()
		if pa.X < 2 || pa.X+sa.Width > width-2 {
			t.Errorf("%s: %q from %g to %g of %g", what, a.Text, pa.X, pa.X+sa.Width, width)
		}
		for j, b := range words[:i] {
			pb, sb := places[j], b.MinSize()
			rim := 0.28 * min(sa.Height, sb.Height)
			if pa.X < pb.X+sb.Width && pb.X < pa.X+sa.Width && pa.Y+rim < pb.Y+sb.Height-rim && pb.Y+rim < pa.Y+sa.Height-rim {
				t.Errorf("%s: %q and %q lie on each other", what, b.Text, a.Text)
			}
		}
	}
}

// Nothing on the page of the spots lies on anything else, in any width and size of text, on a low
// page and a high one; the spread is never pushed off.
func TestSpotsApart(t *testing.T) {
	app := test.NewTempApp(t)
	for _, percent := range watchTexts {
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		for _, n := range []int{2, 3, 8} {
			spots, spread := NewSpots(SpotActs{}), NewSpread(SpreadActs{})
			spots.Set(extremeSpots(n))
			spread.Set(fourGroups(nil))
			page := SpotsOverSpread{}
			parts := []fyne.CanvasObject{spots, spread}
			for _, width := range watchWidths {
				for _, height := range []float32{0, 279, 600} {
					page.Layout(parts, fyne.NewSize(width, max(height, page.MinSize(parts).Height)))
					spots.Refresh()
					spots.table.scroll.ScrollToTop() // what is scrolled away is not seen
					what := fmt.Sprintf("%d spots, %g wide in %g, text %d", n, width, height, percent)
					checkApart(t, what, spots, width)
					if got := spread.Size().Height; got < spreadLeast() {
						t.Errorf("%s: the spread is %g high", what, got)
					}
				}
			}
		}
	}
}

// The lengths that the window is drawn with: a pair 140 high, on a low page 100; three rows of 32
// and more, five at most; the spread has the rest, 80 at least.
func TestSpotsHeights(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	for _, tt := range []struct {
		spots                     int
		width, height, want, rest float32
	}{
		{2, 364, 279, 140, 131}, {0, 364, 279, 140, 131}, {2, 304, 184, 100, 80},
		{3, 364, 279, 127, 144}, {5, 364, 279, 191, 80}, {8, 364, 279, 191, 80}, {8, 304, 184, 100, 80},
	} {
		spots, spread := NewSpots(SpotActs{}), NewSpread(SpreadActs{})
		state, _ := spotsOf(tt.spots)
		spots.Set(state)
		SpotsOverSpread{}.Layout([]fyne.CanvasObject{spots, spread}, fyne.NewSize(tt.width, tt.height))
		if got, rest := spots.Size().Height, spread.Size().Height; got != tt.want || rest != tt.rest {
			t.Errorf("%d spots in %g x %g: %g high, the spread %g; want %g, %g", tt.spots, tt.width, tt.height, got, rest, tt.want, tt.rest)
		}
	}
}

// What a narrow page goes without: chroma, hue and the remark; of the table the code, then the
// layer grey.
func TestSpotsShorten(t *testing.T) {
	letters := func(words string, size float32) float32 { return 0.56 * size * float32(len([]rune(words))) }
	for _, tt := range []struct {
		width, scale float32
		figures      int
		hex, layer   bool
	}{
		{364, 1, 5, true, true}, {304, 1, 3, false, true}, {364, 1.5, 5, false, false}, {484, 1, 5, true, true},
	} {
		pair, table := planPair(tt.width, tt.scale, false, letters), planTable(tt.width, tt.scale, letters)
		if pair.figures != tt.figures || pair.remark.width() > 0 != (tt.figures == 5) {
			t.Errorf("%g wide: %d figures, a remark %g wide", tt.width, pair.figures, pair.remark.width())
		}
		if table.hex > 0 != tt.hex || table.layer != tt.layer || table.scale != tt.scale {
			t.Errorf("%g wide, text %g: %+v", tt.width, tt.scale, table)
		}
	}
	if got := planPair(304, 1, false, letters).label(2); got != "layer" {
		t.Errorf("a narrow card says %q", got)
	}
	// Heads never touch, however long they are in a language.
	for _, width := range []float32{304, 364, 484} {
		long := func(words string, size float32) float32 { return 1.4 * plainWidth(words, size) }
		p := planTable(width, 1, long)
		for i := 1; i < len(tableHeads); i++ {
			before := i - 1
			if i == 2 && !p.layer {
				continue
			} else if i == 3 && !p.layer {
				before = 1
			}
			if room, words := p.ends[i]-p.ends[before], long(tableHeads[i].name.String(), 12*p.scale); room < words+wordsApart-0.01 {
				t.Errorf("%g wide: %q is %g and has %g", width, tableHeads[i].name, words, room)
			}
		}
	}
	// A longer name, as some languages have, gives way before the figures go below the colours.
	wide := func(words string, size float32) float32 {
		if words == "layer grey" {
			return 7 * size
		}
		return plainWidth(words, size)
	}
	plain, shortened := planPair(364, 1, false, plainWidth), planPair(364, 1, false, wide)
	if shortened.label(2) != "layer" || plain.label(2) != "layer grey" || shortened.height != plain.height || shortened.labels != plain.labels {
		t.Errorf("%q and %q, %g and %g high", plain.label(2), shortened.label(2), plain.height, shortened.height)
	}
}

// pressings count what a spot is asked for.
type pressings struct{ copied, selected, deleted []int }

func (p *pressings) acts() SpotActs {
	note := func(list *[]int) func(int) { return func(i int) { *list = append(*list, i) } }
	return SpotActs{Copy: note(&p.copied), Select: note(&p.selected), Delete: note(&p.deleted), Keys: &heardKeys{}}
}

// middleOf is the middle of a part in the window.
func middleOf(o fyne.CanvasObject) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).AddXY(o.Size().Width/2, o.Size().Height/2)
}

func TestPairPressed(t *testing.T) {
	var p pressings
	s := NewSpots(p.acts())
	w := shownIn(t, s, 364, 140)
	state, _ := spotsOf(2)
	s.Set(state)
	side := s.pair.sides[1]
	test.TapCanvas(w.Canvas(), middleOf(side.greyBox))
	test.TapCanvas(w.Canvas(), middleOf(side.name))
	test.TapCanvas(w.Canvas(), middleOf(side.hex))
	foot := fyne.CurrentApp().Driver().AbsolutePositionForObject(side).AddXY(4, side.Size().Height)
	test.TapCanvas(w.Canvas(), foot.SubtractXY(0, 1)) // a target as wide as the column, 32 high with the row
	test.TapCanvas(w.Canvas(), foot.SubtractXY(0, 25))
	if !slices.Equal(p.selected, []int{1, 1}) || !slices.Equal(p.copied, []int{1, 1, 1}) {
		t.Errorf("by pointer: %+v", p)
	}
	for _, key := range []fyne.KeyName{fyne.KeyReturn, fyne.KeySpace, fyne.KeyDelete, fyne.KeyUp} {
		side.TypedKey(&fyne.KeyEvent{Name: key})
	}
	if len(p.copied) != 5 || !slices.Equal(p.deleted, []int{1}) {
		t.Errorf("by keys: %+v", p)
	}
}

func TestRowPressed(t *testing.T) {
	var p pressings
	s := NewSpots(p.acts())
	w := shownIn(t, s, 364, 191)
	state, _ := spotsOf(5)
	s.Set(state)
	row := s.table.rows[3]
	test.TapCanvas(w.Canvas(), middleOf(row.cross))
	test.TapCanvas(w.Canvas(), middleOf(row.hex))
	test.TapCanvas(w.Canvas(), middleOf(row.greyBox))
	test.TapCanvas(w.Canvas(), middleOf(row.figures[3]))
	if !slices.Equal(p.deleted, []int{3}) || !slices.Equal(p.copied, []int{3}) || !slices.Equal(p.selected, []int{3, 3}) {
		t.Errorf("by pointer: %+v", p)
	}
}

// A spot without a reading copies nothing; an empty one does nothing at all by pointer.
func TestSpotWithoutReading(t *testing.T) {
	var p pressings
	s := NewSpots(p.acts())
	w := shownIn(t, s, 364, 140)
	s.Set(SpotsState{Texts: []wording.SpotText{wording.SayLostSpot("A", false), wording.SayEmptySpot("B")}})
	for _, side := range s.pair.sides {
		side.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	test.TapCanvas(w.Canvas(), middleOf(s.pair.sides[0].hex))
	if len(p.copied) > 0 || !slices.Equal(p.selected, []int{0}) {
		t.Errorf("a lost spot was pressed: %+v", p)
	}
	test.TapCanvas(w.Canvas(), middleOf(s.pair.sides[1].greyBox))
	if len(p.deleted) > 0 || len(p.selected) > 1 {
		t.Errorf("an empty spot was pressed: %+v", p)
	}
}

// The list of eight scrolls to what the keys go to, and to a spot that has come.
func TestRowsScroll(t *testing.T) {
	var p pressings
	s := NewSpots(p.acts())
	shownIn(t, s, 364, 191)
	state, _ := spotsOf(8)
	s.Set(state)
	last := s.table.rows[7]
	seen := func() bool {
		top := last.Position().Y - s.table.scroll.Offset.Y
		return top >= 0 && top+last.Size().Height <= s.table.scroll.Size().Height
	}
	if !seen() {
		t.Error("the spot that has come is out of sight")
	}
	s.table.scroll.ScrollToTop()
	if seen() {
		t.Fatal("eight rows have room for five")
	}
	if last.FocusGained(); !seen() {
		t.Error("the row with the focus is out of sight")
	}
}

// Colour and grey are flat and meet without a line, at any scale, and a hairline goes round the
// group, so that a grey like the panel's is seen.
func TestSwatchesMeet(t *testing.T) {
	for _, scale := range []float32{1, 1.25, 1.5, 2} {
		s := NewSpots(SpotActs{})
		w := shownIn(t, s, 364, 140)
		w.Canvas().(test.WindowlessCanvas).SetScale(scale)
		state, _ := spotsOf(2)
		s.Set(state)
		img := w.Canvas().Capture()
		at := func(x, y float32) color.NRGBA {
			return color.NRGBAModel.Convert(img.At(int(x*scale), int(y*scale))).(color.NRGBA)
		}
		for i, text := range state.Texts[:2] {
			x := Step + (float32(i)+0.5)*pairColumn
			for y, want := range map[float32]color.NRGBA{
				pairEnds + 2: {text.Colour.R, text.Colour.G, text.Colour.B, 255}, pairEnds + pairHalf - 2: {text.Colour.R, text.Colour.G, text.Colour.B, 255},
				pairEnds + pairHalf + 2: {text.Grey, text.Grey, text.Grey, 255}, pairEnds + 2*pairHalf - 2: {text.Grey, text.Grey, text.Grey, 255},
			} {
				if got := at(x, y); got != want {
					t.Errorf("scale %g: spot %d at %g is %v, want %v", scale, i, y, got, want)
				}
			}
		}
		hairline := NewTheme(settings.ThemeDark, 100).Color(ColorNameHairline, 0)
		if scale == 1 && at(Step-1, pairEnds+20) != hairline {
			t.Errorf("left of the group is %v", at(Step-1, pairEnds+20))
		}
	}
}
