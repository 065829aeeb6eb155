package command

import (
	"fmt"
	"io"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/wording"
)

// familiesOf finds the families of a picture, nil if they are to be left out.
func (plan readPlan) familiesOf(p analysis.Pixels) []families.Family {
	if !plan.families {
		return nil
	}
	found := families.Find(p, nil, families.DefaultRules()).List
	return append([]families.Family{}, found...) // never nil, so that JSON has an array
}

// writeFamilies prints the families, the largest first.
func writeFamilies(w io.Writer, families []families.Family) {
	if families == nil {
		return
	}
	if len(families) == 0 {
		fmt.Fprintln(w, "  families   none found: no local colour has a light and a shadow side")
		return
	}
	fmt.Fprintln(w, "  families")
	writeSpotHead(w, fmt.Sprintf("    %-20s", "place"))
	for _, f := range families {
		writeFamily(w, f)
	}
}

// writeFamily prints a family: its two colours, its verdict, and what else there is to say.
func writeFamily(w io.Writer, f families.Family) {
	writeSpot(w, fmt.Sprintf("    light   %-12s", placeOf(f.Light)), f.Light)
	writeSpot(w, fmt.Sprintf("    shadow  %-12s", placeOf(f.Shadow)), f.Shadow)
	said := wording.SayFamily(f)
	title := plain(said.Title)
	if f.Share != nil {
		title += fmt.Sprintf("; %.1f %% of the picture", 100**f.Share)
	}
	fmt.Fprintf(w, "            %s.\n", title)
	for _, line := range append([]string{said.Turn}, said.Remarks...) {
		if line != "" {
			fmt.Fprintf(w, "            %s.\n", wording.Capitalised(plain(line)))
		}
	}
}

// placeOf returns where a spot was read.
func placeOf(s analysis.Spot) string {
	if s.X == nil || s.Y == nil {
		return ""
	}
	return fmt.Sprintf("%d,%d", *s.X, *s.Y)
}
