package wording

import (
	"slices"
	"strings"
	"sync/atomic"

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

// keyNamer puts the reader's words for keys; setting it up takes tens of kilobytes, which a menu
// asked for once for each row at each look.
type keyNamer struct {
	pairs []string
	put   *strings.Replacer
}

// lastNamer is the one of the language of now, or of before.
var lastNamer atomic.Pointer[keyNamer]

// SayKeys is what keys are called on the reader's keyboard: "Ctrl+Z".
func SayKeys(keys string) string {
	pairs := make([]string, 0, 2*len(keyWordsOn))
	for _, w := range keyWordsOn {
		pairs = append(pairs, string(w), w.String())
	}
	namer := lastNamer.Load()
	if namer == nil || !slices.Equal(namer.pairs, pairs) {
		namer = &keyNamer{pairs, strings.NewReplacer(pairs...)}
		lastNamer.Store(namer)
	}
	return namer.put.Replace(keys)
}
