package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// GrowthCard says how a picture grew, and shows each figure as a small line over time: what it was
// before and after, and a disc where it turned, from which on the line is stronger.
type GrowthCard struct {
	drawn
	text wording.GrowthText

	lines  []*canvas.Text // as many as there ever were
	rows   []growthRowLook
	charts *canvas.Raster // under all rows
	plan   growthPlan     // as it was written last
}

// growthRowLook is what is drawn of a row beside its line.
type growthRowLook struct {
	name, first, last *canvas.Text
	swatches          [2]*canvas.Rectangle
}

// NewGrowthCard returns a card that says nothing as yet.
func NewGrowthCard() *GrowthCard {
	c := &GrowthCard{}
	c.charts = add(&c.drawn, canvas.NewRaster(c.paintCharts))
	c.draw(c)
	return c
}

// Set shows t; the same once more costs nothing.
func (c *GrowthCard) Set(t wording.GrowthText) {
	if !t.Equal(c.text) {
		c.text = t
		c.redraw()
		c.charts.Refresh()
	}
}

// Text returns what is shown.
func (c *GrowthCard) Text() wording.GrowthText { return c.text }

// Lengths of the rows, beside the text's own.
const (
	growthSwatch    = 12 // side of a swatch
	leastGrowthLine = 72 // of a line; where it had less, its name stands above it
)

// growthHigh is the height of a line.
func growthHigh() float32 { return round(24 * textScale()) }

// growthPlan is where everything lies in a card of a width.
type growthPlan struct {
	lines  []string // of words, those in the text's size first
	full   int      // how many are
	over   int      // how many stand over the rows, the others under them
	under  float32  // where these begin
	rows   []growthRow
	height float32
}

// growthRow is a row: its name with or without swatches, its figures, and its line between them.
type growthRow struct {
	name        string
	nameAt      fyne.Position
	swatches    rect // both; none where w is 0
	first, last span // beside the line
	line        rect
}

// planGrowth lays out what t says in a width.
func planGrowth(t wording.GrowthText, width float32) growthPlan {
	var p growthPlan
	p.lines = brokenLines(wording.Stopped(wording.Capitalised(t.Title)), width, math.MaxInt, textWidth)
	p.full = len(p.lines)
	small := func(words string) {
		p.lines = append(p.lines, brokenLines(wording.Stopped(wording.Capitalised(words)), width, math.MaxInt, smallWidth)...)
	}
	small(t.About)
	p.over = len(p.lines)
	p.height = float32(p.full)*lightLine() + float32(p.over-p.full)*quietLine() + Step/2
	var names, firsts, lasts float32
	for i := range t.Lines {
		l := &t.Lines[i]
		names = max(names, smallWidth(l.Name)+swatchesWide(l))
		firsts, lasts = max(firsts, smallWidth(l.First)), max(lasts, smallWidth(l.Last))
	}
	beside := names + Step
	room := width - firsts - lasts - 2*Step
	above := room-beside < leastGrowthLine
	if above {
		beside = 0
	}
	for i := range t.Lines {
		p.rows = append(p.rows, p.row(&t.Lines[i], width, [3]float32{beside, firsts, lasts}, above))
	}
	for _, words := range t.More {
		small(words)
	}
	p.under = p.height + Step/2
	p.height = p.under + float32(len(p.lines)-p.over)*quietLine()
	return p
}

// swatchesWide is what the swatches of a line take before its name.
func swatchesWide(l *wording.GrowthLine) float32 {
	if len(l.Colours) < 2 {
		return 0
	}
	return 2*growthSwatch + Step/2
}

// row lays out the next row: wide are its columns, that before the line, the first figure's and the
// last one's.
func (p *growthPlan) row(l *wording.GrowthLine, width float32, wide [3]float32, above bool) growthRow {
	r := growthRow{name: cutTo(l.Name, width-swatchesWide(l))}
	high := growthHigh()
	y := p.height
	nameHigh := high
	if above {
		nameHigh = quietLine()
		p.height += nameHigh
	}
	baseline := p.height + (high+lineHigh(SmallSize()))/2 - round(lineHigh(SmallSize())/4)
	r.nameAt = fyne.NewPos(swatchesWide(l), y+(nameHigh-lineHigh(SmallSize()))/2)
	if swatchesWide(l) > 0 {
		r.swatches = rect{0, y + round((nameHigh-growthSwatch)/2), 2 * growthSwatch, growthSwatch}
	}
	r.first = span{wide[0], wide[0] + wide[1], baseline}
	r.last = span{width - wide[2], width, baseline}
	from := wide[0] + wide[1] + Step
	r.line = rect{from, p.height + 2, width - wide[2] - Step - from, high - 4}
	p.height += high
	return r
}

func (c *GrowthCard) write(size fyne.Size, of colours) {
	c.plan = planGrowth(c.text, size.Width)
	p := &c.plan
	for len(c.lines) < len(p.lines) {
		c.lines = append(c.lines, c.addText(TextSize, fyne.TextStyle{}))
	}
	for i, line := range c.lines {
		ink := ColorNameQuiet
		line.TextSize = SmallSize()
		if i < p.full {
			line.TextSize, ink = TextSize(), theme.ColorNameForeground
		}
		say(line, nth(p.lines, i), of(ink))
	}
	for len(c.rows) < len(p.rows) {
		small := func() *canvas.Text { return c.addText(SmallSize, fyne.TextStyle{}) }
		c.rows = append(c.rows, growthRowLook{small(), small(), small(), [2]*canvas.Rectangle{c.addBox(), c.addBox()}})
	}
	for i, r := range c.rows {
		l := nth(c.text.Lines, i)
		say(r.name, nth(p.rows, i).name, of(theme.ColorNameForeground))
		say(r.first, l.First, of(ColorNameQuiet))
		say(r.last, l.Last, of(theme.ColorNameForeground))
		for k, box := range r.swatches {
			show(box, i < len(p.rows) && len(l.Colours) == 2)
			if len(l.Colours) == 2 {
				fill(box, rgbFill(l.Colours[k]))
			}
		}
	}
}

func (c *GrowthCard) place(size fyne.Size) {
	p := planGrowth(c.text, size.Width)
	y := float32(0)
	for i, line := range c.lines {
		if i == p.over {
			y = p.under
		}
		placeText(line, 0, y)
		if y += quietLine(); i < p.full {
			y += lightLine() - quietLine()
		}
	}
	for i, r := range c.rows {
		at := nth(p.rows, i)
		placeText(r.name, at.nameAt.X, at.nameAt.Y)
		setRight(r.first, at.first)
		setRight(r.last, at.last)
		for k, box := range r.swatches {
			put(box, fyne.NewPos(at.swatches.x+float32(k)*at.swatches.w/2, at.swatches.y), fyne.NewSize(at.swatches.w/2, at.swatches.h))
		}
	}
	put(c.charts, fyne.Position{}, fyne.NewSize(size.Width, p.height))
}

// minSize is as high as its words in the width of now.
func (c *GrowthCard) minSize() fyne.Size {
	const least = 30 * Step
	return fyne.NewSize(least, planGrowth(c.text, max(c.Size().Width, least)).height)
}
