package sheet

import (
	"strings"

	"app.tonedesk/gui/stills/ink"
)

// wrap breaks text into lines that are no wider than width, in mm at a size of letters in
// mm: at spaces, and where a word is too long by itself, inside it. It gives at most most
// lines, the last of which then ends in an ellipsis; what comes after costs nothing.
func wrap(text string, size, width float64, most int) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(ink.Shown(text), "\n") {
		left := []rune(strings.Join(strings.FieldsFunc(paragraph, breaks), " "))
		for {
			to, next := lineOf(left, size, width)
			if len(lines) == most {
				lines[most-1] = cut(lines[most-1]+" …", size, width)
				return lines
			}
			lines, left = append(lines, string(left[:to])), left[next:]
			if len(left) == 0 {
				break
			}
		}
	}
	return lines
}

// breaks reports whether a line may end at a letter: at a space, but not at one that forbids
// it (ink.Shown knows which).
func breaks(r rune) bool { return r == ' ' }

// lineOf returns where a line of letters ends that is no wider than width, and where the next
// begins. Of one that is longer it holds one letter at least.
func lineOf(letters []rune, size, width float64) (to, next int) {
	wide := 0.0
	for i, r := range letters {
		wide += ink.Advance(ink.Regular, r) * size
		switch {
		case breaks(r):
			to, next = i, i+1
		case wide > width && next > 0:
			return to, next
		case wide > width && i > 0:
			return i, i
		}
	}
	return len(letters), len(letters)
}

// cut shortens one line to width, with an ellipsis at its end.
func cut(text string, size, width float64) string {
	letters := []rune(strings.ReplaceAll(ink.Shown(text), "\n", " "))
	room, fits := width-ink.Advance(ink.Regular, '…')*size, 0
	wide := 0.0
	for i, r := range letters {
		if wide += ink.Advance(ink.Regular, r) * size; wide <= room {
			fits = i + 1
		} else if wide > width {
			return strings.TrimRight(string(letters[:fits]), " …") + "…"
		}
	}
	return string(letters)
}
