package sheet

import (
	"image"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/language"
	"app.tonedesk/gui/stills/ink"
)

// Part is one thing that was found in a picture, on the pages behind the first. What is empty is left
// away.
type Part struct {
	Head    string
	Say     []string // sentences; the first stands out
	Picture *image.RGBA
	Name    string // of the picture
	Rows    []FamilyRow
	Charts  []Chart
}

// Chart is a small line over time.
type Chart struct {
	Name    string
	Colours []colour.RGB // before the name
	First   string       // its first figure
	Last    string       // and its last
	Points  []ChartPoint
	Turn    int // where it turned, an index into the points; -1 for nowhere
}

// ChartPoint is a place on a chart: 0 to 1 from left to right and from below to the top. None leads to
// it from the one before where there is a gap.
type ChartPoint struct {
	X, Y float64
	Gap  bool
}

// More lays parts out on pages with the heading of c, as many as it takes; none for no parts.
func More(size Size, c Content, parts []Part) (pages []*Page) {
	b := &builder{size: size, content: c, y: size.H}
	for _, part := range parts {
		b.part(part)
	}
	return b.pages
}

// builder fills one page after another.
type builder struct {
	size    Size
	content Content
	pages   []*Page
	y       float64 // where the next thing begins on the last page
	head    string  // of the part that is begun; "" before it
}

// Measures of the parts, in mm.
const (
	partPicture = 72.0 // the most that a picture is wide
	mostHigh    = 50.0 // and high
	chartHigh   = 7.6
	chartLine   = 34.0 // the width of a chart's line
	chartFigure = 17.0 // and of the figures beside it
	chartSwatch = 3.4
)

func (b *builder) width() float64 { return b.size.W - 2*margin }

// page is the last page, or a new one where so much has no room on it: what goes on there of a part has
// its head again.
func (b *builder) page(high float64) *Page {
	if b.y+high > b.size.H-margin-4 {
		p := &Page{Width: b.size.W, Height: b.size.H}
		p.heading(b.size, b.content)
		b.pages, b.y = append(b.pages, p), margin+headRoom
		if b.head != "" {
			p.head(margin, b.y+4, language.Say("%s, continued", b.head), bodyText+0.6)
			b.y += headHigh
		}
	}
	return b.pages[len(b.pages)-1]
}

// part lays out a part: its head, its picture with the words beside it, rows and charts below.
func (b *builder) part(part Part) {
	b.head = ""
	lines, beside, pic := b.words(part)
	high := max(pic.H, float64(len(lines))*lineHigh)
	p := b.page(headHigh + min(high, b.size.H-2*margin-headRoom-headHigh-8))
	p.head(margin, b.y+4, part.Head, bodyText+0.6)
	b.head, b.y = part.Head, b.y+headHigh
	if part.Picture != nil {
		pic.X, pic.Y = margin, b.y+caption-1
		p.show(part.Picture, pic, part.Name)
	}
	for i, line := range lines {
		grey := uint8(quietGrey)
		if line.first {
			grey = textGrey
		}
		at := b.y + 3.2 + lineHigh*float64(i)
		if at > b.size.H-margin-4 { // which only a hundred sentences are
			break
		}
		p.say(beside, at, line.text, bodyText, grey)
	}
	b.y += high + gap/3
	if part.Picture != nil {
		b.y += caption
	}
	b.rows(part.Rows)
	b.charts(part.Charts)
	b.y += gap / 2
}

// spoken is a line of a part's words.
type spoken struct {
	text  string
	first bool // of the sentence that stands out
}

// words breaks a part's sentences into lines and returns where they begin, and how large its picture is.
func (b *builder) words(part Part) (lines []spoken, beside float64, pic Box) {
	beside = margin
	if part.Picture != nil {
		size := part.Picture.Rect.Size()
		pic = Box{W: partPicture, H: mostHigh}.fit(size.X, size.Y)
		beside = margin + pic.W + gap
	}
	for i, say := range part.Say {
		for _, line := range letters(bodyText).Wrap(say, b.size.W-margin-beside, 1000) {
			lines = append(lines, spoken{line, i == 0})
		}
	}
	return lines, beside, pic
}

// rows lays out rows of swatches, two beside each other.
func (b *builder) rows(list []FamilyRow) {
	wide := (b.width() - gap) / 2
	for i := 0; i < len(list); i += 2 {
		high := 0.0
		for _, f := range list[i:min(i+2, len(list))] {
			high = max(high, new(Page).family(wide, f).high)
		}
		p := b.page(high)
		for k, f := range list[i:min(i+2, len(list))] {
			r := p.family(wide, f)
			r.draw(Box{margin + float64(k)*(wide+gap), b.y, wide, r.high})
		}
		b.y += high
	}
}

// charts lays out charts, two beside each other.
func (b *builder) charts(list []Chart) {
	wide := (b.width() - gap) / 2
	for i := 0; i < len(list); i += 2 {
		p := b.page(chartHigh)
		for k, c := range list[i:min(i+2, len(list))] {
			p.chart(Box{margin + float64(k)*(wide+gap), b.y, wide, chartHigh}, c)
		}
		b.y += chartHigh
	}
}

// chart draws a chart: its name, its first figure, its line, its last figure. From where it turned, a
// disc, the line is stronger.
func (p *Page) chart(b Box, c Chart) {
	foot, x := b.Y+chartHigh-3, b.X
	for _, swatch := range c.Colours {
		p.add(fill{Box{x, foot - 2.8, chartSwatch, chartSwatch}, swatch})
		x += chartSwatch
	}
	if len(c.Colours) > 0 {
		p.frame(Box{b.X, foot - 2.8, x - b.X, chartSwatch})
		x += 1.5
	}
	line := Box{b.right() - chartFigure - chartLine, b.Y + 1.5, chartLine, chartHigh - 3}
	first := ink.Width(ink.Regular, c.First, smallText)
	p.say(line.X-first-1.5, foot, c.First, smallText, quietGrey)
	p.fit(x, foot, line.X-first-3-x, c.Name, bodyText, textGrey)
	p.fit(line.right()+1.5, foot, chartFigure-1.5, c.Last, bodyText, textGrey)
	p.add(rule{ink.Pt(line.X, line.bottom()+0.6), ink.Pt(line.right(), line.bottom()+0.6), 0.15, lineGrey})
	at := func(q ChartPoint) ink.Point { return ink.Pt(line.X+q.X*line.W, line.bottom()-q.Y*line.H) }
	for i := 1; i < len(c.Points); i++ {
		if c.Points[i].Gap {
			continue
		}
		r := rule{at(c.Points[i-1]), at(c.Points[i]), 0.5, textGrey}
		if i <= c.Turn {
			r.width, r.grey = 0.25, quietGrey
		}
		p.add(r)
	}
	if c.Turn >= 0 && c.Turn < len(c.Points) {
		q := at(c.Points[c.Turn])
		p.add(rule{q, q.Plus(ink.Pt(0.01, 0)), 1.8, textGrey})
	}
}
