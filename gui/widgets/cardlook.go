package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// spotCardLook draws a spot's card.
type spotCardLook struct {
	c                  *spotCard
	panel              edgedPanel
	colourBox, greyBox *canvas.Rectangle
	name, hex          *canvas.Text
	cross              *canvas.Image
	labels, figures    [len(cardFigures)]*canvas.Text
	note, seen         *canvas.Text
}

func newSpotCardLook(c *spotCard) *spotCardLook {
	l := &spotCardLook{
		c: c, panel: newEdgedPanel(),
		colourBox: canvas.NewRectangle(nil), greyBox: canvas.NewRectangle(nil),
		name:  sizedText(TextSize, fyne.TextStyle{Bold: true}),
		hex:   sizedText(TextSize, fyne.TextStyle{Monospace: true}),
		cross: canvas.NewImageFromResource(theme.CancelIcon()),
		note:  sizedText(SmallSize, fyne.TextStyle{}),
		seen:  sizedText(SmallSize, fyne.TextStyle{}),
	}
	for i := range cardFigures {
		l.labels[i] = sizedText(SmallSize, fyne.TextStyle{})
		l.figures[i] = sizedText(TextSize, fyne.TextStyle{Monospace: true})
	}
	return l
}

func (l *spotCardLook) objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{l.panel.edge, l.panel.inside, l.colourBox, l.greyBox, l.name, l.hex, l.note, l.seen, l.cross}
	return append(append(all, objectsOf(l.labels[:]...)...), objectsOf(l.figures[:]...)...)
}

// write puts in what is shown now.
func (l *spotCardLook) write(size fyne.Size, of colours) {
	t, fore, quiet := l.c.text, of(theme.ColorNameForeground), of(ColorNameQuiet)
	switch {
	case l.c.focused:
		l.panel.write(of, of(ColorNameFocusLine), FocusWidth)
	case t.Selected:
		l.panel.write(of, quiet, 1)
	default:
		l.panel.write(of, of(ColorNamePanel), 0)
	}
	show(l.colourBox, !t.Lost)
	show(l.greyBox, !t.Lost)
	show(l.cross, !t.Empty)
	fill(l.colourBox, rgbFill(t.Colour))
	fill(l.greyBox, greyFill(t.Grey))
	say(l.name, t.Name, fore)
	say(l.hex, t.Hex, fore)
	say(l.note, t.Note, fore)
	for i, figure := range cardFigures {
		say(l.labels[i], figure.name, quiet)
		say(l.figures[i], figure.of(t), fore)
	}
	p := planCard(size.Width)
	seen := longestFitting(p.seen.width(), SmallSize, t.Seen, t.SeenShort)
	if p.seen == p.note && t.Note != "" {
		seen = ""
	}
	say(l.seen, seen, quiet)
}

// place puts the swatches on top, then name and hex, then the figures flush right.
func (l *spotCardLook) place(size fyne.Size) {
	l.panel.place(size)
	p := planCard(size.Width)
	// The colour lies under the grey too: no gap can open between the two.
	put(l.colourBox, p.swatch, fyne.NewSize(p.right-p.swatch.X, SwatchHeight))
	put(l.greyBox, p.swatch.AddXY(p.half, 0), fyne.NewSize(p.right-p.swatch.X-p.half, SwatchHeight))
	setLeft(l.name, p.head)
	setRight(l.hex, p.head)
	put(l.cross, p.cross, fyne.NewSquareSize(crossSize))
	for i, at := range p.figures {
		setLeft(l.labels[i], at)
		setRight(l.figures[i], at)
	}
	setLeft(l.note, p.note)
	if p.seen == p.note {
		setLeft(l.seen, p.seen)
	} else {
		setRight(l.seen, p.seen)
	}
}

// minSize has a fixed height at its width, whatever there is to say.
func (l *spotCardLook) minSize() fyne.Size {
	return fyne.NewSize(18*Step, cardHeight(l.c.Size().Width))
}
