package command

import (
	"errors"
	"fmt"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// changeReport is what desk change says; its JSON names and units are the command line's
// contract. A figure that isn't there is null.
type changeReport struct {
	Before    string           `json:"before"` // as it was given
	After     string           `json:"after"`
	Width     int              `json:"width"` // pixels compared
	Height    int              `json:"height"`
	Alignment stills.Alignment `json:"alignment"` // "same", "position" or "scaled"
	Stretched bool             `json:"stretched"` // their shapes differ
	Region    *files.Rect      `json:"region"`    // by position: what both show, in the source's pixels

	Tones    *float64               `json:"tones"`    // value of the mean after minus before
	Distance *float64               `json:"distance"` // earth mover's distance, tones
	Altered  *float64               `json:"altered"`  // share changed by more than a quarter of a tone
	Groups   []analysis.GroupChange `json:"groups"`   // dark to light, by the picture before
	Gaps     []gapReport            `json:"gaps"`
	Moves    []analysis.Move        `json:"moves"` // the largest first
	Sentence string                 `json:"sentence"`
}

type gapReport struct {
	analysis.GapShift
	After *float64 `json:"after"`
}

// runChange says what happened between two pictures.
func runChange(c *call) error {
	if len(c.operands) != 2 {
		return usageError{"compare pictures", "it takes two", "name the picture or still before and the one after"}
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
		return sentence(wording.Explain(wording.On(wording.On("compare", before.name)+" with", after.name), err))
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
		Tones: stills.Known(c.Tones), Distance: stills.Known(c.Distance), Altered: stills.Known(c.Altered),
		Groups: append([]analysis.GroupChange{}, c.Groups...), Gaps: []gapReport{},
		Moves: append([]analysis.Move{}, c.Moves...), Sentence: plain(wording.SayChange(c)),
	}
	if a.How == stills.ByPosition {
		r.Region = &a.Region
	}
	for _, g := range c.Gaps {
		r.Gaps = append(r.Gaps, gapReport{g, stills.Known(g.After)})
	}
	return r
}

// writeChange prints the same to be read. Failures to write show when w is flushed.
func writeChange(w io.Writer, before, after subject, a stills.Aligned, c *analysis.Change) {
	fmt.Fprintf(w, "%s -> %s, %d by %d pixels\n", bare(before.name), bare(after.name), c.Width, c.Height)
	if said := wording.SayAlignment(a); said != "" {
		fmt.Fprintf(w, "  %s.\n", plain(said))
	}
	fmt.Fprintf(w, "  %s.\n", plain(wording.SayChange(c)))
	if c.Counted == 0 {
		return
	}
	fmt.Fprintf(w, "  mean       %s tones\n", signed(c.Tones, 1))
	fmt.Fprintf(w, "  distance   %.1f tones from spread to spread\n", c.Distance)
	fmt.Fprintf(w, "  altered    %.1f %% by more than a quarter of a tone\n", 100*c.Altered)
	head := "groups"
	for _, g := range c.Groups {
		fmt.Fprintf(w, "  %-9s  %-12s %5.1f %%  mean value %4.1f, now %4.1f\n",
			head, g.Name, 100*g.Share, colour.Value(g.Before), colour.Value(g.After))
		head = ""
	}
}
