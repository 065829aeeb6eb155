package command

import (
	"fmt"
	"io"
	"strings"

	"golang.org/x/text/width"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// labels are those that reports have.
var labels = []language.Words{
	"changed", "colours", "contrast", "distance", "edges", "groups", "groups of", "in words", "key", "left out", "light¦label",
	"lightness", "limits", "murk", "not asked", "target",
}

// labelsWide is the column of the labels, in letters of a terminal: 11, or what the longest asks for.
func labelsWide() int {
	wide := 11
	for _, l := range labels {
		wide = max(wide, letters(l.String())+1)
	}
	return wide
}

// labelled prints a line of a report behind its label; "" goes on with the line before.
func labelled(w io.Writer, label language.Words, text string) {
	fmt.Fprintf(w, "  %s%s\n", padded(label.String(), labelsWide()), plain(text))
}

// sentenced prints a sentence that has no stop, indented.
func sentenced(w io.Writer, indent int, text string) {
	fmt.Fprintf(w, "%*s%s\n", indent, "", wording.Stopped(plain(text)))
}

// padded fills text up with spaces to a column so many letters wide, and never to its end alone:
// what stands behind it is apart.
func padded(text string, wide int) string {
	return text + strings.Repeat(" ", max(wide-letters(text), min(1, wide)))
}

// letters is how many columns of a terminal a text takes: letters of East Asia take two (Unicode
// Standard Annex 11).
func letters(text string) (n int) {
	for _, r := range text {
		n++
		if k := width.LookupRune(r).Kind(); k == width.EastAsianWide || k == width.EastAsianFullwidth {
			n++
		}
	}
	return n
}
