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
	"app.tonedesk/gui/language"
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
	fmt.Fprintln(w, language.Say("%s, %d by %d pixels", bare(f.File), f.Width, f.Height))
	if !counted {
		fmt.Fprintln(w, "  "+language.Say("nothing to count: every pixel is transparent"))
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
		labelled(w, "colours", wording.SaySpace(r.Space.Name))
	}
	if said := wording.SayOverridden(r.Space.Overridden); said != "" {
		labelled(w, "not asked", said)
	}
	r.writeCounted(w)
	labelled(w, "lightness", language.Say("mean %.1f, half of the picture is at %.1f or darker", *l.Mean, *l.P50))
	labelled(w, "", language.Say("%.1f at the darkest hundredth, %.1f at the lightest", *l.P1, *l.P99))
	if r.Key != nil {
		labelled(w, "key", language.Say("%s, mean value %.1f", keyWords[*r.Key], colour.Value(*l.Mean)))
	}
	labelled(w, "in words", wording.Stopped(wording.SayGroups(r.Groups, r.Gaps)))
	share := 0.0
	if r.GroundShare != nil {
		share = *r.GroundShare
	}
	labelled(w, "groups of", wording.Stopped(wording.SayGround(r.ground, share)))
	r.writeGroups(w)
	limits := analysis.DefaultLimits
	labelled(w, "limits", language.Say("%.1f %% darker than %.0f, %.1f %% lighter than %.0f",
		100**r.Limits.DarkShare, limits.Dark, 100**r.Limits.LightShare, limits.Light))
	if r.targetReport != nil {
		writeTarget(w, *r.targetReport)
	}
	writeFamilies(w, r.Families, r.Forms)
	writeLight(w, r.Light, r.Families)
	r.writeEdges(w)
	r.writeFocus(w)
	if len(r.Spots) > 0 {
		fmt.Fprintln(w, "  "+language.Say("spots"))
		writeSpotHead(w, "    "+padded(language.Say("place"), 11))
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
	if len(r.LeftOut) > 0 {
		labelled(w, "left out", language.Say("the workspace around the canvas (count it with --workspace keep): %s", wording.SayCounted(*r.CountedShare)))
	} else {
		labelled(w, "left out", language.Say("transparent pixels: %s", wording.SayCounted(*r.CountedShare)))
	}
}

// keyWords are what a picture's key is called behind its label.
var keyWords = map[analysis.Key]language.Words{analysis.LowKey: "low", analysis.MiddleKey: "middle¦key", analysis.HighKey: "high"}

// groupWide is the column of the groups' names.
const groupWide = 13

// writeGroups prints the groups from dark to light with the gaps between them.
func (r fileReport) writeGroups(w io.Writer) {
	head := language.Words("groups")
	for i, g := range r.Groups {
		gap := ""
		if i > 0 {
			gap = language.Say(", %.1f tones above the group before", r.Gaps[i-1])
		}
		labelled(w, head, language.Say("%s%5.1f %%  lightness %5.1f to %5.1f, mean value %4.1f%s",
			padded(language.Name(g.Name), groupWide), 100*g.Share, g.From, g.To, colour.Value(g.Mean), gap))
		head = ""
	}
	if r.Separability != nil {
		labelled(w, "", language.Say("they hold %.0f %% of the variance in lightness", 100**r.Separability))
	}
	if r.Murk != nil && len(r.Groups) > 1 {
		labelled(w, "murk", language.Say("%.1f %% within a quarter of a tone of a border", 100**r.Murk))
	}
}

// writeTarget prints how a picture stands to its target.
func writeTarget(w io.Writer, r targetReport) {
	if r.DistanceTones == nil {
		labelled(w, "target", language.Say("it can't be compared with the target"))
		return
	}
	labelled(w, "target", wording.SayTargetDistance(r.match))
	labelled(w, "", wording.SayTarget(r.match))
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
		fmt.Fprintln(w, "  "+language.Say("local colours"))
		writeSpotHead(w, "    "+padded(language.Say("place"), sidesWide()+12))
	case len(unsure) > 0:
		fmt.Fprintln(w, "  "+language.Say("local colours: none found for sure"))
	default:
		fmt.Fprintln(w, "  "+language.Say("local colours: none found with a light and a shadow side"))
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
	writeSpot(w, fmt.Sprintf("    %s%-12s", padded(sideNames[0].String(), sidesWide()), placeOf(f.Light)), f.Light)
	writeSpot(w, fmt.Sprintf("    %s%-12s", padded(sideNames[1].String(), sidesWide()), placeOf(f.Shadow)), f.Shadow)
}

var sideNames = [2]language.Words{"light¦side, low", "shadow¦side, low"}

// sidesWide is the column of the sides' names.
func sidesWide() int {
	return max(letters(sideNames[0].String()), letters(sideNames[1].String())) + 2
}

// writeFamily prints a family: its two colours, its verdict, and what else there is to say, of it
// and of its forms.
func writeFamily(w io.Writer, f families.Family, forms []families.Form) {
	writeSides(w, f)
	said := wording.SayFamily(f)
	title := plain(said.Title)
	if f.Share != nil {
		title = language.Say("%s; %.1f %% of the picture", title, 100**f.Share)
	}
	sentenced(w, 12, title)
	for _, line := range slices.Concat([]string{said.Turn}, said.Remarks, wording.SayForms(f, forms)) {
		if line != "" {
			sentenced(w, 12, wording.Capitalised(line))
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
