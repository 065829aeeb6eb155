package widgets

import (
	"image/color"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/wording"
)

// shownIn puts an object into a window of its size, on the dark ground.
func shownIn(t *testing.T, o fyne.CanvasObject, width, height float32) fyne.Window {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	w := test.NewTempWindow(t, o)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	return w
}

// everySentence is what may have to show.
func everySentence() []wording.Sentence {
	all := []wording.Sentence{
		{}, wording.SayNoSpot(), wording.SayChooseSource(), wording.SayPlaceAgain(), wording.SayNothingToWatch(wording.IconWindow, "2 min"),
		wording.SayOneSpot("A", analysis.Spot{Value: 8}, false),
	}
	all = append(all, pageSentences()...)
	for _, tones := range []float64{-10, -2.5, -0.3, 0, 0.3, 2.5, 10} {
		t := wording.SayPair(pairOf(50-5*tones, 50+5*tones, 2), "A", "H")
		all = append(all, t)
		for _, remark := range []analysis.Remark{analysis.ShowsDifference, analysis.HidesDifference} {
			t.Below = wording.SayRemark(remark)
			all = append(all, t)
		}
	}
	for _, t := range all {
		t.Space = "Display P3"
		all = append(all, t)
	}
	return all
}

// A space that isn't sRGB is named below a pair and where nothing else stands, in every size of text;
// and beside what else is said where there is room.
func TestSentenceNamesTheSpace(t *testing.T) {
	pair := wording.SayPair(pairOf(30, 60, 2), "A", "B")
	pair.Space = "Display P3"
	app := test.NewTempApp(t)
	for _, percent := range []int{100, 150, 200} {
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		for _, width := range []float32{320, 380} {
			s := NewSentence()
			s.Set(pair)
			s.Resize(fyne.NewSize(width, sentenceTwoLines.below*textScale()+SmallSize()))
			if !strings.Contains(s.below.Text, "Display P3") {
				t.Errorf("%d %% at %v: %q below", percent, width, s.below.Text)
			}
		}
	}
	app.Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	s := NewSentence()
	s.Set(wording.Sentence{Title: "Light middle leads", Right: "34 %, high key", Space: "Display P3"})
	for width, want := range map[float32]string{380: "34 %, high key, Display P3", 320: "Display P3"} {
		s.Resize(fyne.NewSize(width, 36))
		if s.right.Text != want {
			t.Errorf("at %v %q stands at the right, want %q", width, s.right.Text, want)
		}
	}
}

// In every width, size of text and height, every sentence is all there: nothing is cut, wrapped, or
// laid over something else, and what stands at the right keeps its distance.
func TestSentenceFits(t *testing.T) {
	for _, l := range language.All() {
		t.Run(string(l), func(t *testing.T) { sentencesFit(t, l) })
	}
}

func sentencesFit(t *testing.T, l language.Language) {
	if err := language.Use(l); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = language.Use(language.English) })
	app := test.NewTempApp(t)
	app.Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	s := NewSentence()
	test.NewTempWindow(t, s)
	for _, percent := range []int{100, 150, 200} {
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		for _, width := range []float32{304, 364} {
			for _, lines := range []float32{36, 64} {
				s.Resize(fyne.NewSize(width, lines*textScale()))
				s.Refresh()
				for _, text := range everySentence() {
					s.Set(text)
					if got := s.title.Text; got != text.Title && got != text.Short {
						t.Errorf("%q is shown as %q", text.Title, got)
					}
					assertSentenceFits(t, s, text)
				}
			}
		}
	}
}

func assertSentenceFits(t *testing.T, s *Sentence, text wording.Sentence) {
	t.Helper()
	size := s.Size()
	end := s.title.Position().X + s.title.MinSize().Width
	if left := s.title.Position().X; left < 0 || end > size.Width-Step {
		t.Errorf("%v: %q goes from %g to %g", size, s.title.Text, left, end)
	}
	if s.bars[0].Visible() && s.bars[1].Position().X+s.bars[1].Size().Width > s.title.Position().X {
		t.Errorf("%v: %q begins over the bars", size, s.title.Text)
	}
	for _, words := range []*canvas.Text{s.below, s.right} {
		if words.Text == "" {
			continue
		}
		if x := words.Position().X + words.MinSize().Width; x > size.Width-Step {
			t.Errorf("%v: %q ends at %g", size, words.Text, x)
		}
	}
	if s.right.Text != "" && s.right.Position().X < end+rightApart-1 {
		t.Errorf("%v: %q stands %g from %q", size, s.right.Text, s.right.Position().X-end, s.title.Text)
	}
	// letters reach from the ascender to the descender: the gaps above and below may meet
	if s.below.Text != "" && s.below.Position().Y+s.below.MinSize().Height > size.Height+1 {
		t.Errorf("%v: %q ends at %g", size, s.below.Text, s.below.Position().Y+s.below.MinSize().Height)
	}
}

func TestSentenceBars(t *testing.T) {
	s := NewSentence()
	shownIn(t, s, 364, 64)
	s.Set(wording.SayPair(pairOf(80, 40, 2), "A", "C"))
	if a, b := s.bars[0].Size().Height, s.bars[1].Size().Height; a != 2*b {
		t.Errorf("bars of lightness 80 and 40 are %g and %g high", a, b)
	}
	if a, b := s.bars[0], s.bars[1]; a.Position().Y+a.Size().Height != b.Position().Y+b.Size().Height || a.Position().X+a.Size().Width >= b.Position().X {
		t.Error("the bars don't stand beside each other on one line")
	}
	grey := colour.GreyOf(40)
	if got := s.bars[1].FillColor; got != (color.NRGBA{grey, grey, grey, 255}) || s.names[1].Text != "C" {
		t.Errorf("the second bar is %v, named %q", got, s.names[1].Text)
	}
	for _, beyond := range []float64{-10, 110} {
		if _, box := barRect(sentenceTwoLines, 0, beyond); box.Height < 0 || box.Height > sentenceTwoLines.barHigh {
			t.Errorf("lightness %g is %g high", beyond, box.Height)
		}
	}
	s.Set(wording.SayNoSpot())
	if s.bars[0].Visible() || s.names[0].Text != "" || !s.icon.Visible() {
		t.Error("bars without a spot, or no pictogram")
	}
	s.Set(wording.SayPlaceAgain())
	if s.title.Color == s.foot.FillColor {
		t.Error("what no longer holds is not quieter")
	}
}

// pageSentences are those of the pages other than Watch.
func pageSentences() (all []wording.Sentence) {
	for _, names := range [][]string{{"middle"}, {"dark", "light"}, {"dark", "middle", "light"}, {"dark", "dark middle", "light middle", "light"}} {
		for lead := range names {
			for _, share := range []float64{0.34, 0.9} {
				var groups []analysis.Group
				for i, name := range names {
					g := analysis.Group{Name: name, Share: (1 - share) / float64(len(names))}
					if i == lead {
						g.Share += share
					}
					groups = append(groups, g)
				}
				all = append(all, wording.SayLeader(groups, analysis.MiddleKey))
			}
		}
	}
	for _, tones := range []float64{-10, -0.4, 0, 0.4, 10} {
		all = append(all, wording.SayPairInLine(pairOf(50-5*tones, 50+5*tones, 2), "A", "H"),
			wording.SayOverall(&analysis.Change{Counted: 9, Tones: tones, Altered: 0.99}), wording.SayOverall(&analysis.Change{Counted: 9, Tones: tones}))
	}
	all = append(all, wording.SayNothingBefore(), wording.SayChooseBefore(), wording.SayTakeTool(false), wording.SayTakeTool(true), wording.SayWordless("label"))
	all = append(all, wording.SayBesideFirst(wording.SayPair(pairOf(100, 0, 2), "A", "H"), "A"))
	all = append(all, wording.SayOverall(nil), wording.SayOverall(&analysis.Change{}), wording.SayLeader(nil, ""))
	light, shadow := analysis.Spot{Lightness: 80}, analysis.Spot{Lightness: 20}
	for _, tool := range []string{"select", "stroke", "arrow", "ring", "box", "label", "spot", "light", "shadow"} {
		for _, m := range []notes.Measured{{}, {Light: &light}, {Shadow: &shadow}, {Light: &light, Shadow: &shadow, Tones: 10}, {Light: &light, Shadow: &shadow, Tones: -10}} {
			all = append(all, wording.SayToolStep(tool, m))
		}
		all = append(all, wording.SayNote(99, tool, notes.Arrow{}, notes.Measured{}, false))
	}
	return append(all, wording.SayNote(99, "spot", notes.Spot{Reading: analysis.Spot{Value: 10}}, notes.Measured{}, false))
}

func pairOf(a, b, tolerance float64) analysis.Pair {
	spot := func(l float64) analysis.Spot { return analysis.Spot{Lightness: l, Value: colour.Value(l)} }
	return analysis.Compare(spot(a), spot(b), tolerance)
}
