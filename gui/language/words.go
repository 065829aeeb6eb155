package language

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"golang.org/x/text/feature/plural"
)

// Words are an English sentence, or a part of one, as it stands in the source: the key of what is
// said in other languages. With arguments it is a format as package fmt has it; translations may
// take the arguments in another order ("%[2]s"). Only constants are keys, so that none can be
// missed; what else becomes Words is shown as it is.
type Words string

// String says the words in the reader's language, and in English where it has none.
func (w Words) String() string {
	if said, ok := spoken.Load().said[w]; ok {
		return said
	}
	plain, _, _ := strings.Cut(string(w), context)
	return plain
}

// context parts a key from the note on which of several meanings it has.
const context = "¦"

// Say puts a sentence into the reader's language. Arguments that are Words are said so too, and
// numbers of floating point get the reader's decimal point.
func Say(format Words, args ...any) string {
	if len(args) == 0 {
		return format.String()
	}
	for i, arg := range args {
		if v, ok := arg.(float64); ok {
			args[i] = decimal(v)
		}
	}
	return fmt.Sprintf(format.String(), args...)
}

// decimal is a number that is written with the reader's decimal point.
type decimal float64

func (d decimal) Format(f fmt.State, verb rune) {
	_, _ = io.WriteString(f, Point(fmt.Sprintf(fmt.FormatString(f, verb), float64(d))))
}

// Name says a word from elsewhere, such as a group's name, that some constant in the source has as
// Words; as it is where none has.
func Name(word string) string { return Words(word).String() }

// Count says how many there are of something, n, by the rules for plurals of the reader's language.
// n is the first argument of both sentences.
func Count(n int, one, more Words, args ...any) string {
	return Say(Plural(n, one, more), append([]any{n}, args...)...)
}

// Plural is one or more: the words that the reader's language has for n of something (CLDR's rules,
// of which our languages need two forms at most: Spanish says "many" of whole millions alone).
func Plural(n int, one, more Words) Words {
	if plural.Cardinal.MatchPlural(spoken.Load().tag, abs(n), 0, 0, 0, 0) == plural.One {
		return one
	}
	return more
}

func abs(n int) int { return max(n, -n) }

// Number writes a number that is rounded already, with so many decimals; -1 for as many as it
// needs. The point is the reader's: German and Spanish write a comma. The sign is left to others:
// below 0 it is a hyphen.
func Number(v float64, decimals int) string {
	return Point(strconv.FormatFloat(v, 'f', decimals, 64))
}

// Point gives a number as programs write it the reader's decimal point.
func Point(figures string) string {
	if comma[spoken.Load().language] {
		return strings.Replace(figures, ".", ",", 1)
	}
	return figures
}

// comma are the languages with a decimal comma (CLDR 47, numbers: de, es; Mexico and other
// countries have a point: the language's own default counts here).
var comma = map[Language]bool{German: true, Spanish: true}
