package command

import (
	"bufio"
	"io"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// runSpot reads colours. It returns the exit code.
func runSpot(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, []option{{name: "json"}})
	switch {
	case err != nil:
		return s.WrongUse(err)
	case len(a.operands) == 0:
		return s.WrongUse(usageError{"read a colour", "none was given", "write it as #rgb, #rrggbb or rgb(r g b), or - for a list"})
	case slices.Contains(a.operands, "-") && !isList(a.operands):
		return s.WrongUse(usageError{"read a list beside colours", "- takes the place of all of them", "give either colours or -"})
	}
	r := spotReport{json: a.given("json")}
	if isList(a.operands) {
		return readList(s, func(out io.Writer, line string) error { return r.colour(out, line) })
	}
	out := bufio.NewWriter(s.Out)
	code := ExitDone
	for _, text := range a.operands {
		if err := r.colour(out, text); err != nil {
			s.Say(wording.Explain("read "+wording.Quote(text), err))
			code = exitWrongUse
		}
	}
	if err := out.Flush(); err != nil {
		return s.unwritten(err)
	}
	return code
}

// spotReport prints the readings of colours, a line each.
type spotReport struct {
	json  bool
	begun bool // the columns' heads are printed
}

// colour reads the colour written in text and prints it. Failures to write show when
// out is flushed.
func (r *spotReport) colour(out io.Writer, text string) error {
	c, err := colour.Parse(text)
	if err != nil {
		return err
	}
	spot := analysis.SpotOf(c)
	if r.json {
		_ = jsonLine(out, spot)
		return nil
	}
	if !r.begun {
		r.begun = true
		writeSpotHead(out, "")
	}
	writeSpot(out, "", spot)
	return nil
}
