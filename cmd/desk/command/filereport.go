package command

import (
	"fmt"
	"io"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/light"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// fileReport is what desk read says of a picture file; its JSON names and units are the
// command line's contract. A figure that isn't there is null.
type fileReport struct {
	pictureFile
	Space     spaceReport      `json:"space"`
	Lightness stills.Lightness `json:"lightness"` // that of the figures, before the histogram
	Histogram [256]int         `json:"histogram"` // bin i counts the L* whose colour.BinOf is i
	stills.Figures
	Spots     []analysis.Spot   `json:"spots"`
	Limits    limitsReport      `json:"limits"`
	Families  []families.Family `json:"families"`   // the largest first; null where they are left out
	Forms     []families.Form   `json:"forms"`      // of the families, in their order; null where they are left out
	Light     *light.Light      `json:"light"`      // what they say of the light; null where they are left out
	LostEdges []edgeReport      `json:"lost_edges"` // borders that colour alone carries, the longest first
	Edges     edgesReport       `json:"edges"`
	Focus     focusReport       `json:"focus"`
	// CountedShare is the share of the picture's pixels that are counted, 0 to 1.
	CountedShare *float64     `json:"counted_share"`
	LeftOut      []files.Rect `json:"left_out"` // of the picture, pixels: the workspace around the canvas

	*targetReport // nil without a target

	ground analysis.Ground
	found  *families.Found // nil where local colours are left out
}

// pictureFile is a file with the size of its picture in pixels.
type pictureFile struct {
	File   string `json:"file"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
}

// spaceReport says which colours a picture's numbers were taken to stand for, and what of the file
// said so.
type spaceReport struct {
	Name string          `json:"name"`
	From pictures.ToldBy `json:"from"`
	// Overridden is what else of the file tells colours, and isn't asked; never nil, so that JSON has an array.
	Overridden []pictures.ToldBy `json:"overridden"`
}

// limitsReport holds the shares of the counted pixels that are darker and lighter than
// analysis.DefaultLimits.
type limitsReport struct {
	DarkShare  *float64 `json:"dark_share"`
	LightShare *float64 `json:"light_share"`
}

// targetReport says how far a picture is from the one given by --target.
type targetReport struct {
	DistanceTones *float64 `json:"distance_tones"` // null if nothing is counted in one of them

	match analysis.Match
}

// writeHead prints the head of a file's report, and returns whether more can be said of it.
func (f pictureFile) writeHead(w io.Writer, counted bool) bool {
	fmt.Fprintf(w, "%s, %d by %d pixels\n", bare(f.File), f.Width, f.Height)
	if !counted {
		fmt.Fprintln(w, "  nothing to count: every pixel is transparent")
	}
	return counted
}

// write prints a picture file's report.
func (r fileReport) write(w io.Writer) {
	l := r.Lightness
	if !r.writeHead(w, l.Mean != nil) {
		return
	}
	if r.Space.Name != colour.SRGB.Name {
		fmt.Fprintf(w, "  colours    %s\n", plain(wording.SaySpace(r.Space.Name)))
	}
	if said := wording.SayOverridden(r.Space.Overridden); said != "" {
		fmt.Fprintf(w, "  not asked  %s\n", plain(said))
	}
	r.writeCounted(w)
	fmt.Fprintf(w, "  lightness  mean %.1f, half of the picture is at %.1f or darker\n", *l.Mean, *l.P50)
	fmt.Fprintf(w, "             %.1f at the darkest hundredth, %.1f at the lightest\n", *l.P1, *l.P99)
	if r.Key != nil {
		fmt.Fprintf(w, "  key        %s, mean value %.1f\n", *r.Key, colour.Value(*l.Mean))
	}
	fmt.Fprintf(w, "  in words   %s.\n", plain(wording.SayGroups(r.Groups, r.Gaps)))
	share := 0.0
	if r.GroundShare != nil {
		share = *r.GroundShare
	}
	fmt.Fprintf(w, "  groups of  %s.\n", plain(wording.SayGround(r.ground, share)))
	r.writeGroups(w)
	limits := analysis.DefaultLimits
	fmt.Fprintf(w, "  limits     %.1f %% darker than %.0f, %.1f %% lighter than %.0f\n",
		100**r.Limits.DarkShare, limits.Dark, 100**r.Limits.LightShare, limits.Light)
	if r.targetReport != nil {
		writeTarget(w, *r.targetReport)
	}
	writeFamilies(w, r.Families, r.Forms)
	writeLight(w, r.Light, r.Families)
	r.writeEdges(w)
	r.writeFocus(w)
	if len(r.Spots) > 0 {
		fmt.Fprintln(w, "  spots")
		writeSpotHead(w, fmt.Sprintf("    %-11s", "place"))
		for _, s := range r.Spots {
			writeSpot(w, fmt.Sprintf("    %-11s", placeOf(s)), s)
		}
	}
}

// writeCounted prints how much is counted, where that isn't all, and why.
func (r fileReport) writeCounted(w io.Writer) {
	if r.CountedShare == nil || *r.CountedShare == 1 {
		return
	}
	why := "transparent pixels"
	if len(r.LeftOut) > 0 {
		why = "the workspace around the canvas (count it with --workspace keep)"
	}
	fmt.Fprintf(w, "  left out   %s: %s\n", why, plain(wording.SayCounted(*r.CountedShare)))
}

// writeGroups prints the groups from dark to light with the gaps between them.
func (r fileReport) writeGroups(w io.Writer) {
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
		fmt.Fprintf(w, "             they hold %.0f %% of the variance in lightness\n", 100**r.Separability)
	}
	if r.Murk != nil && len(r.Groups) > 1 {
		fmt.Fprintf(w, "  murk       %.1f %% within a quarter of a tone of a border\n", 100**r.Murk)
	}
}

// writeTarget prints how a picture stands to its target.
func writeTarget(w io.Writer, r targetReport) {
	if r.DistanceTones == nil {
		fmt.Fprintln(w, "  target     it can't be compared with the target")
		return
	}
	fmt.Fprintf(w, "  target     %s\n             %s\n", plain(wording.SayTargetDistance(r.match)), plain(wording.SayTarget(r.match)))
}

// writeFamilies prints the families, the largest first; nil where they are left out. What is
// unsure comes after the others, with its colours alone. forms are theirs.
func writeFamilies(w io.Writer, list []families.Family, forms []families.Form) {
	if list == nil {
		return
	}
	var sure, unsure []families.Family
	var own [][]families.Form // of the sure ones
	for i, f := range list {
		if f.Sure() {
			sure, own = append(sure, f), append(own, families.FormsOf(forms, i))
		} else {
			unsure = append(unsure, f)
		}
	}
	switch {
	case len(sure) > 0:
		fmt.Fprintln(w, "  local colours")
		writeSpotHead(w, fmt.Sprintf("    %-20s", "place"))
	case len(unsure) > 0:
		fmt.Fprintln(w, "  local colours: none found for sure")
	default:
		fmt.Fprintln(w, "  local colours: none found with a light and a shadow side")
	}
	for i, f := range sure {
		writeFamily(w, f, own[i])
	}
	if len(unsure) > 0 {
		fmt.Fprintf(w, "  %s\n", wording.SayFold(false, len(unsure)))
	}
	for _, f := range unsure {
		writeSides(w, f)
	}
}

// writeSides prints the two colours of a family.
func writeSides(w io.Writer, f families.Family) {
	writeSpot(w, fmt.Sprintf("    light   %-12s", placeOf(f.Light)), f.Light)
	writeSpot(w, fmt.Sprintf("    shadow  %-12s", placeOf(f.Shadow)), f.Shadow)
}

// writeFamily prints a family: its two colours, its verdict, and what else there is to say, of it
// and of its forms.
func writeFamily(w io.Writer, f families.Family, forms []families.Form) {
	writeSides(w, f)
	said := wording.SayFamily(f)
	title := plain(said.Title)
	if f.Share != nil {
		title += fmt.Sprintf("; %.1f %% of the picture", 100**f.Share)
	}
	fmt.Fprintf(w, "            %s.\n", title)
	for _, line := range slices.Concat([]string{said.Turn}, said.Remarks, wording.SayForms(f, forms)) {
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
