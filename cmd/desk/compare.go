package main

import (
	"bufio"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode"

	"app.tonedesk/analysis"
	"app.tonedesk/gui"
)

// errPair says that a line doesn't hold two colours.
var errPair = usageError{"compare", "it does not hold two colours", "write a pair such as #e2ab85 #b26a5c"}

// runCompare compares two colours, or a list of pairs. It returns the exit code.
func runCompare(args []string, s streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, []option{{name: "json"}, {"tolerance", "T"}})
	if err != nil {
		return s.wrongUse(err)
	}
	r := pairReport{json: a.given("json")}
	if r.tolerance, err = a.tolerance(); err != nil {
		return s.wrongUse(err)
	}
	switch {
	case isList(a.operands):
		return readList(s, r.line)
	case slices.Contains(a.operands, "-"):
		return s.wrongUse(usageError{"read a list beside colours", "- takes the place of all of them", "give either two colours or -"})
	case len(a.operands) != 2:
		return s.wrongUse(usageError{"compare", "it takes two colours", "write them as #rgb, #rrggbb or rgb(r g b), or - for a list"})
	}
	out := bufio.NewWriter(s.out)
	if err := r.pair(out, a.operands[0], a.operands[1]); err != nil {
		for _, text := range a.operands {
			if _, err := analysis.ParseColour(text); err != nil {
				s.say(gui.Explain("compare "+gui.Quote(text), err))
			}
		}
		return exitWrongUse
	}
	if err := out.Flush(); err != nil {
		return s.unwritten(err)
	}
	return exitDone
}

// pairReport prints comparisons.
type pairReport struct {
	json      bool
	tolerance float64 // L*
	begun     bool
}

// line compares the two colours of a line.
func (r *pairReport) line(out io.Writer, line string) error {
	a, b, ok := splitPair(line)
	if !ok {
		return errPair
	}
	return r.pair(out, a, b)
}

// pair compares two colours and prints the pair. Failures to write show when out is
// flushed.
func (r *pairReport) pair(out io.Writer, a, b string) error {
	first, errA := analysis.ParseColour(a)
	second, errB := analysis.ParseColour(b)
	if err := errors.Join(errA, errB); err != nil {
		return err
	}
	pair := analysis.Compare(analysis.SpotOf(first), analysis.SpotOf(second), r.tolerance)
	if r.json {
		_ = jsonLine(out, pair)
		return nil
	}
	if r.begun {
		_, _ = io.WriteString(out, "\n")
	}
	r.begun = true
	writePair(out, pair)
	return nil
}

// splitPair cuts a line into its two colours. They stand apart by spaces, a comma or a
// semicolon; inside the parentheses of rgb(r g b) these belong to the colour.
func splitPair(line string) (a, b string, ok bool) {
	depth := 0
	words := strings.FieldsFunc(line, func(r rune) bool {
		switch r {
		case '(':
			depth++
		case ')':
			depth--
		}
		return depth == 0 && (unicode.IsSpace(r) || r == ',' || r == ';')
	})
	if len(words) != 2 {
		return "", "", false
	}
	return words[0], words[1], true
}
