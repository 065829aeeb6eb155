// Package quiet keeps other people's messages out of the user's terminal. Libraries
// print through the standard logger as early as in their package initialisation: about
// a locale that they can't parse, an authority file that isn't there, a message bus that
// doesn't run. None of it is anything that a painter could act on.
//
// It imports next to nothing and its path sorts before its importers' other
// dependencies, so that its init runs before theirs: Go initialises ready packages in
// the order of their import paths. The test of the built program's standard error
// proves it.
package quiet

import (
	"bytes"
	"io"
	"log"
	"os"
)

// noise holds pieces of messages that are swallowed, each with who prints it.
var noise = []string{
	"Error parsing user locale", // Fyne's lang, in languages that it doesn't know
	"subtag \"",                 // the cause that follows it
	"language: tag is not well-formed",
	"language: subtag",
	"XGB: ",                              // the X client library
	"Unable to connect to session D-Bus", // Fyne without a message bus
	"D-Bus",
	"dbus:",
	"systray error",
	"Failed to read theme settings", // Fyne's theme watch without a desktop portal
	"Getting favorite locations",    // Fyne's file dialog without a folder for videos
	"Preferences load error",        // Fyne reads a file that it writes; nothing of ours is in it
}

func init() { log.SetOutput(NewFilter(os.Stderr)) }

// Filter passes on what is written to it, without the noise of libraries. A message of
// Fyne's comes in several writes: the lines that begin with "  Cause:" or "  At:" share
// the fate of the line before them. Use it from one logger, which locks for it.
type Filter struct {
	to        io.Writer
	swallowed bool // the last headline was noise
}

// NewFilter returns a Filter that passes on to w.
func NewFilter(w io.Writer) *Filter { return &Filter{to: w} }

// Write takes one message. It reports all of it as written, swallowed or not.
func (f *Filter) Write(message []byte) (int, error) {
	if !isDetail(message) {
		f.swallowed = isNoise(message)
	}
	if f.swallowed {
		return len(message), nil
	}
	if _, err := f.to.Write(message); err != nil {
		return 0, err
	}
	return len(message), nil
}

// isNoise says whether message is one that nobody needs.
func isNoise(message []byte) bool {
	for _, piece := range noise {
		if bytes.Contains(message, []byte(piece)) {
			return true
		}
	}
	return false
}

// isDetail says whether message goes on with the one before: a cause or a place.
func isDetail(message []byte) bool {
	return bytes.Contains(message, []byte("  Cause:")) || bytes.Contains(message, []byte("  At:"))
}
