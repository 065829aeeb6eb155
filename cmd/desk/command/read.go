package command

import (
	"bufio"
	"fmt"
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/capture"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/wording"
)

// readOptions are the options of desk read.
var readOptions = []option{
	{name: "json"}, {"spots", "x,y;x,y"}, {"size", "1|3|5|11"}, {"groups", "2|3|4"}, {"ground", "COLOUR"},
	{"target", "PICTURE"}, {name: "no-families"},
}

// readPlan is what to do with every file.
type readPlan struct {
	json   bool
	spots  []image.Point // pixels
	size   int           // side of a spot's square, pixels
	groups int           // 0: as many as the picture needs
	ground colour.RGB    // under partly transparent pixels
	target string        // path of the picture to compare with; empty for none

	families bool // find them
}

// runRead measures picture files. It returns the exit code.
func runRead(args []string, s Streams) int {
	if asksForHelp(args) {
		return runHelp(s)
	}
	a, err := parseArguments(args, readOptions)
	if err != nil {
		return s.WrongUse(err)
	}
	plan, err := planRead(a)
	switch {
	case err != nil:
		return s.WrongUse(err)
	case len(a.operands) == 0:
		return s.WrongUse(usageError{"read a picture", "no file was given", "name one or more picture files"})
	case slices.Contains(a.operands, "-") || plan.target == "-":
		return s.WrongUse(usageError{"read a picture from standard input", "pictures are read from files only", "name the file"})
	}
	reader := analysis.NewReader()
	defer reader.Close()
	out := bufio.NewWriter(s.Out)
	code := ExitDone
	target, err := plan.readTarget()
	if err != nil {
		s.Say(err.Error())
		code = ExitUnread
	}
	for i, path := range a.operands {
		report, err := plan.read(reader, target, path)
		if err != nil {
			s.Say(err.Error())
			code = ExitUnread
			continue
		}
		plan.write(out, report, i > 0)
		if err := out.Flush(); err != nil {
			return s.unwritten(err)
		}
	}
	return code
}

// planRead turns the options into a plan. Errors are usageErrors.
func planRead(a arguments) (plan readPlan, err error) {
	plan.json = a.given("json")
	plan.families = !a.given("no-families")
	if plan.spots, err = a.spots(); err != nil {
		return plan, err
	}
	if plan.size, err = a.choice("size", []int{1, 3, 5, 11}, 3); err != nil {
		return plan, err
	}
	if plan.groups, err = a.choice("groups", []int{2, 3, 4}, 0); err != nil {
		return plan, err
	}
	if plan.target, err = a.path("target"); err != nil {
		return plan, err
	}
	plan.ground, err = a.ground()
	return plan, err
}

// sentence is an error that is said as it is.
type sentence string

func (s sentence) Error() string { return string(s) }

// open reads the pixels of the picture file at path. Its errors are sentences.
func (plan readPlan) open(path string) (pixels analysis.Pixels, err error) {
	picture, err := capture.OpenPicture(path)
	if err != nil {
		return pixels, sentence(wording.Explain("read "+wording.Quote(path), err))
	}
	pixels = pictures.OfFile(picture)
	pixels.LayOver(plan.ground)
	return pixels, nil
}

// read measures the picture file at path, also against a target. Its errors are sentences.
func (plan readPlan) read(reader *analysis.Reader, target *analysis.Target, path string) (report fileReport, err error) {
	pixels, err := plan.open(path)
	if err != nil {
		return report, err
	}
	spots := make([]analysis.Spot, len(plan.spots)) // never nil, so that JSON has an array
	for i, at := range plan.spots {
		if spots[i], err = analysis.ReadSpot(pixels, at.X, at.Y, plan.size); err != nil {
			what := fmt.Sprintf("read the spot %d,%d of %s, %d by %d pixels", at.X, at.Y, wording.Quote(path), pixels.Width, pixels.Height)
			return report, sentence(wording.Explain(what, err))
		}
	}
	reading := reader.Read(pixels, analysis.Options{Groups: plan.groups})
	report = reportOf(path, reading, spots)
	report.targetReport = plan.reportTarget(target, reading)
	report.Families = plan.familiesOf(pixels)
	return report, nil
}
