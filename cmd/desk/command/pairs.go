package command

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/propose"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// compareColours compares two colours, or a list of pairs.
func compareColours(c *call) error {
	tolerance := analysis.DefaultTolerance
	err := c.number(number{"tolerance", &tolerance, analysis.MinTolerance, analysis.MaxTolerance,
		"it is not a difference of lightness from 0.5 to 5", "write a number such as 2.0"})
	if err != nil {
		return err
	}
	return colourCommand{deed: "compare", on: "compare %s", example: "#e2ab85 #b26a5c", of: func(ab []analysis.Spot) error {
		pair := analysis.Compare(ab[0], ab[1], tolerance)
		c.report(pair, func(out io.Writer) { writePair(out, pair, tolerance) })
		return nil
	}}.run(c)
}

// runMatch brings the second of two colours to the lightness of the first, or does it for a
// list of pairs.
func runMatch(c *call) error {
	return colourCommand{deed: "match", on: "match %s", example: "#e2ab85 #3060c0", of: func(ab []analysis.Spot) error {
		brought := propose.Bring(ab[0], ab[1])
		c.report(brought, func(out io.Writer) { writeBrought(out, brought) })
		return nil
	}}.run(c)
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

// writePair prints a comparison: both colours, the window's sentence, and the distances
// that stand behind it.
func writePair(w io.Writer, p analysis.Pair, tolerance float64) {
	writeSpotHead(w, "   ")
	writeSpot(w, "A  ", p.A)
	writeSpot(w, "B  ", p.B)
	said := wording.SayPair(p, "A", "B").Title
	if p.Verdict == analysis.Same {
		said = language.Say("%s (within %.1f)", said, tolerance)
	}
	fmt.Fprintln(w, plain(language.Say("%s. %s.¦sentences", said, wording.SayPairMeaning(p))))
	if remark := wording.SayRemark(p.LayerGreyRemark()); remark != "" {
		sentenced(w, 0, remark)
	}
	fmt.Fprintln(w, language.Say("B minus A: lightness %s, layer grey %s; colour difference %.1f (CIEDE2000).",
		language.Point(signed(p.LightnessDifference, 1)), signed(p.LayerGreyDifference, 0), p.CIEDE2000))
}

// writeBrought prints a colour brought to another's lightness.
func writeBrought(out io.Writer, m propose.Brought) {
	writeSpotHead(out, "         ")
	writeSpot(out, "A        ", m.A)
	writeSpot(out, "B        ", m.B)
	writeSpot(out, padded(language.Say("matched"), 9), m.Matched)
	sentenced(out, 0, wording.SayBrought(m, "A", "B"))
}
