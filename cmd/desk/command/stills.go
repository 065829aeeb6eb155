package command

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"

	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// stillReport is what desk stills says of a still; its JSON names and units are the command
// line's contract.
type stillReport struct {
	ID      string          `json:"id"`
	Folder  string          `json:"folder"`
	Name    string          `json:"name"`
	Time    time.Time       `json:"time"`
	Width   int             `json:"width"` // pixels
	Height  int             `json:"height"`
	Source  stills.Source   `json:"source"`
	Display string          `json:"display"`
	Notes   *stills.Summary `json:"notes"` // null where they can't be read
	Reading stills.Figures  `json:"reading"`
}

// runStills lists the stills, newest first. It returns the exit code.
func runStills(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, []option{{name: "json"}})
	if err != nil {
		return s.WrongUse(err)
	}
	if len(a.operands) > 0 {
		return s.WrongUse(usageError{"list " + wording.Quote(a.operands[0]), "stills are listed all at once", "leave it out"})
	}
	store, err := UserStills()
	if err != nil {
		s.Say(err.Error())
		return ExitUnread
	}
	list, problems, err := store.List()
	if err != nil {
		s.Say(wording.Explain("list the stills", err))
		return ExitUnread
	}
	code := ExitDone
	for _, p := range problems {
		s.Say(wording.SayProblem(p))
		code = ExitUnread
	}
	out := bufio.NewWriter(s.Out)
	for _, e := range list {
		if e.Trouble != nil {
			s.Say(sayTrouble(e.ID, e.Trouble))
			code = ExitUnread
		}
		if a.given("json") {
			_ = jsonLine(out, stillReportOf(e, store.Folder(e.ID))) // failures to write show when out is flushed
		} else {
			writeStill(out, e)
		}
	}
	if err := out.Flush(); err != nil {
		return s.unwritten(err)
	}
	return code
}

func stillReportOf(e stills.Entry, folder string) stillReport {
	r := stillReport{
		ID: e.ID, Folder: folder, Name: e.Name, Time: e.Time, Width: e.Width, Height: e.Height,
		Source: e.Source, Display: e.Display, Reading: e.Reading,
	}
	if e.Trouble == nil {
		r.Notes = &e.Notes
	}
	return r
}

// writeStill prints a still's line.
func writeStill(w io.Writer, e stills.Entry) {
	parts := []string{fmt.Sprintf("%s  %s  %5d by %-5d", e.ID, e.Time.Local().Format("2006-01-02 15:04"), e.Width, e.Height)}
	switch {
	case e.Trouble != nil:
		parts = append(parts, " ? notes")
	case e.Notes.Count == 0:
		parts = append(parts, "        ")
	case e.Notes.Count == 1:
		parts = append(parts, " 1 note ")
	default:
		parts = append(parts, fmt.Sprintf("%2d notes", e.Notes.Count))
	}
	if key := wording.SayKeyFigures(e.Reading); key != "" {
		parts = append(parts, plain(key))
	}
	if e.Name != "" {
		parts = append(parts, wording.Quote(e.Name))
	}
	fmt.Fprintln(w, strings.TrimRight(strings.Join(parts, "  "), " "))
}

// bare quotes a name only as far as it keeps the line whole.
func bare(name string) string { return strings.Trim(wording.Quote(name), `"`) }
