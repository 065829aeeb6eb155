package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/export"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/series"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// sheetOptions are the options of desk sheet.
var sheetOptions = []option{{"-o", "FILE"}, {"page", "a4|16:9"}, {name: "picture"}, {name: "force"}}

// runSheet exports a still or a picture file: as a critique sheet, in layers, or as what is
// known of it.
func runSheet(c *call) error {
	way, err := exportOf(c.arguments)
	switch {
	case err != nil:
		return err
	case len(c.operands) != 1:
		return usageError{"make a sheet", "it shows one picture", "name one picture file or still"}
	}
	path, chosen := c.values["-o"], c.given("-o")
	of, err := openSubject(c.operands[0])
	if err != nil {
		return err
	}
	if analysis.Read(of.side.Picture, analysis.Options{}).Counted == 0 {
		return sentence(wording.Cannot(wording.On("make a sheet of %s", of.name), "all of it is transparent", "choose a picture with something painted on it"))
	}
	c.sayTrouble(of.name, of.trouble)
	if !chosen {
		path = sheetPath(of, way.Picture)
	}
	to := files.To{Path: path, Over: c.given("force"), Not: of.reads}
	if err := to.Check(); err != nil {
		return unwritten(path, err)
	}
	if said := SpeakDrawable(); said != "" {
		c.Say(said)
	}
	if !strings.EqualFold(filepath.Ext(path), ".ora") { // layers keep the picture's transparency
		of.layOver()
	}
	if err := way.Save(to, sheetSubject(of)); err != nil {
		c.fail(unwritten(path, err).Error())
		if errors.Is(err, stills.ErrEnding) {
			c.code = exitWrongUse
		}
		return nil
	}
	if !chosen {
		sayWritten(c.out, path, way.Picture)
	}
	return nil
}

// SpeakDrawable has English spoken from now on where no typeface has the letters of the language,
// for what draws letters: a window, a sheet. It says so; "" where all is well.
func SpeakDrawable() string {
	if language.Current() != language.Japanese || ink.Draws('あ') {
		return ""
	}
	if err := language.Use(language.English); err != nil {
		return err.Error()
	}
	return language.Say("No typeface with Japanese letters is installed, so English is spoken. Install one, such as fonts-noto-cjk, or choose another language.")
}

// exportOf reads what is exported. Errors are usageErrors.
func exportOf(a arguments) (export.Export, error) {
	way := export.Export{Page: sheet.A4, Picture: a.given("picture")}
	pages := map[string]sheet.Size{"a4": sheet.A4, "A4": sheet.A4, "16:9": sheet.Wide}
	if err := oneOf(a, "page", &way.Page, pages, "it is not a page on offer", "choose a4 or 16:9"); err != nil {
		return way, err
	}
	if path := a.values["-o"]; way.Picture && a.given("-o") && !strings.EqualFold(filepath.Ext(path), ".png") {
		return way, usageError{wording.On("use --picture for %s", path), "the picture with its notes is written as PNG", "end the name in .png"}
	}
	return way, nil
}

// sayWritten says what was written and where, since nobody chose the place.
func sayWritten(w io.Writer, path string, picture bool) {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	if picture {
		fmt.Fprintln(w, language.Say("Wrote the picture with its notes as %s.", wording.Quote(path)))
	} else {
		fmt.Fprintln(w, language.Say("Wrote the sheet as %s.", wording.Quote(path)))
	}
}

// sheetPath returns where to write where nobody says: in the folder where the command runs.
func sheetPath(of subject, picture bool) string {
	base := filepath.Base(of.name)
	base = strings.TrimSuffix(base, filepath.Ext(base))
	if of.still != nil {
		base = of.still.ID
	}
	if picture {
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
		if store, err := UserStills(); err == nil {
			s.Grew = series.Grew(store, of.still.ID, series.Asked{Rules: families.DefaultRules()}, series.Told{Rules: growth.DefaultRules()})
		}
	} else if info, err := os.Stat(of.name); err == nil {
		s.Time = info.ModTime()
	}
	s.Families = families.Find(s.Picture, s.Options.Mask, families.DefaultRules())
	return s
}
