package command

import (
	"cmp"
	"image"
	"slices"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/workspace"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/pictures"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/wording"
)

// readOptions are the options of desk read.
var readOptions = []option{
	{name: "json"}, {"spots", "x,y;x,y"}, {"size", "1|3|5|11"}, {"groups", "2|3|4"}, {"ground", "COLOUR"},
	{"focus", "x,y;x,y"}, {"target", "PICTURE"}, {name: "without-ground"}, {"workspace", "auto|keep"}, {name: "no-families"},
}

// readPlan is what to do with every file.
type readPlan struct {
	spots  []image.Point    // pixels
	focus  []image.Point    // where the eye should go, pixels
	size   int              // side of a spot's square, pixels
	of     analysis.Options // how the groups are made
	ground colour.RGB       // under partly transparent pixels
	target string           // path of the picture to compare with; empty for none
	keep   bool             // the workspace around a canvas is counted too
}

// runRead measures picture files.
func runRead(c *call) error {
	plan := readPlan{size: 3, ground: analysis.White}
	if err := plan.set(c.arguments); err != nil {
		return err
	}
	switch {
	case len(c.operands) == 0:
		return usageError{"read a picture", "no file was given", "name one or more picture files"}
	case slices.Contains(c.operands, "-") || plan.target == "-":
		return errPictureList
	}
	target, err := plan.readTarget()
	if err != nil {
		c.fail(err.Error())
	}
	c.eachFile(func(path string) (func() error, error) {
		r, err := plan.read(path, target, !c.given("no-families"))
		return func() error { c.report(r, r.write); return nil }, err
	})
	return nil
}

// read measures a picture file. It may be called from several goroutines.
func (plan readPlan) read(path string, target *analysis.Target, withFamilies bool) (r fileReport, err error) {
	pixels, told, err := openToldPicture(path)
	if err != nil {
		return r, err
	}
	pixels.LayOver(plan.ground)
	spots, err := plan.readSpots(path, pixels)
	if err != nil {
		return r, err
	}
	if err := plan.focusIn(path, pixels); err != nil {
		return r, err
	}
	mask, leftOut := plan.leaveOut(pixels)
	of := plan.of
	of.Mask = mask
	reading := analysis.Read(pixels, of)
	r = reportOf(path, reading, spots)
	r.Space = spaceReport{pixels.Space.Title(), told.By, append([]pictures.ToldBy{}, told.Overridden...)}
	r.LeftOut = leftOut
	r.targetReport = plan.reportTarget(target, reading)
	r.look(pixels, mask, plan.focus, withFamilies)
	return r, nil
}

// look fills what is found in a picture made small, in one pass over its pixels for all of that: edges
// and contrast, and with families also these and their light.
func (r *fileReport) look(pixels analysis.Pixels, mask *analysis.Mask, marks []image.Point, withFamilies bool) {
	to := []reduce.To{reduce.ToLongest(pixels, edges.Longest, mask), reduce.ToLongest(pixels, focus.Longest, mask)}
	var finder *families.Finder
	if withFamilies {
		finder = families.NewFinder()
		defer finder.Close()
		to = append(to, finder.To(pixels, mask), reduce.ToLongest(pixels, light.LongestCells, mask))
	}
	reduce.Together(pixels, to, func(small []*reduce.Picture) {
		r.setEdges(pixels, new(edges.Finder).Find(small[0], edges.DefaultOptions()))
		r.setFocus(pixels, new(focus.Finder).Find(small[1], focus.DefaultOptions()), marks)
		if !withFamilies {
			return
		}
		finder.TakeReduced(pixels, to[2], small[2])
		r.found = finder.Find(families.DefaultRules())
		r.Families, r.Forms = append([]families.Family{}, r.found.List...), finder.Forms() // never nil, so that JSON has arrays
		r.Light = light.OfPicture(r.found, light.CellsOf(small[3]), nil, light.DefaultOptions())
	})
}

// errPictureList says that a picture was asked for from standard input.
var errPictureList = usageError{"read a picture from standard input", "pictures are read from files only", "name the file"}

// set turns the options into a plan. Errors are usageErrors.
func (plan *readPlan) set(a arguments) error {
	plan.of.WithoutGround = a.given("without-ground")
	return cmp.Or(
		a.spots("spots", &plan.spots),
		a.spots("focus", &plan.focus),
		a.oneNumberOf("size", &plan.size, []int{1, 3, 5, 11}, "choose 1, 3, 5 or 11"),
		a.oneNumberOf("groups", &plan.of.Groups, []int{2, 3, 4}, "choose 2, 3 or 4"),
		oneOf(a, "workspace", &plan.keep, map[string]bool{"auto": false, "keep": true}, "it is not one of the words on offer", "choose auto or keep"),
		a.file("target", &plan.target, "name a picture file", ""),
		a.colour("ground", &plan.ground),
	)
}

// leaveOut leaves out the workspace around a canvas, where one is certain; else nothing. parts
// are never nil, so that JSON has an array.
func (plan readPlan) leaveOut(pixels analysis.Pixels) (mask *analysis.Mask, parts []files.Rect) {
	parts = []files.Rect{}
	if plan.keep {
		return nil, parts
	}
	found := workspace.Find(pixels)
	if found.Certainty != workspace.Certain {
		return nil, parts
	}
	mask = &analysis.Mask{Areas: analysis.Around(pixels.Bounds(), found.Canvas)}
	for _, area := range mask.Areas {
		parts = append(parts, files.RectOf(area))
	}
	return mask, parts
}

// readTarget reads the picture that the others are held against; nil for none. Its errors
// are sentences.
func (plan readPlan) readTarget() (*analysis.Target, error) {
	if plan.target == "" {
		return nil, nil
	}
	target, err := pictures.ReadTarget(plan.target, plan.of, plan.ground)
	if err != nil {
		return nil, sentence(wording.Explain(wording.On("read %s", plan.target), err))
	}
	return target, nil
}

// readSpots reads the places asked for. Its errors are sentences.
func (plan readPlan) readSpots(path string, pixels analysis.Pixels) (spots []analysis.Spot, err error) {
	spots = make([]analysis.Spot, len(plan.spots)) // never nil, so that JSON has an array
	for i, at := range plan.spots {
		if spots[i], err = analysis.ReadSpot(pixels, at.X, at.Y, plan.size); err != nil {
			what := wording.Part("read the spot %d,%d of %s, %d by %d pixels", at.X, at.Y, wording.Quote(path), pixels.Width, pixels.Height)
			return nil, sentence(wording.Explain(what, err))
		}
	}
	return spots, nil
}

// reportTarget compares a reading with the target; nil if none was asked for. A target that
// could not be read leaves the distance unknown.
func (plan readPlan) reportTarget(target *analysis.Target, r *analysis.Reading) *targetReport {
	switch {
	case plan.target == "":
		return nil
	case target == nil:
		return new(targetReport)
	}
	match := target.Match(r)
	return &targetReport{stills.Known(match.Distance), match}
}

// reportOf takes out of a reading what is reported. It holds on to none of it.
func reportOf(path string, r *analysis.Reading, spots []analysis.Spot) fileReport {
	figures := stills.FiguresOf(r)
	dark, light := r.Limits(analysis.DefaultLimits)
	return fileReport{
		pictureFile: pictureFile{path, r.Width, r.Height},
		Lightness:   figures.Lightness, Histogram: r.Histogram, Figures: figures, Spots: spots,
		Limits: limitsReport{stills.Known(dark), stills.Known(light)}, CountedShare: stills.Known(r.Share()), ground: r.Ground,
	}
}
