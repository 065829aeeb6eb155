package widgets

import (
	"strings"
	"unicode"
)

// alphabet is one whose letters stand beside each other, spaced in pairs: in the carried typeface a
// text of one is as wide as its letters and pairs.
type alphabet uint8

const (
	noAlphabet alphabet = iota
	latin
	greek
	cyrillic
)

// alphabetOf returns that of the first letter which has one.
func alphabetOf(text string) alphabet {
	for _, r := range text {
		if of := alphabetOfLetter(r); of != noAlphabet || !inAll(r) {
			return of
		}
	}
	return noAlphabet
}

func alphabetOfLetter(r rune) alphabet {
	switch {
	case r < 0x80:
		if 'a' <= r|0x20 && r|0x20 <= 'z' {
			return latin
		}
	case !unicode.IsLetter(r):
	case r < 0x250 && unicode.Is(unicode.Latin, r):
		return latin
	case r < 0x400 && unicode.Is(unicode.Greek, r):
		return greek
	case r < 0x530 && unicode.Is(unicode.Cyrillic, r):
		return cyrillic
	}
	return noAlphabet
}

// has reports whether a text of an alphabet may have a letter.
func (of alphabet) has(r rune) bool { return inAll(r) || alphabetOfLetter(r) == of }

// inAll reports whether a letter stands in texts of every alphabet.
func inAll(r rune) bool {
	if r < 0x80 {
		return ' ' <= r && r <= '~' && alphabetOfLetter(r) == noAlphabet
	}
	return strings.ContainsRune("–—‘’“”…«»°", r)
}

// letter is one of the alphabet.
func (of alphabet) letter() rune { return []rune(" nνн")[of] }
