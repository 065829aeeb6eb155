package widgets

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/settings"
)

// In every width and size of text the parts of the base's row, and groups of swatches, lie beside
// or below each other, inside of the card, and words have their room.
func TestCardsApart(t *testing.T) {
	app := test.NewTempApp(t)
	for _, percent := range watchTexts {
		app.Settings().SetTheme(NewTheme(settings.ThemeDark, percent))
		row := func() *SwatchRow { return NewSwatchRow(SwatchPlan{Height: 28}, SwatchActs{}) }
		base := []fyne.CanvasObject{row(), NewLine("#dddddd"), QuietForms("follows spot W"), NewIconButton(icons.Pin, nil, nil), NewEntry(&heardKeys{}, "#rrggbb"), NewIconButton(icons.Export, nil, nil)}
		groups := []fyne.CanvasObject{NewLine("Core-shadow accents", "Accents"), row(), NewLine("Lines"), row(), NewLine("Matched"), row()}
		shares := SwatchGroups{Shares: []float32{122, 122, 78}}
		for _, page := range watchWidths {
			width := page - 2*Step
			what := fmt.Sprintf("%g wide, text %d", page, percent)
			BaseRow{}.Layout(base, fyne.NewSize(width, Row()))
			checkParts(t, what+", base", base, width, BaseRow{}.MinSize(base).Height+2)
			if least := fyne.MeasureText("#dddddd", TextSize(), fyne.TextStyle{}).Width + 2*Step; base[4].Size().Width < least {
				t.Errorf("%s: the entry is %g wide", what, base[4].Size().Width)
			}
			for _, words := range base[1:3] {
				if words.Size().Width < words.MinSize().Width {
					t.Errorf("%s: words %g wide have %g", what, words.MinSize().Width, words.Size().Width)
				}
			}
			shares.Layout(groups, fyne.NewSize(width, 100))
			checkParts(t, what+", groups", groups, width, shares.MinSize(groups).Height)
			for i := 0; i < len(groups); i += 2 {
				if groups[i].Size().Width < groups[i].MinSize().Width {
					t.Errorf("%s: %q is cut", what, groups[i].(*Line).Words())
				}
			}
		}
	}
}

// checkParts fails where parts leave a room or lie on each other.
func checkParts(t *testing.T, what string, parts []fyne.CanvasObject, width, height float32) {
	t.Helper()
	for i, a := range parts {
		pa, sa := a.Position(), a.Size()
		if pa.X < 0 || pa.X+sa.Width > width || pa.Y < -1 || pa.Y+sa.Height > height {
			t.Errorf("%s: part %d lies at %v, %v of %g x %g", what, i, pa, sa, width, height)
		}
		for j, b := range parts[:i] {
			pb, sb := b.Position(), b.Size()
			if pa.X < pb.X+sb.Width && pb.X < pa.X+sa.Width && pa.Y < pb.Y+sb.Height && pb.Y < pa.Y+sa.Height {
				t.Errorf("%s: parts %d and %d lie on each other", what, j, i)
			}
		}
	}
}

// The three swatches stand exactly under the last three of six.
func TestUnderRamp(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	six, three := NewSwatchRow(SwatchPlan{Height: 38}, SwatchActs{}), NewSwatchRow(SwatchPlan{Height: 14, Skip: 3}, SwatchActs{})
	six.Set(make([]Swatch, 6))
	three.Set(make([]Swatch, 3))
	for width := float32(288); width < 470; width++ {
		six.Resize(fyne.NewSize(width, 40))
		UnderRamp{}.Layout([]fyne.CanvasObject{NewLine("words"), three}, fyne.NewSize(width, 16))
		for i := range 3 {
			above, _ := six.Box(3 + i)
			if below, _ := three.Box(i); below.X+three.Position().X != above.X {
				t.Errorf("%g wide: swatch %d begins at %g, the one above at %g", width, i, below.X+three.Position().X, above.X)
			}
		}
	}
}

// Cells of a strip of 24 hues in the window's widths, and which is under the pointer; beside the
// strip it is the nearest.
func TestHueStripCells(t *testing.T) {
	s := NewHueStrip(SwatchActs{})
	shownIn(t, s, 348, 24)
	hues := make([]Swatch, 24)
	for i := range hues {
		hues[i].Colour = colour.RGB{R: uint8(i)}
	}
	s.Set(hues, 2)
	for x, want := range map[float32]int{-50: 0, 0: 0, 14: 0, 16: 1, 174: 12, 346: 23, 900: 23} {
		if got := s.cellAt(x); got != want {
			t.Errorf("at %g lies cell %d, want %d", x, got, want)
		}
	}
	if _, box := s.Box(5); box.Width < 14 || box.Height+stripGrey != 22 {
		t.Errorf("a cell is %v", box)
	}
}
