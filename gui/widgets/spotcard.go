package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// CardActs are the callbacks for what the painter does with card i.
type CardActs struct {
	Copy, Select, Delete func(i int)
	Keys                 Keys  // gets the keys that a card has no use for
	Tips                 *Tips // says what the parts of a card are for
}

// spotCard shows one spot: colour and grey edge to edge, and the figures. A click on it
// selects the spot, one on the hex code copies it, one on the cross deletes the spot.
type spotCard struct {
	drawn
	focus
	index int
	acts  CardActs
	text  wording.CardText

	panel              edgedPanel
	colourBox, greyBox *canvas.Rectangle
	name, hex          *canvas.Text
	cross              *canvas.Image
	labels, figures    [len(cardFigures)]*canvas.Text
	note, seen         *canvas.Text
}

func newSpotCard(index int, acts CardActs) *spotCard {
	c := &spotCard{index: index, acts: acts}
	c.focus = focus{keys: acts.Keys, owner: c, changed: c.redraw}
	c.panel = newEdgedPanel(&c.drawn)
	c.colourBox, c.greyBox = c.addBox(), c.addBox()
	c.name, c.hex = c.addText(TextSize, fyne.TextStyle{Bold: true}), c.addText(TextSize, fyne.TextStyle{Monospace: true})
	c.note, c.seen = c.addText(SmallSize, fyne.TextStyle{}), c.addText(SmallSize, fyne.TextStyle{})
	c.cross = add(&c.drawn, canvas.NewImageFromResource(theme.CancelIcon()))
	for i := range cardFigures {
		c.labels[i], c.figures[i] = c.addText(SmallSize, fyne.TextStyle{}), c.addText(TextSize, fyne.TextStyle{Monospace: true})
	}
	c.draw(c)
	return c
}

func (c *spotCard) set(t wording.CardText) {
	if t != c.text {
		c.text = t
		c.redraw()
	}
}

// Tapped does what the tapped part is for.
func (c *spotCard) Tapped(e *fyne.PointEvent) {
	switch {
	case c.text.Empty:
	case inside(e.Position, c.cross):
		c.acts.Delete(c.index)
	case !c.text.Lost && inside(e.Position, c.hex):
		c.acts.Copy(c.index)
	default:
		c.acts.Select(c.index)
	}
}

// inside reports whether p lies on o, or next to it within reach.
func inside(p fyne.Position, o fyne.CanvasObject) bool {
	return within(p, o.Position(), o.Size(), reach)
}

// What the tips say of a card's parts.
const (
	hexTip   = "Copy the code (Enter)"
	crossTip = "Delete the spot (Delete)"
)

// MouseIn is MouseMoved.
func (c *spotCard) MouseIn(e *desktop.MouseEvent) { c.MouseMoved(e) }

// MouseMoved lets the tip come of the part under the pointer.
func (c *spotCard) MouseMoved(e *desktop.MouseEvent) {
	switch {
	case c.text.Empty:
	case inside(e.Position, c.cross):
		c.acts.Tips.enter(crossTip, c.cross)
	case inside(e.Position, c.hex) && !c.text.Lost:
		c.acts.Tips.enter(hexTip, c.hex)
	default:
		c.acts.Tips.Leave()
	}
}

// MouseOut lets the tip go.
func (c *spotCard) MouseOut() { c.acts.Tips.Leave() }

// Cursor is the hand: cards are there to be pressed.
func (c *spotCard) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey copies with Enter or Space and deletes with Delete.
func (c *spotCard) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		if !c.text.Lost {
			c.acts.Copy(c.index)
		}
	case deletes(e):
		c.acts.Delete(c.index)
	default:
		c.keys.TypedKey(e.Name)
	}
}

func (c *spotCard) write(size fyne.Size, of colours) {
	t, fore, quiet := c.text, of(theme.ColorNameForeground), of(ColorNameQuiet)
	c.panel.write(of, c.focused, t.Selected)
	show(c.colourBox, !t.Lost)
	show(c.greyBox, !t.Lost)
	show(c.cross, !t.Empty)
	fill(c.colourBox, rgbFill(t.Colour))
	fill(c.greyBox, greyFill(t.Grey))
	say(c.name, t.Name, fore)
	say(c.hex, t.Hex, fore)
	say(c.note, t.Note, fore)
	for i, figure := range cardFigures {
		say(c.labels[i], figure.name, quiet)
		say(c.figures[i], figure.of(t), fore)
	}
	p := planCard(size.Width)
	seen := longestFitting(p.seen.width(), SmallSize, t.Seen, t.SeenShort)
	if p.seen == p.note && t.Note != "" {
		seen = ""
	}
	say(c.seen, seen, quiet)
}

// place puts the swatches on top, then name and hex, then the figures flush right.
func (c *spotCard) place(size fyne.Size) {
	c.panel.place(size)
	p := planCard(size.Width)
	// The colour lies under the grey too: no gap can open between the two.
	put(c.colourBox, p.swatch, fyne.NewSize(p.right-p.swatch.X, SwatchHeight))
	put(c.greyBox, p.swatch.AddXY(p.half, 0), fyne.NewSize(p.right-p.swatch.X-p.half, SwatchHeight))
	setLeft(c.name, p.head)
	setRight(c.hex, p.head)
	put(c.cross, p.cross, fyne.NewSquareSize(crossSize))
	for i, at := range p.figures {
		setLeft(c.labels[i], at)
		setRight(c.figures[i], at)
	}
	setLeft(c.note, p.note)
	if p.seen == p.note {
		setLeft(c.seen, p.seen)
	} else {
		setRight(c.seen, p.seen)
	}
}

// minSize has a fixed height at its width, whatever there is to say.
func (c *spotCard) minSize() fyne.Size {
	return fyne.NewSize(18*Step, cardHeight(c.Size().Width))
}
