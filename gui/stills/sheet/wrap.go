package sheet

import (
	"strings"
	"unicode"

	"app.tonedesk/gui/stills/ink"
)

// wrap breaks text into lines that are no wider than width, in mm at a size of letters in
// mm: at spaces, and where a word is too long by itself, inside it. It gives at most most
// lines, the last of which then ends in an ellipsis.
func wrap(text string, size, width float64, most int) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		line := ""
		for word := range strings.FieldsFuncSeq(paragraph, breaks) {
			for word != "" {
				longer := strings.TrimSpace(line + " " + word)
				if ink.Width(ink.Regular, longer, size) <= width {
					line, word = longer, ""
				} else if line != "" {
					lines, line = append(lines, line), ""
				} else {
					n := fitting(word, size, width)
					lines, word = append(lines, word[:n]), word[n:]
				}
			}
		}
		lines = append(lines, line)
	}
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] = cut(lines[most-1]+" …", size, width)
	}
	return lines
}

// breaks reports whether a line may end at a space: at any but those that forbid it (Unicode,
// UAX 14, class GL: U+00A0, U+2007, U+202F).
func breaks(r rune) bool {
	return unicode.IsSpace(r) && r != '\u00a0' && r != '\u2007' && r != '\u202f'
}

// fitting returns how many bytes fit into width of a word that is wider: one character at least.
func fitting(word string, size, width float64) int {
	fits := len(word)
	for i := range word {
		if i > 0 && ink.Width(ink.Regular, word[:i], size) > width {
			break
		}
		if i > 0 {
			fits = i
		}
	}
	return fits
}

// cut shortens one line to width, with an ellipsis at its end.
func cut(text string, size, width float64) string {
	runes := []rune(strings.ReplaceAll(text, "\n", " "))
	if ink.Width(ink.Regular, string(runes), size) <= width {
		return string(runes)
	}
	for n := len(runes) - 1; n > 0; n-- {
		short := strings.TrimRight(string(runes[:n]), " …") + "…"
		if ink.Width(ink.Regular, short, size) <= width {
			return short
		}
	}
	return "…"
}
