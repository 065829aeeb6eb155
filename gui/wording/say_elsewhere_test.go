package wording

import (
	"slices"
	"testing"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/language"
)

// Every word that the analysis has for what it finds is one that is said in each language.
func TestWordsFromElsewhere(t *testing.T) {
	words := []string{"dark", "dark middle", "middle", "light middle", "light"} // the names of two, three and four groups
	for hue := range 360 {
		words = append(words, colour.HueName(float64(hue)))
	}
	for _, v := range views.All() {
		words = append(words, v.Name, v.Says)
		if v.Knob != nil {
			words = append(words, v.Knob.Name, v.Knob.Unit)
		}
	}
	for _, word := range words {
		if word != "" && word != "%" && !slices.Contains(fromElsewhere, language.Words(word)) {
			t.Errorf("%q is listed nowhere", word)
		}
	}
}
