package command

import (
	"errors"
	"fmt"
	"io"

	"app.tonedesk/gui/wording"
)

// How the program ends.
const (
	ExitDone     = 0
	ExitUnread   = 1 // a file, a screen or a line of a list could not be read
	exitWrongUse = 2
)

// Streams are the three ways in and out of a command.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
}

// Say prints one sentence for the user on standard error.
func (s Streams) Say(sentence string) { fmt.Fprintln(s.Err, sentence) }

// Fail says one sentence on what could not be done, and returns the exit code for it.
func (s Streams) Fail(sentence string) int {
	s.Say(sentence)
	return ExitUnread
}

// WrongUse says what is wrong with the arguments and returns the exit code for it.
func (s Streams) WrongUse(err error) int {
	var u usageError
	if errors.As(err, &u) {
		s.Say(wording.Cannot(u.what, u.why, u.act))
	} else {
		s.Say(wording.Explain("use these arguments", err))
	}
	return exitWrongUse
}

// usageError is a wrong use of the command line, in the three parts of a sentence.
type usageError struct{ what, why, act wording.Phrase }

func (u usageError) Error() string { return u.what.String() + ": " + u.why.String() }

// sentence is an error that is said as it is.
type sentence string

func (s sentence) Error() string { return string(s) }

// explained is an error that is said as a sentence, with its cause.
type explained struct {
	sentence
	cause error
}

func (e explained) Unwrap() error { return e.cause }
