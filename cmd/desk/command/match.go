package command

import (
	"fmt"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/wording"
)

// runMatch brings the second of two colours to the lightness of the first, or does it for a
// list of pairs. It returns the exit code.
func runMatch(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, []option{{name: "json"}})
	if err != nil {
		return s.WrongUse(err)
	}
	c := pairCommand{verb: "match", example: "#e2ab85 #3060c0", json: a.given("json")}
	c.of = func(a, b analysis.Spot) (any, func(io.Writer)) {
		brought := propose.Bring(a, b)
		return brought, func(out io.Writer) { writeBrought(out, brought) }
	}
	return c.run(a.operands, s)
}

// writeBrought prints a colour brought to another's lightness.
func writeBrought(out io.Writer, m propose.Brought) {
	writeSpotHead(out, "         ")
	writeSpot(out, "A        ", m.A)
	writeSpot(out, "B        ", m.B)
	writeSpot(out, "matched  ", m.Matched)
	fmt.Fprintf(out, "%s.\n", plain(wording.SayBrought(m, "A", "B")))
}
