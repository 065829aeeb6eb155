package export

import (
	"image"
	"slices"
	"strings"
	"time"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/analysis/edges"
	"app.tonedesk/analysis/families"
	"app.tonedesk/analysis/focus"
	"app.tonedesk/analysis/light"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/stills"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// SheetSubject is what a critique sheet is made of.
type SheetSubject struct {
	Title    string
	Name     string        // of a still; "" for none
	Time     time.Time     // when the picture was read; zero if unknown
	Source   stills.Source // the zero value if unknown
	Display  string        // colour space that the display is taken to have; "" if unknown
	Picture  analysis.Pixels
	Notes    []notes.Note
	Options  analysis.Options    // how the groups are made, and what is left out
	Bands    float64             // how many, as Look.Knob; 0 for as many as at first
	Edges    edges.Options       // by which edges are lost; the zero value for as at first, as of the next two
	Light    light.Options       // by which shadows agree
	Contrast focus.Options       // by which places have contrast
	Families *families.Found     // nil where none are to be shown
	Judged   []setup.Judged      // what the painter said of them
	Focus    []setup.Place       // where the eye should go
	Grew     *wording.GrowthText // how the picture grew; nil where that isn't known
}

// SheetOfStill returns what a sheet of a still is made of, without its families.
func SheetOfStill(still *stills.Still) SheetSubject {
	m := still.Meta
	return SheetSubject{
		Title: SheetTitle(m.Name, m.Time), Name: m.Name, Time: m.Time, Source: m.Source, Display: m.Display,
		Picture: still.Picture, Notes: still.Notes.Notes,
		Options: analysis.Options{Mask: m.LeftOut.Mask(still.Picture)}, Judged: m.Judged(), Focus: m.Marked(),
	}
}

// meta returns what is known of the subject.
func (s SheetSubject) meta() stills.Meta {
	return stills.Meta{
		Name: s.Name, Time: s.Time, Source: s.Source, Display: s.Display, Width: s.Picture.Width, Height: s.Picture.Height,
		LeftOut: stills.LeftOutOf(s.Options.Mask), Reading: stills.FiguresOf(analysis.Read(s.Picture, s.Options)),
		LocalColours: stills.LocalColoursOf(slices.DeleteFunc(slices.Clone(s.Judged), func(j setup.Judged) bool { return !j.Kept }), image.Point{}),
		Focus:        stills.FocusOf(s.Focus, image.Point{}),
	}
}

// listed are the families that are shown: those found with confidence or kept, the largest
// first, then those that are kept and not found, read where they are. None is refused.
func (s SheetSubject) listed() []families.Family {
	list := setup.Listed(s.Families, s.Judged).List
	for i, at := range setup.Meant(s.Judged, s.Families.List) {
		if j := s.Judged[i]; j.Kept && at < 0 {
			if f, ok := s.read(j); ok {
				list = append(list, f)
			}
		}
	}
	return list
}

// keptSize is the side of the square that is read of a kept side, in pixels: as the window's
// spots at first.
const keptSize = 3

// read reads a local colour at its places; ok is false if it is not there.
func (s SheetSubject) read(j setup.Judged) (f families.Family, ok bool) {
	light, err := analysis.ReadSpot(s.Picture, j.Light.At.X, j.Light.At.Y, keptSize)
	shadow, errShadow := analysis.ReadSpot(s.Picture, j.Shadow.At.X, j.Shadow.At.Y, keptSize)
	if err != nil || errShadow != nil || light.Lightness < shadow.Lightness {
		return f, false
	}
	f = families.Of(light, shadow, families.DefaultRules())
	was := [2]analysis.Spot{analysis.SpotOf(j.Light.Colour), analysis.SpotOf(j.Shadow.Colour)}
	return f, setup.Apart(light.Lab, shadow.Lab, was[0].Lab, was[1].Lab) <= setup.StillThere
}

// Sizes of the pictures on a sheet, in pixels: 200 dots an inch over the width of a page.
const (
	sheetPicture = 1600
	sheetSmall   = 800
)

// mostFamilies is how many families a sheet shows: the largest.
const mostFamilies = 6

// SheetContent returns what stands on a critique sheet. The error is a *memory.Full.
func SheetContent(s SheetSubject) (sheet.Content, error) {
	paper, err := stills.OnPaper(s.Picture)
	if err != nil {
		return sheet.Content{}, err
	}
	reading := analysis.Read(s.Picture, s.Options)
	w, h := stills.Fit(s.Picture.Width, s.Picture.Height, sheetSmall, sheetSmall)
	look := views.Look{Reading: reading}
	bands := look
	bands.Knob = s.Bands
	histogram := reading.Histogram
	c := sheet.Content{
		Title: s.Title, About: sheetAbout(s), Foot: sheetFoot(s.Display),
		Picture:   stills.Annotate(paper, s.Notes, sheetPicture),
		Greys:     stills.Paint(paper, "grey", w, h, look),
		Bands:     stills.Paint(paper, "bands", w, h, bands),
		Histogram: &histogram, Shares: sheetShares(reading.Chosen().Groups()), Figures: sheetFigures(reading),
	}
	painted := notes.NewPainted(s.Picture)
	painted.Set(s.Notes)
	measured := painted.Measure()
	if measured.Light != nil || measured.Shadow != nil {
		c.Painted = language.Say("Painted areas. %s", wording.SayMeasured(measured))
	}
	c.Notes = sheetNotes(s.Notes, measured)
	if s.Families != nil {
		list := s.listed()
		shown := min(len(list), mostFamilies)
		c.Families, c.FamiliesLeft = sheetFamilies(list[:shown]), len(list)-shown
	}
	if reading.Counted == 0 {
		c.Histogram, c.Figures = nil, language.Say("Nothing can be measured: all of the picture is transparent or left out.")
	}
	return c, nil
}

// sheetAbout says when and where the picture was taken.
func sheetAbout(s SheetSubject) string {
	var parts []string
	if !s.Time.IsZero() {
		parts = append(parts, s.Time.Format(language.Say("2 January 2006, 15:04")))
	}
	size := language.Say("%s"+wording.Nbsp+"pixels", wording.SizeSay(s.Picture.Width, s.Picture.Height))
	switch s.Source.Kind {
	case stills.FromScreen:
		size = language.Say("part of the screen, %s", size)
	case stills.FromWindow:
		size = language.Say("a window, %s", size)
	case stills.FromDemo:
		size = language.Say("the demo painting, %s", size)
	}
	parts = append(parts, size)
	if said := sayMarks(s.Notes); said != "" {
		parts = append(parts, said)
	}
	return strings.Join(parts, " · ")
}

// sheetFoot says what the figures assume.
func sheetFoot(display string) string {
	if display == "" {
		display = "sRGB"
	}
	return language.Say("Measured as a display with %s shows it; on another display, in print or at another brightness lightness differs. Tonedesk.", display)
}

func sheetShares(groups []analysis.Group) []sheet.Share {
	var all []sheet.Share
	shares := wording.GroupShares(groups)
	for i, g := range groups {
		all = append(all, sheet.Share{From: g.From, To: g.To, Words: language.Name(g.Name) + " " + shares[i]})
	}
	return all
}

// sheetFigures says the groups' distances, their murk and the key.
func sheetFigures(r *analysis.Reading) string {
	var parts []string
	if r.Key != "" {
		parts = append(parts, language.Say("Mean value %s, %s", wording.Tenth(colour.Value(r.Mean)), strings.ReplaceAll(wording.SayKey(r.Key), wording.Nbsp, " ")))
	}
	if key := wording.SayKeyFigures(stills.FiguresOf(r)); key != "" {
		parts = append(parts, language.Say("groups %s", key))
	}
	return strings.Join(parts, wording.Between())
}

func sheetFamilies(list []families.Family) []sheet.FamilyRow {
	var rows []sheet.FamilyRow
	for _, f := range list {
		spots := []analysis.Spot{f.Light, f.Shadow}
		if f.Accent != nil {
			spots = append(spots, f.Accent.Spot)
		}
		if f.Line != nil {
			spots = append(spots, f.Line.Spot)
		}
		said := wording.SayFamily(f)
		share := ""
		if f.Share != nil {
			share = language.Say("%s of the picture", wording.Percent(*f.Share))
		}
		parts := append([]string{share, said.Turn}, said.Remarks...)
		parts = slices.DeleteFunc(parts, func(part string) bool { return part == "" })
		row := sheet.FamilyRow{Title: said.Title, Text: strings.Join(parts, wording.Between())}
		for _, spot := range spots {
			row.Colours = append(row.Colours, spot.Colour)
			row.Greys = append(row.Greys, colour.GreyOf(spot.Lightness))
		}
		rows = append(rows, row)
	}
	return rows
}

// sheetNotes lists what the notes say, by their numbers, with their readings.
func sheetNotes(list []notes.Note, measured notes.Measured) []sheet.NoteRow {
	var rows []sheet.NoteRow
	for i, number := range notes.Numbers(list) {
		if number == 0 {
			continue
		}
		row := sheet.NoteRow{Number: number, Text: list[i].Text}
		switch shape := list[i].Shape.(type) {
		case notes.Spot:
			row.Colour, row.Grey = &shape.Reading.Colour, colour.GreyOf(shape.Reading.Lightness)
			row.Reading = shape.Say()
		case notes.Area:
			if measured.Light != nil && measured.Shadow != nil {
				row.Reading = wording.SayTones(analysis.AsPrinted(measured.Tones))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// sayMarks counts the notes that are listed, and the others.
func sayMarks(list []notes.Note) string {
	listed, silent := 0, 0
	for _, n := range list {
		switch {
		case n.Speaks():
			listed++
		case n.Known():
			silent++
		}
	}
	switch {
	case silent == 0:
		return wording.SayNotes(listed)
	case listed == 0:
		return language.Say("%s without words", wording.SayNotes(silent))
	}
	return language.Say("%s, %d more without words", wording.SayNotes(listed), silent)
}

// SheetTitle is what a still without a name is called on a sheet: its time.
func SheetTitle(name string, at time.Time) string {
	if name != "" {
		return name
	}
	if at.IsZero() {
		return language.Say("Still")
	}
	return language.Say("Still of %s", at.Format(language.Say("2 January 2006")))
}
