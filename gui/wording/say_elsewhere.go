package wording

import (
	"strings"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/language"
)

// fromElsewhere are the words that the analysis has for what it finds, which say nothing by
// themselves: language.Name says them in the reader's language.
var fromElsewhere = []language.Words{
	// The pages, by their names in the settings.
	"Watch", "Structure", "Colours", "Stills",
	// Groups, and the same where there is little room.
	"dark", "dark middle", "middle", "light middle", "light", "dark mid", "mid", "light mid",
	// Hues.
	"red", "orange", "yellow", "green", "cyan", "blue", "violet", "magenta",
	// Views, what some of them show, their knobs and those's units.
	"Colour", "Grey", "Layer grey", "Bands", "Two-tone", "Three-tone", "Squint", "Edges", "Lost edges", "Chroma", "Hue alone",
	"Small size", "Protan", "Deutan", "Tritan",
	"in grey they vanish", "red-weak sight", "green-weak sight", "blue-weak sight",
	"Blur", "Longer side", "Severity", "Within", "px", "tones",
}

// ViewName is what a view is called.
func ViewName(v views.View) string { return language.Name(v.Name) }

// ViewSays says what a view shows; "" where its name says it.
func ViewSays(v views.View) string { return language.Name(v.Says) }

// keyWordsOn are the words on keys. A longer one stands before one that it begins with.
var keyWordsOn = []language.Words{"Page down", "Page up", "Ctrl", "Shift", "Alt", "Super", "Delete", "Space", "Arrows", "Enter", "Tab", "Esc", "wheel", "1 to 9, 0"}

// SayKeys is what keys are called on the reader's keyboard: "Ctrl+Z".
func SayKeys(keys string) string {
	var pairs []string
	for _, w := range keyWordsOn {
		pairs = append(pairs, string(w), w.String())
	}
	return strings.NewReplacer(pairs...).Replace(keys)
}
