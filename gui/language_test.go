package gui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/settings"
)

// speak has a language spoken for a test.
func speak(t *testing.T, l language.Language) {
	t.Helper()
	if err := language.Use(l); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = language.Use(language.English) })
}

// In every language, window and scene all words stand within what is seen, and none is cut but names
// of the painter's own. Where the system has no Japanese typeface its words are taken as narrower
// than they are.
func TestNothingIsCutInAnyLanguage(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, l := range language.All() {
		speak(t, l)
		for _, s := range windows() {
			if l != language.English && s.TextPercent > 100 && (s.TextPercent < 200 || s.Width > 320) {
				continue // the plain size and the hardest
			}
			for _, of := range scenes() {
				t.Run(fmt.Sprintf("%s, %g, %d %%, %s", l, s.Width, s.TextPercent, of.name), func(t *testing.T) {
					d := inScene(t, s, of)
					for _, p := range d.drawnParts() {
						words, ok := p.object.(*canvas.Text)
						if !ok || words.Text == "" || p.within("Mirror", "SourceChip", "BeforeStrip", "StillItem") {
							continue
						}
						right := p.box.left + words.MinSize().Width
						if right > p.clip.right+1 || strings.HasSuffix(words.Text, "…") && words.Text != language.Say("Folder…") {
							t.Errorf("%q ends at %g of %g: %s", words.Text, right, p.clip.right, p.named())
						}
					}
				})
			}
		}
	}
}

// The settings scroll in none of their parts, in any language.
func TestSettingsDoNotScrollInAnyLanguage(t *testing.T) {
	const room, width = 351, 364 // as in TestSettingsDoNotScroll
	for _, l := range language.All() {
		speak(t, l)
		d := newTestDesk(t, settings.Defaults())
		d.openPanel(panelSettings)
		for i := range 5 {
			d.parts.sheet.Tabs().Choose(i)
			if high := d.parts.sheet.LeastHeight(width); high > room {
				t.Errorf("%s: %s asks for %g, and there are %d", l, d.parts.sheet.Tabs().ChosenWord(), high, room)
			}
		}
		for i := range 5 {
			chooseRules(d, i)
			if high := d.parts.sheet.LeastHeight(width); high > room || len(d.parts.sheet.Cells()) < 2 {
				t.Errorf("%s: the %d. rules ask for %g, and there are %d", l, i+1, high, room)
			}
		}
	}
}

// What the window shows in Japanese has hardly a word of English: codes and names of formats, keys
// and spaces are all that stays.
func TestAllIsSaid(t *testing.T) {
	lawtest.SkipRaced(t)
	same := strings.Fields(`Ctrl Alt Shift Super Delete Enter Esc Tab Space PageDown PageUp PNG PDF JSON CSS OpenRaster Tonedesk sRGB MB GB KB px Delete
		CIEDE2000 Oklch English Deutsch Español rrggbb png Go Stay`)
	speak(t, language.Japanese)
	for _, of := range scenes() {
		if of.name == "an offer" || of.name == "opening" || of.name == "an error" || of.name == "a question" || of.name == "saving" || of.name == "exporting" || of.name == "settings, stills" {
			continue // the test's own words and folders
		}
		d := inScene(t, windows()[0], of)
		for _, p := range d.drawnParts() {
			words, ok := p.object.(*canvas.Text)
			if !ok {
				continue
			}
			for _, word := range strings.FieldsFunc(words.Text, func(r rune) bool { return (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') }) {
				if len(word) > 1 && !strings.ContainsAny(words.Text, "#") && !strings.Contains(strings.Join(same, " "), word) {
					t.Errorf("%s: %q is English still: %s", of.name, words.Text, p.named())
				}
			}
		}
	}
}
