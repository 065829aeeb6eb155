package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// pairCard shows two spots side by side, colours above and greys below, edge to edge, and right
// of them their figures with the differences.
type pairCard struct {
	drawn
	state SpotsState

	back, hairline *canvas.Rectangle
	sides          [2]*pairSide
	heads          [3]*canvas.Text
	labels         [len(pairLabels)]*canvas.Text
	figures        [len(pairLabels)][3]*canvas.Text
	remark         *canvas.Text
}

func newPairCard(acts SpotActs) *pairCard {
	c := &pairCard{}
	c.back, c.hairline = add(&c.drawn, newPanelBox()), c.addBox()
	for i := range c.sides {
		c.sides[i] = add(&c.drawn, newPairSide(i, acts))
	}
	for i := range c.heads {
		c.heads[i] = c.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range c.labels {
		c.labels[i] = c.addText(SmallSize, fyne.TextStyle{})
		for j := range c.figures[i] {
			c.figures[i][j] = c.addText(TextSize, fyne.TextStyle{})
		}
	}
	c.remark = c.addText(SmallSize, fyne.TextStyle{})
	c.draw(c)
	return c
}

// set shows the first two spots.
func (c *pairCard) set(state SpotsState) {
	c.state = state
	c.redraw()
}

// plan is the card's in a size: low where it is lower than it would like to be.
func (c *pairCard) plan(size fyne.Size) pairPlan {
	p := planPair(size.Width, textScale(), false, plainWidth)
	if size.Height < p.height {
		return planPair(size.Width, textScale(), true, plainWidth)
	}
	return p
}

// figuresOf lists the figures of a spot, or of the differences, by the rows.
func figuresOf(t wording.FigureText) [len(pairLabels)]string {
	return [...]string{t.Lightness, t.Value, t.LayerGrey, t.Chroma, t.Hue}
}

func (c *pairCard) write(size fyne.Size, of colours) {
	p, fore, quiet := c.plan(size), of(theme.ColorNameForeground), of(ColorNameQuiet)
	fillEdged(c.back, ColorNamePanel, of)
	fill(c.hairline, of(ColorNameHairline))
	a, b := nth(c.state.Texts, 0), nth(c.state.Texts, 1)
	c.sides[0].set(a, p)
	c.sides[1].set(b, p)
	for i, words := range []string{a.Name, b.Name, b.Name + " − " + a.Name} {
		c.heads[i].TextSize = 12 * p.scale
		say(c.heads[i], words, quiet)
	}
	columns := [3][len(pairLabels)]string{figuresOf(a.FigureText), figuresOf(b.FigureText), figuresOf(c.state.Differences)}
	for i := range c.labels {
		there := i < p.figures
		c.labels[i].TextSize = 12 * p.scale
		say(c.labels[i], p.label(i), quiet)
		show(c.labels[i], there)
		for j, figure := range c.figures[i] {
			figure.TextSize = 13 * p.scale
			say(figure, columns[j][i], fore)
			show(figure, there)
		}
	}
	c.remark.TextSize = 12 * p.scale
	remark := ""
	if p.remark.width() > 0 {
		remark = cutTo(c.state.Remark, p.remark.width())
	}
	say(c.remark, remark, quiet)
}

// place puts figures flush right in their columns.
func (c *pairCard) place(size fyne.Size) {
	p := c.plan(size)
	c.back.Resize(size)
	put(c.hairline, fyne.NewPos(Step-1, p.top-1), fyne.NewSize(2*p.column+2, 2*p.half+2))
	for i, side := range c.sides {
		put(side, fyne.NewPos(Step+float32(i)*p.column, 0), fyne.NewSize(p.column, p.foot))
	}
	for i, head := range c.heads {
		setRight(head, span{right: p.ends[i], baseline: p.heads})
	}
	for i, y := range p.rows {
		setLeft(c.labels[i], span{left: p.labels, baseline: y})
		for j, figure := range c.figures[i] {
			setRight(figure, span{right: p.ends[j], baseline: y})
		}
	}
	setLeft(c.remark, p.remark)
}

// heightWithin is the height that the card takes of a room of this size: its own, or the low
// card's.
func (c *pairCard) heightWithin(width, room float32) float32 {
	if full := planPair(width, textScale(), false, plainWidth).height; full <= room {
		return full
	}
	return planPair(width, textScale(), true, plainWidth).height
}
