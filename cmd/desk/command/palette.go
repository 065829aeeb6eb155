package command

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/wording"
)

// paletteOptions are the options of desk palette.
var paletteOptions = []option{
	{name: "json"}, {"png", "FILE"}, {"css", "FILE"}, {name: "force"}, {"ground", "COLOUR"},
}

// palettePlan is what to do with every file.
type palettePlan struct {
	readPlan
	png, css string // paths to write to, "" for none
	force    bool   // also over what is there
}

// runPalette says what colours pictures are painted with. It returns the exit code.
func runPalette(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, paletteOptions)
	if err != nil {
		return s.WrongUse(err)
	}
	plan, err := planPalette(a)
	switch {
	case err != nil:
		return s.WrongUse(err)
	case len(a.operands) == 0:
		return s.WrongUse(usageError{"find a palette", "no file was given", "name a picture file"})
	case slices.Contains(a.operands, "-"):
		return s.WrongUse(usageError{"read a picture from standard input", "pictures are read from files only", "name the file"})
	case len(a.operands) > 1 && (plan.png != "" || plan.css != ""):
		return s.WrongUse(usageError{"write one file for several pictures", "each has a palette of its own", "name one picture at a time"})
	}
	out := bufio.NewWriter(s.Out)
	code := ExitDone
	for i, path := range a.operands {
		if !plan.palette(out, s, path, i > 0) {
			code = ExitUnread
		}
		if err := out.Flush(); err != nil {
			return s.unwritten(err)
		}
	}
	return code
}

// planPalette turns the options into a plan. Errors are usageErrors.
func planPalette(a arguments) (plan palettePlan, err error) {
	plan.json, plan.force = a.given("json"), a.given("force")
	if plan.ground, err = a.ground(); err != nil {
		return plan, err
	}
	if plan.png, err = a.newFile("png"); err != nil {
		return plan, err
	}
	if plan.css, err = a.newFile("css"); err != nil {
		return plan, err
	}
	switch {
	case plan.png != "" && plan.png == plan.css:
		return plan, usageError{"write the swatches and the properties to " + wording.Quote(plan.png), "it is the same file", "name two files"}
	case plan.force && plan.png == "" && plan.css == "":
		return plan, usageError{"use the option --force", "nothing is written", "add --png FILE or --css FILE"}
	}
	return plan, nil
}

// newFile returns the option's value as the path of a file to write, "" if it was not given.
func (a arguments) newFile(name string) (string, error) {
	path := a.values[name]
	if a.given(name) && (path == "" || path == "-") {
		return "", badValue(name, path, "it names no file", "name the file to write")
	}
	return path, nil
}

// palette finds and prints the palette of the picture at path, and writes the files asked
// for. It says what fails, and returns whether nothing did.
func (plan palettePlan) palette(out io.Writer, s Streams, path string, further bool) bool {
	pixels, err := plan.open(path)
	if err != nil {
		s.Say(err.Error())
		return false
	}
	families := families.Find(pixels, nil, families.DefaultRules())
	r := paletteReport{path, pixels.Width, pixels.Height, palette.Of(pixels, nil, families)}
	if plan.json {
		_ = jsonLine(out, r)
	} else {
		if further {
			_, _ = io.WriteString(out, "\n")
		}
		r.write(out)
	}
	return plan.export(s, path, swatches.OfPalette(r.Palette))
}

// export writes the files asked for.
func (plan palettePlan) export(s Streams, picture string, rows []swatches.Row) bool {
	if len(rows) == 0 && (plan.png != "" || plan.css != "") {
		s.Say(wording.Sentence("write the colours of "+wording.Quote(picture), "every pixel of it is transparent", "choose another picture"))
		return false
	}
	done := true
	for _, file := range []struct {
		path  string
		write func(io.Writer, []swatches.Row) error
	}{{plan.png, swatches.WritePNG}, {plan.css, swatches.WriteCSS}} {
		if file.path == "" {
			continue
		}
		err := plan.writeFile(file.path, picture, func(w io.Writer) error { return file.write(w, rows) })
		if err != nil {
			s.Say(err.Error())
			done = false
		}
	}
	return done
}

// writeFile writes a file of the plan, never over the picture itself. Its errors are
// sentences.
func (plan palettePlan) writeFile(path, picture string, write func(io.Writer) error) error {
	what := "write " + wording.Quote(path)
	there, err := os.Stat(path)
	if read, errRead := os.Stat(picture); err == nil && errRead == nil && os.SameFile(there, read) {
		return sentence(wording.Sentence(what, "it is the picture that was read", "choose another name"))
	}
	switch {
	case err == nil && there.IsDir():
		return sentence(wording.Sentence(what, "it is a folder", "name a file inside it"))
	case err == nil && !plan.force:
		return sentence(wording.Sentence(what, "there is a file of that name already", "choose another name, or add --force to write over it"))
	}
	if err := files.Create(path, plan.force, write); err != nil {
		return sentence(wording.ExplainWriting(what, err))
	}
	return nil
}

// paletteReport is what desk palette says of a picture file.
type paletteReport struct {
	File   string `json:"file"`
	Width  int    `json:"width"` // pixels
	Height int    `json:"height"`
	*palette.Palette
}

// write prints the report: the colours by family, then how the values spread.
func (r paletteReport) write(w io.Writer) {
	fmt.Fprintf(w, "%s, %d by %d pixels\n", strings.Trim(wording.Quote(r.File), `"`), r.Width, r.Height)
	if len(r.Colours) == 0 {
		fmt.Fprintln(w, "  nothing to count: every pixel is transparent")
		return
	}
	names := swatches.OfPalette(r.Palette)
	writeSpotHead(w, fmt.Sprintf("  %-22s", ""))
	for i, group := range r.ByFamily() {
		for k, at := range group.Colours {
			c := r.Colours[at]
			writeSpotSaid(w, fmt.Sprintf("  %-22s", names[i].Swatches[k].Name), c.Spot, fmt.Sprintf("%5.1f %% of the picture", 100*c.Share))
		}
	}
	fmt.Fprint(w, "  values, 0 to 10 by whole steps, in per cent\n   ")
	for _, share := range r.Spread {
		fmt.Fprintf(w, " %5.1f", 100*share)
	}
	fmt.Fprintf(w, "\n  %s.\n", wording.SayEmptyValues(r.Empty))
}
