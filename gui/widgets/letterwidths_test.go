package widgets

import (
	"testing"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/text/unicode/rangetable"
	"pgregory.net/rapid"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/settings"
)

// Letters of the alphabets that are added up.
var (
	latinLetters    = letters(latin)
	greekLetters    = letters(greek)
	cyrillicLetters = letters(cyrillic)
)

func letters(of alphabet) *unicode.RangeTable {
	var all []rune
	for r := range rune(0x600) {
		if alphabetOfLetter(r) == of {
			all = append(all, r)
		}
	}
	return rangetable.New(all...)
}

// A text of an alphabet is as wide as its letters and pairs: what is added up is what the toolkit
// measures.
func TestLettersAddUp(t *testing.T) {
	lawtest.SkipRaced(t)
	test.NewTempApp(t).Settings().SetTheme(NewTheme(settings.ThemeDark, 100))
	measure := func(text string) float32 { return fyne.MeasureText(text, theme.TextSize(), fyne.TextStyle{}).Width }
	alphabets := []*rapid.Generator[rune]{
		rapid.SampledFrom([]rune("fijltbhk ffAVToTeWaY., \"'’-")), rapid.RuneFrom(nil, latinLetters), rapid.RuneFrom(nil, greekLetters), rapid.RuneFrom(nil, cyrillicLetters),
	}
	common := rapid.SampledFrom([]rune(" ,.;:!?()[]{}0123456789#%&@/-–—‘’“”…«»°'\"*+<=>^_`|~$"))
	w := widthsOf(theme.TextSize())
	rapid.Check(t, func(r *rapid.T) {
		of := rapid.SampledFrom(alphabets).Draw(r, "alphabet")
		text := string(rapid.SliceOfN(rapid.OneOf(of, of, of, common), 1, 60).Draw(r, "text"))
		wide, exact := w.text(text, 1e6, measure)
		if !exact && alphabetOf(text) != noAlphabet {
			r.Fatalf("%q isn't added up", text)
		}
		if want := measure(text); exact && wide != want {
			r.Fatalf("%q is %g wide, added up %g", text, want, wide)
		}
	})
}
