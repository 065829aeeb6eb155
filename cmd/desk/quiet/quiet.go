package quiet

import (
	"bytes"
	"io"
	"log"
	"os"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	_ "app.tonedesk/cmd/desk/console" // standard error is in place before it is kept here
)

// locale is how Fyne's LogError prints, in writes of their own, that a user's language is
// none that it knows, such as C: what, why, and from where.
var locale = [][]byte{[]byte("Fyne error:  Error parsing user locale "), []byte("  Cause: "), []byte("  At: ")}

var kept = file{path: place(os.Getenv), other: os.Stderr}

func init() {
	log.SetFlags(0) // the file has times of its own
	log.SetOutput(NewFilter(kept))
}

// Path returns the file of messages, which is there once there was one; "" if the user
// has no place for it.
func Path() string { return kept.path }

// Open opens the file of messages for adding to it, and makes it if need be.
func Open() (*os.File, error) { return kept.open() }

// Keep keeps a message that is not for standard error: where there is no place for it, it is
// dropped.
func Keep(message string) {
	_, _ = file{path: kept.path, other: io.Discard}.Write([]byte(message + "\n"))
}

// Aloud sends messages to standard error from now on, as who types a command expects.
func Aloud() { log.SetOutput(NewFilter(os.Stderr)) }

// Filter passes on what is written to it, except for Fyne's complaint about a locale. Use
// it from one logger, which locks for it.
type Filter struct {
	to   io.Writer
	next int // the part of the complaint that may follow
}

// NewFilter returns a Filter that passes on to w.
func NewFilter(w io.Writer) *Filter { return &Filter{to: w} }

// Write takes one message. It reports all of it as written, dropped or not.
func (f *Filter) Write(message []byte) (int, error) {
	if !bytes.HasPrefix(message, locale[f.next]) {
		f.next = 0
	}
	if bytes.HasPrefix(message, locale[f.next]) {
		f.next = (f.next + 1) % len(locale)
		return len(message), nil
	}
	if _, err := f.to.Write(tame(message)); err != nil {
		return 0, err
	}
	return len(message), nil
}

// tame spells out what could steer a terminal on which messages are read: they hold names of
// files and what other programs say.
func tame(message []byte) []byte {
	var b []byte
	for _, r := range string(message) { // a byte that is no UTF-8 becomes U+FFFD
		if r == '\n' || r == '\t' || unicode.IsPrint(r) {
			b = utf8.AppendRune(b, r)
		} else {
			b = append(b, strings.Trim(strconv.QuoteRune(r), "'")...)
		}
	}
	return b
}
