package ink

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// lacking stands for a letter that the typefaces lack.
const lacking = '□'

const (
	joiner = '\u200d' // makes one picture of the letters on its two sides (Unicode, chapter 23.2)
	glue   = '\u00a0' // a space at which no line ends
)

// Shown returns text as it is drawn and written, in letters that there are (Draws), whatever
// it is made of. Marks are joined with their letters where there is such a letter, else left
// off, and so is what shows nothing by itself. A letter that is lacking becomes an empty box;
// one that is made of several, such as a family or a hand of some colour, becomes one. Spaces
// of all kinds become the two that there are, and bytes that are no UTF-8 become U+FFFD.
// Shown again it is the same.
func Shown(text string) string {
	if plain(text) {
		return text
	}
	var b strings.Builder
	var before rune // in the text
	boxed := false  // the last that is shown is a box
	text = strings.ReplaceAll(strings.ToValidUTF8(text, "\ufffd"), "\r\n", "\n")
	for _, r := range norm.NFC.String(text) {
		show := shownAs(r)
		joined := before == joiner || skin(r)
		before = r
		if show == 0 || show == lacking && boxed && joined {
			continue
		}
		boxed = show == lacking
		b.WriteRune(show)
	}
	return b.String()
}

// plain reports whether text is nothing but letters of ASCII and ends of lines.
func plain(text string) bool {
	for i := range len(text) {
		if c := text[i]; (c < ' ' || c > '~') && c != '\n' {
			return false
		}
	}
	return true
}

// shownAs returns how one character is shown; 0 for one that isn't.
func shownAs(r rune) rune {
	switch {
	case r == '\n':
		return r
	case r == glue || r == '\u2007' || r == '\u202f': // class GL of UAX 14
		return glue
	case unicode.IsSpace(r) || unicode.IsControl(r):
		return ' '
	case unicode.In(r, unicode.Cf, unicode.M):
		return 0
	case Draws(r):
		return r
	}
	return lacking
}

// skin reports whether a character gives the picture before it a colour of skin (UTS 51, 1.4.4,
// emoji modifiers).
func skin(r rune) bool { return r >= 0x1f3fb && r <= 0x1f3ff }
