package command

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"app.tonedesk/analysis/families"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// sheetOptions are the options of desk sheet.
var sheetOptions = []option{{"-o", "FILE"}, {"page", "a4|16:9"}, {name: "picture"}, {name: "force"}}

// runSheet hands a still or a picture file on: as a critique sheet, in layers, or as what is
// known of it. It returns the exit code.
func runSheet(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, sheetOptions)
	if err != nil {
		return s.WrongUse(err)
	}
	plan, err := planSheet(a)
	switch {
	case err != nil:
		return s.WrongUse(err)
	case len(a.operands) != 1:
		return s.WrongUse(usageError{"make a sheet", "it shows one picture", "name one picture file or still"})
	}
	of, err := openSubject(a.operands[0])
	if err != nil {
		s.Say(err.Error())
		return ExitUnread
	}
	if of.clear() {
		s.Say(wording.Sentence("make a sheet of "+wording.Quote(of.name), "all of it is transparent", "choose a picture with something painted on it"))
		return ExitUnread
	}
	code := of.sayTrouble(s)
	path := plan.path(a, of)
	if !plan.inLayers(path) {
		of.layOver()
	}
	if err := plan.Save(path, a.given("force"), sheetSubject(of)); err != nil {
		s.Say(explainSheet(path, err))
		if errors.Is(err, stills.ErrEnding) {
			return exitWrongUse
		}
		return ExitUnread
	}
	if !a.given("-o") && plan.sayPath(s, path) != nil {
		return ExitUnread
	}
	return code
}

// sayPath says what was written and where, since nobody chose the place. It returns what
// standard output fails with.
func (plan sheetPlan) sayPath(s Streams, path string) error {
	what := "the sheet"
	if plan.Picture {
		what = "the picture with its notes"
	}
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	_, err := fmt.Fprintf(s.Out, "Wrote %s as %s.\n", what, wording.Quote(path))
	if err != nil {
		s.unwritten(err)
	}
	return err
}

// explainSheet says why a file could not be written.
func explainSheet(path string, err error) string {
	what := "write " + wording.Quote(path)
	if errors.Is(err, fs.ErrExist) {
		return wording.Sentence(what, "there is a file of that name already", "choose another name, or write over it with --force")
	}
	return wording.ExplainWriting(what, err)
}

// sheetPlan is how to hand on.
type sheetPlan struct{ export.Export }

// planSheet turns the options into a plan. Errors are usageErrors.
func planSheet(a arguments) (plan sheetPlan, err error) {
	plan.Page, plan.Picture = sheet.A4, a.given("picture")
	if a.given("page") {
		switch strings.ToLower(a.values["page"]) {
		case sheet.A4.Name:
		case sheet.Wide.Name:
			plan.Page = sheet.Wide
		default:
			return plan, badValue("page", a.values["page"], "it is not a page on offer", "choose a4 or 16:9")
		}
	}
	if a.given("-o") && plan.Picture && !strings.EqualFold(filepath.Ext(a.values["-o"]), ".png") {
		return plan, usageError{"use --picture for " + wording.Quote(a.values["-o"]), "the picture with its notes is written as PNG", "end the name in .png"}
	}
	return plan, nil
}

// inLayers reports whether what is written has the picture's transparency.
func (plan sheetPlan) inLayers(path string) bool {
	return strings.EqualFold(filepath.Ext(path), ".ora")
}

// path returns where to write: where -o says, else where the command runs.
func (plan sheetPlan) path(a arguments, of subject) string {
	if a.given("-o") {
		return a.values["-o"]
	}
	base := filepath.Base(of.name)
	base = strings.TrimSuffix(base, filepath.Ext(base))
	if of.still != nil {
		base = of.still.ID
	}
	if plan.Picture {
		return base + "-notes.png"
	}
	return base + "-sheet.pdf"
}

// sheetSubject returns what a sheet of the subject is made of.
func sheetSubject(of subject) export.SheetSubject {
	s := export.SheetSubject{Title: filepath.Base(of.name), Source: of.side.Source, Picture: of.side.Picture}
	if of.still != nil {
		s = export.SheetOfStill(of.still)
		s.Picture = of.side.Picture
	} else if info, err := os.Stat(of.name); err == nil {
		s.Time = info.ModTime()
	}
	s.Families = families.Find(s.Picture, s.Options.Out, families.DefaultRules())
	return s
}
