package command

import (
	"testing"

	"golang.org/x/image/font/sfnt"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/ink"
)

// Where letters of the language can't be drawn English is spoken from then on, which is said; where
// they can, or are built in, nothing changes.
func TestSpeakDrawable(t *testing.T) {
	t.Cleanup(func() { ink.Borrow(nil); _ = language.Use(language.English) })
	lend := func(rune, bool) (float64, []sfnt.Segment) { return 1, make([]sfnt.Segment, 1) }
	for _, tt := range []struct {
		l, then language.Language
		from    ink.Lender
		said    bool
	}{
		{language.Japanese, language.English, nil, true}, {language.Japanese, language.Japanese, lend, false},
		{language.German, language.German, nil, false}, {language.English, language.English, nil, false},
	} {
		ink.Borrow(tt.from)
		if err := language.Use(tt.l); err != nil {
			t.Fatal(err)
		}
		if said := SpeakDrawable(); (said != "") != tt.said || language.Current() != tt.then {
			t.Errorf("%s: says %q and goes on in %s, want %s", tt.l, said, language.Current(), tt.then)
		}
	}
}
