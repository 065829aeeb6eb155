package command

import (
	"bufio"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// pairCommand is a command that takes two colours, or a list of pairs.
type pairCommand struct {
	verb    string // as in "compare the two"
	example string // a pair, for who gave something else
	json    bool
	begun   bool
	// of returns what JSON says of two colours, and how the readable report of it is written.
	of func(a, b analysis.Spot) (any, func(io.Writer))
}

// run does it for the operands, or for the lines of standard input. It returns the exit
// code.
func (c *pairCommand) run(operands []string, s Streams) int {
	switch {
	case isList(operands):
		return readList(s, c.line)
	case slices.Contains(operands, "-"):
		return s.WrongUse(usageError{"read a list beside colours", "- takes the place of all of them", "give either two colours or -"})
	case len(operands) != 2:
		return s.WrongUse(usageError{c.verb, "it takes two colours", "write them as #rgb, #rrggbb or rgb(r g b), or - for a list"})
	}
	out := bufio.NewWriter(s.Out)
	if err := c.pair(out, operands[0], operands[1]); err != nil {
		for _, text := range operands {
			if _, err := colour.Parse(text); err != nil {
				s.Say(wording.Explain(c.verb+" "+wording.Quote(text), err))
			}
		}
		return exitWrongUse
	}
	if err := out.Flush(); err != nil {
		return s.unwritten(err)
	}
	return ExitDone
}

// line takes the two colours of a line.
func (c *pairCommand) line(out io.Writer, line string) error {
	a, b, ok := splitPair(line)
	if !ok {
		return usageError{c.verb, "it does not hold two colours", "write a pair such as " + c.example}
	}
	return c.pair(out, a, b)
}

// pair reports on two colours. Failures to write show when out is flushed.
func (c *pairCommand) pair(out io.Writer, a, b string) error {
	first, errA := colour.Parse(a)
	second, errB := colour.Parse(b)
	if err := errors.Join(errA, errB); err != nil {
		return err
	}
	data, write := c.of(analysis.SpotOf(first), analysis.SpotOf(second))
	if c.json {
		_ = jsonLine(out, data)
		return nil
	}
	if c.begun {
		_, _ = io.WriteString(out, "\n")
	}
	c.begun = true
	write(out)
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
