package export

import (
	"cmp"
	"image"
	"math"

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
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/stills/notes"
	"app.tonedesk/gui/stills/sheet"
	"app.tonedesk/gui/wording"
)

// partsOf are what stands on the pages behind the first, in their order: each makes its part of a
// picture on paper, if there is something to say. Another thing that is measured joins here.
var partsOf = []func(s SheetSubject, paper analysis.Pixels) (sheet.Part, bool){lightPart, edgesPart, focusPart, grewPart}

// moreParts are what was found in the picture beside what its sheet has. The error is a *memory.Full.
func moreParts(s SheetSubject) (parts []sheet.Part, err error) {
	paper, err := stills.OnPaper(s.Picture)
	if err != nil {
		return nil, err
	}
	for _, of := range partsOf {
		if part, ok := of(s, paper); ok {
			parts = append(parts, part)
		}
	}
	return parts, nil
}

// sentences are said ones with their stops.
func sentences(title string, lines []string) (all []string) {
	for _, said := range append([]string{title}, lines...) {
		all = append(all, wording.Stopped(wording.Capitalised(said)))
	}
	return all
}

// namesIn is what names the places of a picture: its groups, and the local colours on its sheet.
func namesIn(s SheetSubject) wording.NamesIn {
	in := wording.NamesIn{Groups: analysis.Read(s.Picture, s.Options).Chosen().Groups()}
	if s.Families != nil {
		in.Found, in.Counts = setup.Listed(s.Families, s.Judged), func(int) bool { return true }
	}
	return in
}

// painted is a picture in a view, as large as a part shows it.
func painted(paper analysis.Pixels, view string, look views.Look) analysis.Pixels {
	w, h := stills.Fit(paper.Width, paper.Height, sheetSmall, sheetSmall)
	img := stills.Paint(paper, view, w, h, look)
	return analysis.Pixels{Pix: img.Pix, Stride: img.Stride, Width: w, Height: h}
}

// lightPart says whether the shadows agree, from where the light comes, and what disagrees.
func lightPart(s SheetSubject, paper analysis.Pixels) (part sheet.Part, ok bool) {
	if s.Families == nil {
		return part, false
	}
	listed := setup.Listed(s.Families, s.Judged)
	l := light.OfPicture(listed, light.Take(paper, s.Options.Mask), func(int) bool { return true }, cmp.Or(s.Light, light.DefaultOptions()))
	if l.Ratio == nil {
		return part, false
	}
	said := wording.SayLight(l, listed.List)
	part = sheet.Part{Head: language.Say("Light: do the shadows agree?"), Say: sentences(said.Title, said.Lines), Rows: oddRows(l, listed.List)}
	if l.Direction != nil {
		grey := painted(paper, "grey", views.Look{})
		part.Picture, part.Name = stills.Annotate(grey, arrowsOf(l, grey), sheetSmall), language.Say("Where the light goes; rings are lit from elsewhere")
	}
	return part, true
}

// arrowsOf are arrows over the forms that show from where their light comes, with rings round those
// that are lit from elsewhere, as notes without words.
func arrowsOf(l *light.Light, on analysis.Pixels) (list []notes.Note) {
	side := float64(max(on.Width, on.Height))
	half, wide := side/24, side/200 // our choice
	for _, f := range l.Lightings() {
		if f.Verdict == light.Unsure {
			continue
		}
		at := ink.Pt(f.X*float64(on.Width), f.Y*float64(on.Height))
		sin, cos := math.Sincos(f.Degrees * math.Pi / 180)
		way := ink.Pt(-half*cos, half*sin) // of the light; y goes downwards
		list = append(list, notes.New(notes.Arrow{From: at.Minus(way), To: at.Plus(way), Width: wide}, ""))
		if f.Verdict == light.Elsewhere {
			r := ink.Pt(1.4*half, 1.4*half)
			list = append(list, notes.New(notes.Ring{From: at.Minus(r), To: at.Plus(r), Width: wide}, ""))
		}
	}
	return list
}

// oddRows are the local colours that disagree: light, shadow, and the shadow that the others' light
// would give.
func oddRows(l *light.Light, list []families.Family) (rows []sheet.FamilyRow) {
	if l.OneLight == nil || !*l.OneLight {
		return nil
	}
	for i := range l.LocalColours {
		c := &l.LocalColours[i]
		if c.Agrees() {
			continue
		}
		f := &list[c.Family]
		row := sheet.FamilyRow{Title: language.Say("%s disagrees", f.Light.Colour.Hex()), Text: language.Say("light, shadow, and the shadow that the light of the others would give")}
		for _, spot := range []analysis.Spot{f.Light, f.Shadow, c.Expected} {
			row.Colours, row.Greys = append(row.Colours, spot.Colour), append(row.Greys, colour.GreyOf(spot.Lightness))
		}
		rows = append(rows, row)
	}
	return rows
}

// edgesPart shows the edges that vanish in grey.
func edgesPart(s SheetSubject, paper analysis.Pixels) (part sheet.Part, ok bool) {
	found := edges.Find(s.Picture, s.Options.Mask, cmp.Or(s.Edges, edges.DefaultOptions()))
	if len(found.Of(edges.Lost)) == 0 {
		return part, false
	}
	said := wording.SayEdges(found, namesIn(s))
	img := stills.Annotate(painted(paper, "grey", views.Look{}), nil, sheetSmall)
	drawLost(img, found)
	return sheet.Part{
		Head: language.Say("Lost edges"), Say: sentences(said.Title, said.Lines), Picture: img, Name: language.Say("White lines: carried by colour alone"),
	}, true
}

// drawLost draws the lost edges that were found, white with a black rim: the view would find them anew
// in this smaller picture.
func drawLost(img *image.RGBA, found *edges.Found) {
	size := img.Rect.Size()
	wide := float64(max(size.X, size.Y)) / 320 // our choice: neighbours are about a cell of 480 apart
	for _, dot := range []struct {
		radius float64
		grey   uint8
	}{{1.6 * wide, 0}, {wide, 255}} {
		for _, e := range found.Of(edges.Lost) {
			found.Along(&e, func(x, y float64) {
				at := ink.Pt(x*float64(size.X), y*float64(size.Y))
				new(ink.Drawer).Draw(img, img.Rect, []ink.Mark{{Grey: dot.grey, Lines: []ink.Line{{Points: []ink.Point{at, at.Plus(ink.Pt(0.01, 0))}, Width: 2 * dot.radius}}}})
			})
		}
	}
}

// focusPart says whether the strongest contrast lies where the eye should go, if that was marked.
func focusPart(s SheetSubject, paper analysis.Pixels) (part sheet.Part, ok bool) {
	if len(s.Focus) == 0 {
		return part, false
	}
	found, size := focus.Find(s.Picture, s.Options.Mask, cmp.Or(s.Contrast, focus.DefaultOptions())), s.Picture.Bounds().Size()
	var marks []focus.Mark
	for _, p := range s.Focus {
		marks = append(marks, focus.MarkOf(p.At, size))
	}
	answer := found.Of(marks)
	said := wording.SayFocus(found, answer, namesIn(s))
	img := stills.Annotate(painted(paper, "grey", views.Look{}), nil, sheetSmall)
	drawFocus(img, found, answer, marks)
	part = sheet.Part{
		Head: language.Say("Focus: where should the eye go?"), Say: sentences(said.Title, said.Lines), Picture: img, Name: language.Say("Dashes: where it should go"),
	}
	if len(found.Places) > 0 {
		part.Name = language.Say("Dashes: where it should go; ring: the strongest")
	}
	return part, true
}

// drawFocus draws a ring of dashes round each mark, and a whole one, within, round the strongest
// contrast, light with a dark rim.
func drawFocus(img *image.RGBA, found *focus.Found, answer focus.Answer, marks []focus.Mark) {
	const dashes = 12 // of a ring (our choice)
	w, h := float64(img.Rect.Dx()), float64(img.Rect.Dy())
	radius, wide := found.Radius()*max(w, h), max(w, h)/250 // our choice
	mark := ink.Mark{Grey: ink.LightGrey, Rim: wide / 2, RimGrey: ink.DarkGrey}
	for _, m := range marks {
		at := ink.Pt(m.X*w, m.Y*h)
		mark.Lines = append(mark.Lines, ink.Dashes(at, radius, dashes, wide)...)
		mark.Lines = append(mark.Lines, ink.Line{Points: []ink.Point{at, at}, Width: 2 * wide})
	}
	if len(found.Places) > 0 {
		best := found.Places[0]
		if answer.There {
			best = answer.Marks[answer.Strongest].Place
		}
		ring := ink.Ellipse(ink.Pt(best.X*w, best.Y*h), ink.Pt(0.7*radius, 0.7*radius))
		mark.Lines = append(mark.Lines, ink.Line{Points: ring, Closed: true, Width: wide})
	}
	new(ink.Drawer).Draw(img, img.Rect, []ink.Mark{mark})
}

// grewPart shows how the picture grew.
func grewPart(s SheetSubject, _ analysis.Pixels) (part sheet.Part, ok bool) {
	if s.Grew == nil {
		return part, false
	}
	part = sheet.Part{Head: language.Say("How it grew"), Say: append(sentences(s.Grew.Title, s.Grew.More), language.Say("%s. A disc is where a line turned.", s.Grew.About))}
	for _, l := range s.Grew.Lines {
		c := sheet.Chart{Name: l.Name, Colours: l.Colours, First: l.First, Last: l.Last, Turn: l.Turn}
		for _, p := range l.Points {
			c.Points = append(c.Points, sheet.ChartPoint(p))
		}
		part.Charts = append(part.Charts, c)
	}
	return part, true
}
