package widgets

import (
	"image/color"
	"iter"
	"math"
	"slices"
	"sort"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/gui/language"
)

// sizedText returns an empty text, its colour to come.
func sizedText(size float32, style fyne.TextStyle) *canvas.Text {
	t := canvas.NewText("", nil)
	t.TextSize, t.TextStyle = size, style
	return t
}

// say gives a text words and a colour; the same ones cost nothing.
func say(t *canvas.Text, words string, c color.Color) {
	if t.Text != words || t.Color != c {
		t.Text, t.Color = words, c
		refresh(t)
	}
}

// placeText moves a text to its place, and gives it its own size.
func placeText(t *canvas.Text, x, y float32) { put(t, fyne.NewPos(x, y), t.MinSize()) }

// span is a line for words: from left to right, with the baseline of its letters.
type span struct{ left, right, baseline float32 }

func (s span) width() float32 { return s.right - s.left }

// setLeft sets a text at the left of a line, setRight at its right, both with their
// letters on its baseline.
func setLeft(t *canvas.Text, at span)  { setOn(t, at.left, at.baseline) }
func setRight(t *canvas.Text, at span) { setOn(t, at.right-t.MinSize().Width, at.baseline) }

func setOn(t *canvas.Text, x, baseline float32) {
	size, ascent := fyne.CurrentApp().Driver().RenderedTextSize(t.Text, t.TextSize, t.TextStyle, nil)
	put(t, fyne.NewPos(x, float32(math.Round(float64(baseline-ascent)))), size)
}

// smallWidth is the width of words in the small size.
func smallWidth(words string) float32 {
	return fyne.MeasureText(words, SmallSize(), fyne.TextStyle{}).Width
}

// lineHigh is the height of a line of a size of type.
func lineHigh(size float32) float32 { return fyne.MeasureText("M", size, fyne.TextStyle{}).Height }

// textWidth is the width of words in the size of text.
func textWidth(words string) float32 {
	return fyne.MeasureText(words, TextSize(), fyne.TextStyle{}).Width
}

// cutTo cuts a text so that it fits into a width in the small size.
func cutTo(text string, width float32) string { return cutWords(text, width, smallWidth) }

// cutAt cuts a text so that it fits into a width at a size.
func cutAt(text string, width, size float32) string {
	return cutWords(text, width, func(words string) float32 { return fyne.MeasureText(words, size, fyne.TextStyle{}).Width })
}

// cutWords cuts a text so that it fits into a width as measured. Of one that is much longer only
// the beginning is measured, by doubling and halving.
func cutWords(text string, width float32, measure func(string) float32) string {
	letters := []rune(text)
	fits := func(n int) bool {
		if n >= len(letters) {
			return measure(text) <= width
		}
		return measure(string(letters[:n])+"…") <= width
	}
	over := 8
	for over < len(letters) && fits(over) {
		over *= 2
	}
	if over >= len(letters) && fits(len(letters)) {
		return text
	}
	n := max(0, sort.Search(min(over, len(letters)), func(n int) bool { return !fits(n) })-1)
	if n+5 > len(letters) && fits(len(letters)) { // its last letters are narrower than what stands for them
		return text
	}
	return string(letters[:n]) + "…"
}

// Shortened leaves out the middle of what has more letters than most.
func Shortened(text string, most int) string {
	if len(text) <= most {
		return text
	}
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most/2]) + "…" + string(letters[len(letters)-most/2:])
}

// longestFitting returns the first of the words that fit into room at a size, or the last.
func longestFitting(room, size float32, words ...string) string {
	for _, w := range words[:len(words)-1] {
		if fyne.MeasureText(w, size, fyne.TextStyle{}).Width <= room {
			return w
		}
	}
	return words[len(words)-1]
}

// fittingSize returns the size at which words fit into room: the one asked for, or as many whole
// sizes less as it takes. Words are never cut.
func fittingSize(words string, size, room float32) float32 {
	for size > 1 && fyne.MeasureText(words, size, fyne.TextStyle{}).Width > room {
		size--
	}
	return size
}

// brokenLines breaks words into at most so many lines no wider than room, at spaces and between
// letters of East Asia; a word that is wider stands alone. The last line takes what is left.
func brokenLines(words string, room float32, most int, measure func(string) float32) []string {
	var lines []string
	line := ""
	for word := range unbroken(words) {
		longer := line + word
		word = strings.TrimPrefix(word, " ")
		if line != "" && len(lines) < most-1 && measure(longer) > room {
			lines, longer = append(lines, line), word
		}
		line = longer
	}
	return append(lines, line)
}

// firstOf is the first of several things that words tell: "34 %" of "34 %, high key".
func firstOf(words string) string {
	if end := strings.IndexAny(words, ",、"); end >= 0 {
		return words[:end]
	}
	return words
}

// linesIn breaks words into at most so many lines of a width, and returns the size at which they find
// room: the text's, or as many whole sizes less as it takes.
func linesIn(words string, room float32, most int) (lines []string, size float32) {
	for size = TextSize(); ; size-- {
		width := func(words string) float32 { return fyne.MeasureText(words, size, fyne.TextStyle{}).Width }
		lines = brokenLines(words, room, most, width)
		if size <= leastLetters || !slices.ContainsFunc(lines, func(line string) bool { return width(line) > room }) {
			return lines, size
		}
	}
}

// leastLetters is the size of type below which words are left too wide (our choice: none can be read).
const leastLetters = 8

// unbroken are the parts of words that a line may end between, each with the space before it, if
// there is one. A space that doesn't break is none of these.
func unbroken(words string) iter.Seq[string] {
	return func(yield func(string) bool) {
		begin, before := 0, rune(0)
		for at, r := range words {
			if at > 0 && (r == ' ' || language.MayBreak(before, r)) {
				if !yield(words[begin:at]) {
					return
				}
				begin = at
			}
			before = r
		}
		yield(words[begin:])
	}
}
