package command

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"

	"app.tonedesk/analysis"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// The readable reports: columns that line up, numbers as the window prints them.

// writeSpotHead heads the columns of writeSpot.
func writeSpotHead(w io.Writer, indent string) {
	line := indent + padded(language.Say("colour¦of a spot"), len("#rrggbb"))
	for _, c := range spotColumns {
		line += strings.Repeat(" ", c.apart+c.wide()-letters(c.name.String())) + c.name.String()
	}
	fmt.Fprintln(w, line)
}

// spotColumn is a column of figures: how far it stands apart, and how wide its figures are, in letters.
type spotColumn struct {
	name           language.Words
	apart, figures int
}

var spotColumns = [5]spotColumn{{"lightness", 3, 9}, {"value", 2, 5}, {"layer grey", 2, 10}, {"chroma", 2, 6}, {"hue", 2, 5}}

// wide is how wide a column is with its name.
func (c spotColumn) wide() int { return max(c.figures, letters(c.name.String())) }

// writeSpot prints the reading of a colour in one line: lightness and chroma in their
// own units, hue in degrees, and how it looks where that differs.
func writeSpot(w io.Writer, indent string, s analysis.Spot) {
	writeSpotSaid(w, indent, s, wording.SaySeen(s))
}

// writeSpotSaid prints the reading of a colour and what is said of it.
func writeSpotSaid(w io.Writer, indent string, s analysis.Spot, said string) {
	hue := "-"
	if s.Hue != nil {
		hue = language.Number(turned(*s.Hue), 1)
	}
	if said != "" {
		said = "   " + said
	}
	line := indent + s.Colour.Hex()
	for i, figure := range [5]string{language.Number(s.Lightness, 1), language.Number(s.Value, 1), language.Number(s.LayerGrey, 0), language.Number(s.Chroma, 1), hue} {
		line += fmt.Sprintf("%*s", spotColumns[i].apart+spotColumns[i].wide(), figure)
	}
	fmt.Fprintln(w, line+said)
}

// turned keeps a hue under 360 when it is printed with one decimal.
func turned(hue float64) float64 {
	if hue >= 359.95 {
		return 0
	}
	return hue
}

// plain turns the window's unbreakable spaces and long minus signs into ordinary ones.
func plain(text string) string { return plainer.Replace(text) }

var plainer = strings.NewReplacer("\u00a0", " ", "\u2212", "-")

// signed prints a difference with its sign; one that rounds to nothing has none.
func signed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	if v > 0 {
		return "+" + text
	}
	return text
}

// reportVersion is the version of the objects that are reported, a member of each: it rises
// where a name, a unit or a sign changes, not where something is added.
const reportVersion = 1

// writeJSON writes a report, which has members, as a line of JSON. Failures to write show when
// w is flushed.
func writeJSON(w io.Writer, report any) {
	if line := encoded(report); line != "" {
		writeTame(w, fmt.Sprintf(`{"version":%d,`, reportVersion)+line[len("{"):])
	}
}

// encoded returns data as a line of JSON.
func encoded(data any) string {
	var line strings.Builder
	e := json.NewEncoder(&line) // which ends it with a line break
	e.SetEscapeHTML(false)
	if e.Encode(data) != nil {
		return "" // a mistake of ours: all that is reported can be encoded
	}
	return line.String()
}

// writeTame writes a line of JSON so that it can't steer a terminal: what isn't printable is
// spelled out.
func writeTame(w io.Writer, line string) {
	for _, r := range line { // only inside strings can it be other than ASCII
		if r == '\n' || unicode.IsPrint(r) {
			_, _ = io.WriteString(w, string(r))
			continue
		}
		for _, unit := range utf16.Encode([]rune{r}) {
			fmt.Fprintf(w, `\u%04x`, unit)
		}
	}
}

// bare quotes a name only as far as it keeps the line whole.
func bare(name string) string { return wording.Bare(name) }
