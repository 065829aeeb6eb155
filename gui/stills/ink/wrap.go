package ink

import (
	"strings"

	"app.tonedesk/gui/language"
)

// Letters is how a text is written: in a typeface, at a size. A width is in the unit of the size.
type Letters struct {
	Face Face
	Size float64
}

// Wrap breaks text into lines that are no wider than width: at spaces, between letters of East Asia,
// and where a word is too long by itself, inside it. It gives at most most lines, the last of which then ends in an
// ellipsis; what comes after costs nothing. Of a width for no letter at all a line has one.
func (l Letters) Wrap(text string, width float64, most int) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(Shown(text), "\n") {
		left := []rune(strings.Join(strings.FieldsFunc(paragraph, breaks), " "))
		for {
			to, next := l.lineOf(left, width)
			if len(lines) == most {
				lines[most-1] = l.Cut(lines[most-1]+" …", width)
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

// Widest returns how wide the widest of some lines is.
func (l Letters) Widest(lines []string) float64 {
	widest := 0.0
	for _, line := range lines {
		widest = max(widest, Width(l.Face, line, l.Size))
	}
	return widest
}

// breaks reports whether a line may end at a letter: at a space, but not at one that forbids
// it (Shown knows which).
func breaks(r rune) bool { return r == ' ' }

// lineOf returns where a line of letters ends that is no wider than width, and where the next
// begins. Of one that is longer it holds one letter at least.
func (l Letters) lineOf(letters []rune, width float64) (to, next int) {
	wide := 0.0
	for i, r := range letters {
		if i > 0 && language.MayBreak(letters[i-1], r) {
			to, next = i, i
		}
		wide += Advance(l.Face, r) * l.Size
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

// Cut shortens one line to width, with an ellipsis at its end.
func (l Letters) Cut(text string, width float64) string {
	letters := []rune(strings.ReplaceAll(Shown(text), "\n", " "))
	room, fits := width-Advance(l.Face, '…')*l.Size, 0
	wide := 0.0
	for i, r := range letters {
		if wide += Advance(l.Face, r) * l.Size; wide <= room {
			fits = i + 1
		} else if wide > width {
			return strings.TrimRight(string(letters[:fits]), " …") + "…"
		}
	}
	return string(letters)
}
