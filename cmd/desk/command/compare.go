package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// runCompare compares two colours, a list of such pairs, or two pictures or stills.
func runCompare(c *call) error {
	switch {
	case len(c.operands) == 2 && !slices.ContainsFunc(c.operands, meansColour):
		return comparePictures(c)
	case len(c.operands) != 2 && !slices.Contains(c.operands, "-"):
		return usageError{"compare", "it takes two colours, or two pictures or stills", "write colours as #rgb, #rrggbb or rgb(r g b), or - for a list of pairs"}
	}
	return compareColours(c)
}

// meansColour reports whether an operand is a colour, or meant as one; a file that is there is
// none.
func meansColour(text string) bool {
	if _, err := colour.Parse(text); err == nil || text == "-" {
		return true
	}
	_, err := os.Stat(text)
	return err != nil && (strings.HasPrefix(text, "#") || strings.HasPrefix(text, "rgb"))
}

// changeReport is what desk compare says of two pictures; its JSON names and units are the
// command line's contract. A figure that isn't there is null. Differences are after minus
// before.
type changeReport struct {
	Before    string           `json:"picture_before"` // as it was given
	After     string           `json:"picture_after"`
	Width     int              `json:"width"` // pixels compared
	Height    int              `json:"height"`
	Alignment stills.Alignment `json:"alignment"` // "same", "position" or "scaled"
	Stretched bool             `json:"stretched"` // their shapes differ
	Region    *files.Rect      `json:"region"`    // by position: what both show, in the source's pixels

	LightnessDifference *float64      `json:"lightness_difference"` // of the means, L*
	Tones               *float64      `json:"tones"`                // of the means' values
	Distance            *float64      `json:"distance_tones"`       // earth mover's distance of the spreads
	Changed             *float64      `json:"changed_share"`        // by more than a quarter of a tone, 0 to 1
	Groups              []groupReport `json:"group_changes"`        // dark to light, by the picture before
	Gaps                []gapReport   `json:"gap_changes"`
	Moves               []moveReport  `json:"moves"` // the largest first
	Sentence            string        `json:"sentence"`
}

// groupReport is what became of a group of the picture before, whose borders both shares go by.
type groupReport struct {
	Name        string  `json:"name"`
	ShareBefore float64 `json:"share_before"` // of the counted pixels, 0 to 1
	ShareAfter  float64 `json:"share_after"`
	ValueBefore float64 `json:"value_before"` // of the mean, 0 to 10
	ValueAfter  float64 `json:"value_after"`  // of its own group of that name: see analysis.GroupChange
	Tones       float64 `json:"tones"`        // value after minus value before
}

// gapReport is how many tones two neighbouring groups are apart.
type gapReport struct {
	Darker      string   `json:"darker"`
	Lighter     string   `json:"lighter"`
	TonesBefore float64  `json:"tones_before"`
	TonesAfter  *float64 `json:"tones_after"` // null if the picture after has not as many groups
}

// moveReport is the share of the picture that went from one group to another.
type moveReport struct {
	From  string  `json:"from"`
	To    string  `json:"to"`
	Share float64 `json:"share"` // of the counted pixels, 0 to 1
}

// comparePictures says what happened between two pictures.
func comparePictures(c *call) error {
	if c.given("tolerance") {
		return usageError{"use the option --tolerance", "it is for two colours", "leave it out for pictures"}
	}
	before, errBefore := openSubject(c.operands[0])
	after, errAfter := openSubject(c.operands[1])
	if err := errors.Join(errBefore, errAfter); err != nil {
		return err // a line each
	}
	for _, of := range []*subject{&before, &after} {
		c.sayTrouble(of.name, of.trouble)
		of.layOver()
	}
	aligned, err := stills.Align(before.side, after.side)
	var change *analysis.Change
	if err == nil {
		change, err = analysis.ChangeOf(aligned.Before, aligned.After, aligned.MaskBefore, aligned.MaskAfter, 0)
	}
	if err != nil {
		return sentence(wording.Explain(wording.Part("compare %s with %s", wording.Quote(before.name), wording.Quote(after.name)), err))
	}
	c.report(changeReportOf(before, after, aligned, change), func(out io.Writer) {
		writeChange(out, before, after, aligned, change)
	})
	return nil
}

func changeReportOf(before, after subject, a stills.Aligned, c *analysis.Change) changeReport {
	r := changeReport{
		Before: before.name, After: after.name, Width: c.Width, Height: c.Height,
		Alignment: a.How, Stretched: a.Stretched,
		LightnessDifference: stills.Known(c.MeanAfter - c.MeanBefore), Tones: stills.Known(c.Tones),
		Distance: stills.Known(c.Distance), Changed: stills.Known(c.Altered),
		Groups: []groupReport{}, Gaps: []gapReport{}, Moves: []moveReport{}, Sentence: plain(wording.SayChange(c)),
	}
	if a.How == stills.ByPosition {
		r.Region = &a.Region
	}
	for _, g := range c.Groups {
		r.Groups = append(r.Groups, groupReport{g.Name, g.Share, g.ShareAfter, colour.Value(g.Before), colour.Value(g.After), g.Tones})
	}
	for _, g := range c.Gaps {
		r.Gaps = append(r.Gaps, gapReport{g.Darker, g.Lighter, g.Before, stills.Known(g.After)})
	}
	for _, m := range c.Moves {
		r.Moves = append(r.Moves, moveReport(m))
	}
	return r
}

// writeChange prints the same to be read. Failures to write show when w is flushed.
func writeChange(w io.Writer, before, after subject, a stills.Aligned, c *analysis.Change) {
	fmt.Fprintln(w, language.Say("%s -> %s, %d by %d pixels", bare(before.name), bare(after.name), c.Width, c.Height))
	if said := wording.SayAlignment(a); said != "" {
		sentenced(w, 2, said)
	}
	said := wording.SayOverall(c).Title
	sentenced(w, 2, said)
	if c.Counted == 0 {
		return
	}
	if in := wording.SayChange(c); in != said {
		sentenced(w, 2, in)
	}
	labelled(w, "changed", language.Say("%.1f %% by more than a quarter of a tone", 100*c.Altered))
	labelled(w, "distance", language.Say("%.1f tones from spread to spread", c.Distance))
	head := language.Words("groups")
	for _, g := range c.Groups {
		labelled(w, head, language.Say("%s%5.1f %%, now %5.1f %%   mean value %4.1f, now %4.1f",
			padded(language.Name(g.Name), groupWide), 100*g.Share, 100*g.ShareAfter, colour.Value(g.Before), colour.Value(g.After)))
		head = ""
	}
}
