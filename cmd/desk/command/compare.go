package command

import (
	"io"

	"app.tonedesk/analysis"
)

// runCompare compares two colours, or a list of pairs. It returns the exit code.
func runCompare(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, []option{{name: "json"}, {"tolerance", "T"}})
	if err != nil {
		return s.WrongUse(err)
	}
	tolerance, err := a.tolerance()
	if err != nil {
		return s.WrongUse(err)
	}
	c := pairCommand{verb: "compare", example: "#e2ab85 #b26a5c", json: a.given("json")}
	c.of = func(a, b analysis.Spot) (any, func(io.Writer)) {
		pair := analysis.Compare(a, b, tolerance)
		return pair, func(out io.Writer) { writePair(out, pair) }
	}
	return c.run(a.operands, s)
}
