package command

import (
	"fmt"
	"io"
	"strings"
	"time"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// stillReport is what desk stills says of a still; its JSON names and units are the command
// line's contract.
type stillReport struct {
	ID        string         `json:"id"`
	Folder    string         `json:"folder"`
	Name      string         `json:"name"`
	Time      time.Time      `json:"time"`
	Width     int            `json:"width"` // pixels
	Height    int            `json:"height"`
	Source    stills.Source  `json:"source"`
	Display   string         `json:"display"`
	Automatic bool           `json:"automatic"`  // kept by the program itself
	NoteCount *int           `json:"note_count"` // null where they can't be read
	NoteTexts []string       `json:"note_texts"` // what is written on it; null where it can't be read
	Reading   stills.Figures `json:"reading"`
}

// runStills lists the stills, newest first, or says how a picture grew over some of them.
func runStills(c *call) error {
	if c.given("series") {
		return runSeries(c)
	}
	for _, o := range stillsOptions[2:] {
		if c.given(o.name) {
			return usageError{wording.On("use the option %s", "--"+o.name), "it belongs to a series", "add --series"}
		}
	}
	if len(c.operands) > 0 {
		return usageError{wording.On("list %s", c.operands[0]), "stills are listed all at once", "leave it out, or add --series"}
	}
	store, err := UserStills()
	if err != nil {
		return err
	}
	list, problems, err := store.List()
	if err != nil {
		return sentence(wording.Explain("list the stills", err))
	}
	for _, p := range problems {
		c.fail(wording.SayProblem(p))
	}
	for _, e := range list {
		c.sayTrouble(e.ID, e.Trouble)
		c.begun = false // a still a line, without blank ones between
		c.report(stillReportOf(e, store.Folder(e.ID)), func(out io.Writer) { writeStill(out, e) })
	}
	return nil
}

func stillReportOf(e stills.Entry, folder string) stillReport {
	r := stillReport{
		ID: e.ID, Folder: folder, Name: e.Name, Time: e.Time, Width: e.Width, Height: e.Height,
		Source: e.Source, Display: e.Display, Automatic: e.Automatic, Reading: e.Reading,
	}
	if e.Trouble == nil {
		r.NoteCount, r.NoteTexts = &e.Notes.Count, append([]string{}, e.Notes.Texts...)
	}
	return r
}

// writeStill prints a still's line.
func writeStill(w io.Writer, e stills.Entry) {
	parts := []string{language.Say("%s  %s  %5d by %-5d", e.ID, e.Time.Local().Format("2006-01-02 15:04"), e.Width, e.Height)}
	switch {
	case e.Trouble != nil:
		parts = append(parts, language.Say(" ? notes"))
	case e.Notes.Count == 0:
		parts = append(parts, "        ")
	default:
		parts = append(parts, language.Count(e.Notes.Count, "%2d note ", "%2d notes"))
	}
	if key := wording.SayKeyFigures(e.Reading); key != "" {
		parts = append(parts, plain(key))
	}
	if e.Name != "" {
		parts = append(parts, wording.Quote(e.Name))
	}
	fmt.Fprintln(w, strings.TrimRight(strings.Join(parts, "  "), " "))
}
