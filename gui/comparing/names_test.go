package comparing

import (
	"testing"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/wording"
)

// What is drawn on the picture has letters that its typeface has, in every language; letters of East
// Asia are the system's, where it has some.
func TestNamesCanBeDrawn(t *testing.T) {
	for _, l := range language.All() {
		if err := language.Use(l); err != nil {
			t.Fatal(err)
		}
		figures := wording.MapFigures(2)
		for _, words := range append(figures[:], wording.PictureBefore.String(), wording.PictureNow.String()) {
			for _, r := range words {
				if r != '\u00a0' && r < 0x2fff && ink.Advance(ink.Bold, r) == 0 {
					t.Errorf("%s: %q has no letter %q", l, words, r)
				}
			}
		}
	}
	if err := language.Use(language.English); err != nil {
		t.Fatal(err)
	}
}
