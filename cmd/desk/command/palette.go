package command

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/palette"
	"app.tonedesk/analysis/swatches"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// paletteOptions are the options of desk palette.
var paletteOptions = []option{
	{name: "json"}, {"png", "FILE"}, {"css", "FILE"}, {name: "force"}, {"ground", "COLOUR"},
}

// palettePlan is what to write beside the report.
type palettePlan struct {
	png, css string // paths to write to, "" for none
	force    bool   // also over what is there
}

// runPalette says what colours pictures are painted with.
func runPalette(c *call) error {
	plan, ground := palettePlan{force: c.given("force")}, analysis.White
	err := cmp.Or(
		c.colour("ground", &ground),
		c.file("png", &plan.png, "name the file to write", "", "-"),
		c.file("css", &plan.css, "name the file to write", "", "-"),
	)
	if err = cmp.Or(err, plan.check(c.operands, "find a palette", "each has a palette of its own")); err != nil {
		return err
	}
	c.eachFile(func(path string) (func() error, error) {
		pixels, err := openPicture(path)
		if err != nil {
			return nil, err
		}
		pixels.LayOver(ground)
		families := families.Find(pixels, nil, families.DefaultRules())
		r := paletteReport{pictureFile{path, pixels.Width, pixels.Height}, palette.Of(pixels, nil, families)}
		return func() error {
			c.report(r, r.write)
			return plan.export(path, swatches.OfPalette(r.Palette))
		}, nil
	})
	return nil
}

// check refuses a plan that can't be done for the operands of a command; several says
// what each of several pictures has of its own. Errors are usageErrors.
func (plan palettePlan) check(operands []string, what, several wording.Phrase) error {
	writes := plan.png != "" || plan.css != ""
	switch {
	case writes && files.Same(plan.png, plan.css):
		return usageError{wording.On("write the swatches and the properties to %s", plan.png), "it is the same file", "name two files"}
	case plan.force && !writes:
		return usageError{"use the option --force", "nothing is written", "add --png FILE or --css FILE"}
	case len(operands) == 0:
		return usageError{what, "no file was given", "name a picture file"}
	case slices.Contains(operands, "-"):
		return errPictureList
	case len(operands) > 1 && writes:
		return usageError{"write one file for several pictures", several, "name one picture at a time"}
	}
	return nil
}

// export writes the files asked for. Its error is a sentence for each that could not be
// written, a line each.
func (plan palettePlan) export(picture string, rows []swatches.Row) error {
	if len(rows) == 0 && (plan.png != "" || plan.css != "") {
		return sentence(wording.Cannot(wording.On("write the colours of %s", picture), "every pixel of it is transparent", "choose another picture"))
	}
	return errors.Join(
		plan.writeFile(plan.png, []string{picture}, func(w io.Writer) error { return swatches.WritePNG(w, rows) }),
		plan.writeFile(plan.css, []string{picture, plan.png}, func(w io.Writer) error { return swatches.WriteCSS(w, rows) }),
	)
}

// writeFile writes a file of the plan, if it has a path. Its errors are sentences.
func (plan palettePlan) writeFile(path string, not []string, write func(io.Writer) error) error {
	if path == "" {
		return nil
	}
	return unwritten(path, files.To{Path: path, Over: plan.force, Not: not}.Write(write))
}

// paletteReport is what desk palette says of a picture file.
type paletteReport struct {
	pictureFile
	*palette.Palette
}

// write prints the report: the colours by family, then how the values spread.
func (r paletteReport) write(w io.Writer) {
	if !r.writeHead(w, len(r.Colours) > 0) {
		return
	}
	names := swatches.OfPalette(r.Palette)
	writeSpotHead(w, fmt.Sprintf("  %-22s", ""))
	for i, group := range r.ByFamily() {
		for k, at := range group.Colours {
			c := r.Colours[at]
			writeSpotSaid(w, fmt.Sprintf("  %-22s", names[i].Swatches[k].Name), c.Spot, language.Say("%5.1f %% of the picture", 100*c.Share))
		}
	}
	fmt.Fprint(w, "  "+language.Say("values, 0 to 10 by whole steps, in per cent")+"\n   ")
	for _, share := range r.Spread {
		fmt.Fprint(w, language.Say(" %5.1f", 100*share))
	}
	fmt.Fprintln(w)
	sentenced(w, 2, wording.SayEmptyValues(r.Empty))
}
