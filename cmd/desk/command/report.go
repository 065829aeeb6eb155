package command

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// The readable reports: columns that line up, numbers as the window prints them.

// writeSpotHead heads the columns of writeSpot.
func writeSpotHead(w io.Writer, indent string) {
	fmt.Fprintf(w, "%scolour    lightness  value  layer grey  chroma    hue\n", indent)
}

// writeSpot prints the reading of a colour in one line: lightness and chroma in their
// own units, hue in degrees, and how it looks where that differs.
func writeSpot(w io.Writer, indent string, s analysis.Spot) { writeSpotSaid(w, indent, s, seen(s)) }

// writeSpotSaid prints the reading of a colour and what is said of it.
func writeSpotSaid(w io.Writer, indent string, s analysis.Spot, said string) {
	hue := "-"
	if s.Hue != nil {
		hue = fmt.Sprintf("%.1f", turned(*s.Hue))
	}
	if said != "" {
		said = "   " + said
	}
	fmt.Fprintf(w, "%s%s   %9.1f  %5.1f  %10.0f  %6.1f  %5s%s\n",
		indent, s.Colour.Hex(), s.Lightness, s.Value, s.LayerGrey, s.Chroma, hue, said)
}

// turned keeps a hue under 360 when it is printed with one decimal.
func turned(hue float64) float64 {
	if hue >= 359.95 {
		return 0
	}
	return hue
}

// seen says in words how a saturated colour looks beside its grey.
func seen(s analysis.Spot) string {
	switch s.SeenHint() {
	case analysis.SeenLittle:
		return "looks a little lighter than its grey"
	case analysis.SeenClearly:
		return "looks clearly lighter than its grey"
	}
	return ""
}

// writePair prints a comparison: both colours, the window's sentence, and the distances
// that stand behind it.
func writePair(w io.Writer, p analysis.Pair) {
	writeSpotHead(w, "   ")
	writeSpot(w, "A  ", p.A)
	writeSpot(w, "B  ", p.B)
	said := wording.SayPair(p, "A", "B")
	fmt.Fprintf(w, "%s. %s.\n", plain(said.Title), plain(said.Sub))
	if said.Remark != "" {
		fmt.Fprintf(w, "%s.\n", plain(said.Remark))
	}
	fmt.Fprintf(w, "Lightness %s, layer grey %s, colour difference %.1f (CIEDE2000).\n",
		signed(p.LightnessDifference, 1), signed(p.LayerGreyDifference, 0), p.CIEDE2000)
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

// writeFile prints a picture file's report.
func writeFile(w io.Writer, r fileReport) {
	fmt.Fprintf(w, "%s, %d by %d pixels\n", strings.Trim(wording.Quote(r.File), `"`), r.Width, r.Height)
	if r.Lightness.Mean == nil {
		fmt.Fprintln(w, "  nothing to count: every pixel is transparent")
		return
	}
	l := r.Lightness
	fmt.Fprintf(w, "  lightness  mean %.1f, half of the picture is at %.1f or darker\n", *l.Mean, *l.P50)
	fmt.Fprintf(w, "             %.1f at the darkest hundredth, %.1f at the lightest\n", *l.P1, *l.P99)
	if r.Key != nil {
		fmt.Fprintf(w, "  key        %s, mean value %.1f\n", *r.Key, colour.Value(*l.Mean))
	}
	fmt.Fprintf(w, "  in words   %s.\n", plain(wording.SayGroups(r.Groups, r.Gaps)))
	writeGroups(w, r)
	writeLimits(w, r.Limits)
	if r.targetReport != nil {
		writeTarget(w, r.targetReport)
	}
	writeFamilies(w, r.Families)
	if len(r.Spots) > 0 {
		fmt.Fprintln(w, "  spots")
		writeSpotHead(w, fmt.Sprintf("    %-11s", "place"))
		for _, s := range r.Spots {
			writeSpot(w, fmt.Sprintf("    %-11s", fmt.Sprintf("%d,%d", *s.X, *s.Y)), s)
		}
	}
}

// writeGroups prints the groups from dark to light with the gaps between them.
func writeGroups(w io.Writer, r fileReport) {
	head := "groups"
	for i, g := range r.Groups {
		gap := ""
		if i > 0 {
			gap = fmt.Sprintf(", %.1f tones above the group before", r.Gaps[i-1])
		}
		fmt.Fprintf(w, "  %-9s  %-12s %5.1f %%  lightness %5.1f to %5.1f, mean value %4.1f%s\n",
			head, g.Name, 100*g.Share, g.From, g.To, colour.Value(g.Mean), gap)
		head = ""
	}
	if r.Separability != nil {
		fmt.Fprintf(w, "             they hold %.0f %% of the picture's variance in lightness\n", 100**r.Separability)
	}
	if r.Murk != nil && len(r.Groups) > 1 {
		fmt.Fprintf(w, "  murk       %.1f %% within a quarter of a tone of an edge\n", 100**r.Murk)
	}
}
