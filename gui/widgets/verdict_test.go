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
	"app.tonedesk/gui/settings"
	"app.tonedesk/gui/wording"
)

// shownIn puts an object into a window of its size, on the dark ground.
func shownIn(t *testing.T, o fyne.CanvasObject, width, height float32) fyne.Window {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.GroundDark))
	w := test.NewTempWindow(t, o)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(width, height))
	return w
}

func TestBarRect(t *testing.T) {
	posA, a := barRect(0, 100)
	posB, b := barRect(1, 50)
	if a.Height != 2*b.Height {
		t.Errorf("lightness 100 is %g high, 50 %g", a.Height, b.Height)
	}
	if posA.Y+a.Height != posB.Y+b.Height {
		t.Error("the bars don't stand on one line")
	}
	if gap := posB.X - (posA.X + a.Width); gap <= 0 || a.Width != b.Width {
		t.Errorf("bars %g and %g wide, %g apart", a.Width, b.Width, gap)
	}
	for _, beyond := range []float64{-10, 110} {
		if _, box := barRect(0, beyond); box.Height < 0 || box.Height > barsHeight {
			t.Errorf("lightness %g is %g high", beyond, box.Height)
		}
	}
}

func TestVerdictLines(t *testing.T) {
	wide := func(s string) float32 { return float32(len(s)) }
	quiet, loud := func(s string) verdictLine { return verdictLine{words: s} }, func(s string) verdictLine { return verdictLine{s, true} }
	for _, tt := range []struct {
		name, sub, remark string
		want              [2]verdictLine
	}{
		{"no remark", "quiet words", "", [2]verdictLine{quiet("quiet words"), loud("")}},
		{"short remark", "quiet words", "a remark", [2]verdictLine{quiet("quiet words"), loud("a remark")}},
		{"long remark", "quiet words", "a remark that needs two lines", [2]verdictLine{loud("a remark that needs"), loud("two lines")}},
		{"a word too long", "quiet", "unbreakablyunbreakable indeed", [2]verdictLine{loud("unbreakablyunbreakable"), loud("indeed")}},
		{"one word", "quiet", "unbreakablyunbreakable", [2]verdictLine{quiet("quiet"), loud("unbreakablyunbreakable")}},
	} {
		if got := verdictLines(wording.VerdictText{Sub: tt.sub, Remark: tt.remark}, 20, wide); got != tt.want {
			t.Errorf("%s: %v, want %v", tt.name, got, tt.want)
		}
	}
}

// everySentence is what a verdict may have to show.
func everySentence() []wording.VerdictText {
	all := []wording.VerdictText{{}, wording.SayNoPair(""), wording.SayNoPair("A")}
	for _, tones := range []float64{-10, -2.5, -0.3, 0, 0.3, 2.5, 10} {
		for _, remark := range []analysis.Remark{analysis.NoRemark, analysis.ShowsDifference, analysis.HidesDifference} {
			t := wording.SayPair(pairOf(50-5*tones, 50+5*tones, 2), "A", "H")
			t.Remark = wording.SayRemark(remark)
			all = append(all, t)
		}
	}
	return all
}

// In every width and with every sentence: nothing is cut or laid over something else, the
// height is the same, and the sentence stands where it stood.
func TestVerdictFits(t *testing.T) {
	v := NewVerdict()
	w := shownIn(t, v, 304, verdictHeight)
	place := v.title.Position()
	for _, width := range []float32{304, 364, 600} {
		w.Resize(fyne.NewSize(width, verdictHeight))
		for _, text := range everySentence() {
			v.Set(text)
			if v.title.Position() != place {
				t.Errorf("%g wide, %q: the sentence moved to %v", width, text.Title, v.title.Position())
			}
			if h := v.MinSize().Height; h != verdictHeight {
				t.Errorf("%q is %g high", text.Title, h)
			}
			end := float32(0)
			for _, line := range []*canvas.Text{v.title, v.lines[0], v.lines[1]} {
				size := line.MinSize()
				if line.Text == "" {
					continue
				}
				if x := line.Position().X + size.Width; x > v.Size().Width-Step/2 {
					t.Errorf("%g wide: %q ends at %g", width, line.Text, x)
				}
				if y := line.Position().Y; y < end-5 { // the gaps above and below letters may meet
					t.Errorf("%q begins at %g, the line before ends at %g", line.Text, y, end)
				}
				end = line.Position().Y + size.Height
			}
			if end > verdictHeight {
				t.Errorf("%q ends at %g", text.Title, end)
			}
		}
	}
}

// Nothing of the remark is lost when it is broken.
func TestVerdictKeepsTheWholeRemark(t *testing.T) {
	v := NewVerdict()
	w := shownIn(t, v, 304, verdictHeight)
	text := wording.SayPair(pairOf(50, 50, 2), "A", "B")
	text.Remark = wording.SayRemark(analysis.ShowsDifference)
	v.Set(text)
	for _, width := range []float32{304, 364, 700} {
		w.Resize(fyne.NewSize(width, verdictHeight))
		if got := v.lines[0].Text + " " + v.lines[1].Text; !strings.Contains(got, text.Remark) {
			t.Errorf("%g wide: it says %q", width, got)
		}
	}
	if v.lines[0].Text != text.Sub {
		t.Errorf("with room for both, the line below the sentence is %q", v.lines[0].Text)
	}
}

func TestVerdictBars(t *testing.T) {
	v := NewVerdict()
	shownIn(t, v, 364, verdictHeight)
	v.Set(wording.SayPair(pairOf(80, 40, 2), "A", "C"))
	if a, b := v.bars[0].Size().Height, v.bars[1].Size().Height; a != 2*b {
		t.Errorf("bars of lightness 80 and 40 are %g and %g high", a, b)
	}
	grey := colour.GreyOf(40)
	if got := v.bars[1].FillColor; got != (color.NRGBA{grey, grey, grey, 255}) || v.names[1].Text != "C" {
		t.Errorf("the second bar is %v, named %q", got, v.names[1].Text)
	}
	v.Set(wording.SayNoPair("A"))
	if v.bars[0].Visible() || v.names[0].Text != "" {
		t.Error("bars without a pair")
	}
}

func pairOf(a, b, tolerance float64) analysis.Pair {
	spot := func(l float64) analysis.Spot { return analysis.Spot{Lightness: l, Value: colour.Value(l)} }
	return analysis.Compare(spot(a), spot(b), tolerance)
}
