package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/gui"
)

// errMatch says that a line doesn't hold two colours.
var errMatch = usageError{"match", "it does not hold two colours", "write a pair such as #e2ab85 #3060c0"}

// runMatch brings the second of two colours to the lightness of the first, or does it for a
// list of pairs. It returns the exit code.
func runMatch(args []string, s streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, []option{{name: "json"}})
	if err != nil {
		return s.wrongUse(err)
	}
	r := matchReport{json: a.given("json")}
	switch {
	case isList(a.operands):
		return readList(s, r.line)
	case slices.Contains(a.operands, "-"):
		return s.wrongUse(usageError{"read a list beside colours", "- takes the place of all of them", "give either two colours or -"})
	case len(a.operands) != 2:
		return s.wrongUse(usageError{"match", "it takes two colours", "write them as #rgb, #rrggbb or rgb(r g b), or - for a list"})
	}
	out := bufio.NewWriter(s.out)
	if err := r.pair(out, a.operands[0], a.operands[1]); err != nil {
		for _, text := range a.operands {
			if _, err := analysis.ParseColour(text); err != nil {
				s.say(gui.Explain("match "+gui.Quote(text), err))
			}
		}
		return exitWrongUse
	}
	if err := out.Flush(); err != nil {
		return s.unwritten(err)
	}
	return exitDone
}

// matchReport prints matches.
type matchReport struct {
	json  bool
	begun bool
}

// line matches the two colours of a line.
func (r *matchReport) line(out io.Writer, line string) error {
	a, b, ok := splitPair(line)
	if !ok {
		return errMatch
	}
	return r.pair(out, a, b)
}

// pair brings b to the lightness of a and prints it. Failures to write show when out is
// flushed.
func (r *matchReport) pair(out io.Writer, a, b string) error {
	first, errA := analysis.ParseColour(a)
	second, errB := analysis.ParseColour(b)
	if err := errors.Join(errA, errB); err != nil {
		return err
	}
	brought := analysis.Bring(analysis.SpotOf(first), analysis.SpotOf(second))
	if r.json {
		_ = jsonLine(out, brought)
		return nil
	}
	if r.begun {
		_, _ = io.WriteString(out, "\n")
	}
	r.begun = true
	writeSpotHead(out, "         ")
	writeSpot(out, "A        ", brought.A)
	writeSpot(out, "B        ", brought.B)
	writeSpot(out, "matched  ", brought.Matched)
	fmt.Fprintf(out, "%s.\n", plain(gui.SayBrought(brought, "A", "B")))
	return nil
}
