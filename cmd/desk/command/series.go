package command

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/growth"
	"app.tonedesk/gui/files"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/series"
	"app.tonedesk/gui/wording"
)

// stillsOptions are the options of desk stills; all but the first go with --series.
var stillsOptions = []option{
	{name: "json"}, {name: "series"}, {"csv", "FILE"}, {name: "force"}, {"groups", "2|3|4"}, {name: "without-ground"},
	{"target", "PICTURE"}, {"turn", "T"},
}

// seriesPlan is how a series is read.
type seriesPlan struct {
	csv    string // path of the table to write; "" for none
	groups int    // 0 for as many as the pictures have
	turn   float64
	target string // path of the picture to compare with; "" for none
}

// seriesReport is what desk stills says of a series.
type seriesReport struct {
	*growth.Series
	Moments []momentReport `json:"moments"`
	Turned  []int          `json:"turned"` // lines that changed, as indices, the most by its own rule first

	names []string // of the moments, in sentences
}

// momentReport is a picture of the series: a still, or a file.
type momentReport struct {
	ID   *string    `json:"id"` // of a still; null of a file
	File *string    `json:"file"`
	Name string     `json:"name"`
	Time *time.Time `json:"time"` // when a still was kept, or a file changed last; null where that isn't known
}

// runSeries says how a picture grew, over stills and picture files in the order in which they are
// given, or over the stills of the one that was kept last.
func runSeries(c *call) error {
	plan := seriesPlan{turn: growth.DefaultRules().Tones}
	err := cmp.Or(
		c.file("csv", &plan.csv, "name the file to write", "", "-"),
		c.oneNumberOf("groups", &plan.groups, []int{2, 3, 4}, "choose 2, 3 or 4"),
		c.file("target", &plan.target, "name a picture file", "", "-"),
		c.number(number{name: "turn", value: &plan.turn, from: growth.LeastTones, to: growth.MostTones,
			why: "it is not a number of tones from 0.2 to 2", act: "write a number such as 0.5"}),
	)
	switch {
	case err != nil:
		return err
	case c.given("force") && plan.csv == "":
		return usageError{"use the option --force", "nothing is written", "add --csv FILE"}
	case slices.Contains(c.operands, "-"):
		return errPictureList
	}
	given := c.operands
	if len(given) == 0 {
		if given, err = c.newestSeries(); err != nil {
			return err
		}
	}
	to := files.To{Path: plan.csv, Over: c.given("force"), Not: c.seriesReads(given)}
	if plan.csv != "" {
		if err := to.Check(); err != nil { // before the pictures are read, which may take a while
			return unwritten(plan.csv, err)
		}
	}
	asked := series.Asked{NoGround: c.given("without-ground"), Rules: families.DefaultRules()}
	if asked.Target, err = (readPlan{target: plan.target, of: analysis.Options{WithoutGround: asked.NoGround}, ground: analysis.White}).readTarget(); err != nil {
		return err
	}
	r, moments := c.readSeries(given, asked)
	if len(moments) < 2 {
		return sentence(wording.Cannot("say how the picture grew", "it takes two pictures at least", "keep another still, or name another picture"))
	}
	r.Series = growth.Of(moments, plan.groups, growth.DefaultRules().WithTones(plan.turn))
	r.Turned = append([]int{}, r.Series.Turned()...)
	c.report(r, r.write)
	if plan.csv == "" {
		return nil
	}
	var names []string
	for _, m := range r.Moments {
		names = append(names, cmp.Or(m.Name, *cmp.Or(m.File, m.ID)))
	}
	return unwritten(plan.csv, to.Write(func(w io.Writer) error { return r.WriteCSV(w, names) }))
}

// newestSeries returns the IDs of the stills of the source of which one was kept last, oldest first.
// Its errors are sentences.
func (c *call) newestSeries() (ids []string, err error) {
	store, err := UserStills()
	if err != nil {
		return nil, err
	}
	list, problems, err := store.List()
	if err != nil {
		return nil, sentence(wording.Explain("list the stills", err))
	}
	for _, p := range problems {
		c.fail(wording.SayProblem(p))
	}
	if len(list) > 0 {
		for _, e := range series.Of(list, list[0].Source) {
			ids = append(ids, e.ID)
		}
	}
	return ids, nil
}

// seriesReads are the paths of what may be read for the operands, over which nothing is written.
func (c *call) seriesReads(given []string) (paths []string) {
	paths = append(paths, c.values["target"])
	store, err := UserStills()
	for _, name := range given {
		paths = append(paths, name)
		if err != nil {
			continue
		}
		if id, _ := stillNamed(store, name); id != "" { // what is wrong with it is said when it is read
			paths = append(paths, store.Files(id)...)
		}
	}
	return slices.DeleteFunc(paths, func(path string) bool { return path == "" })
}

// readSeries measures the pictures one after another: what takes memory is one at a time. What can't
// be read is said, and left out.
func (c *call) readSeries(given []string, asked series.Asked) (r seriesReport, moments []growth.Moment) {
	said := progress{of: len(given), to: c.Err}
	var times []time.Time
	allStills := true
	for i, name := range given {
		said.say(i)
		of, err := openSubject(name)
		said.clear()
		if err != nil {
			c.fail(err.Error())
			continue
		}
		at := momentReport{Name: filepath.Base(name)}
		var now growth.Moment
		if of.still != nil {
			at.ID, at.Name, at.Time = &of.still.ID, of.still.Meta.Name, &of.still.Meta.Time
			now = asked.Still(of.still)
		} else {
			at.File, allStills = &given[i], false
			of.layOver()
			mask, _ := readPlan{}.leaveOut(of.side.Picture)
			if info, err := os.Stat(name); err == nil {
				at.Time = new(info.ModTime())
				now.At = *at.Time
			}
			now = asked.Picture(mask).Of(of.side.Picture, now.At)
		}
		r.Moments, moments, times = append(r.Moments, at), append(moments, now), append(times, now.At)
	}
	if r.names = wording.MomentNames(times); !allStills { // names tell more of files than their times do
		for i, m := range r.Moments {
			r.names[i] = cmp.Or(wording.Quote(m.Name), r.names[i])
		}
	}
	return r, moments
}

// write prints the report.
func (r seriesReport) write(w io.Writer) {
	text := wording.SayGrowth(r.Series, r.names, false)
	fmt.Fprintf(w, "%s\n", plain(text.About))
	labelled(w, "in words", wording.Stopped(wording.Capitalised(text.Title)))
	for _, said := range text.More {
		labelled(w, "", wording.Stopped(wording.Capitalised(said)))
	}
	wide := 0
	for _, l := range text.Lines {
		wide = max(wide, letters(lineName(l)))
	}
	for _, l := range text.Lines {
		mark := ""
		if l.Turn >= 0 {
			mark = "   " + language.Say("turned: %s", plain(l.Said))
		}
		fmt.Fprintln(w, "  "+padded(lineName(l), wide)+"  "+language.Say("%8s to %-12s%s", plain(l.First), plain(l.Last), mark))
	}
}

// lineName is what a line is called where there are no swatches.
func lineName(l wording.GrowthLine) string {
	if len(l.Colours) > 0 {
		return l.Colours[0].Hex() + " " + l.Name
	}
	return l.Name
}
