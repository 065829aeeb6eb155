package widgets

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// spotCardRenderer draws a spot's card.
type spotCardRenderer struct {
	c                  *spotCard
	outline, back      *canvas.Rectangle // the outline is what back leaves of it
	colourBox, greyBox *canvas.Rectangle
	name, Hex          *canvas.Text
	Cross              *canvas.Image
	labels, figures    [len(cardFigures)]*canvas.Text
	note, seen         *canvas.Text
}

func newSpotCardRenderer(c *spotCard) *spotCardRenderer {
	r := &spotCardRenderer{
		c:       c,
		outline: canvas.NewRectangle(nil), back: canvas.NewRectangle(nil),
		colourBox: canvas.NewRectangle(nil), greyBox: canvas.NewRectangle(nil),
		name:  sizedText(TextSize, fyne.TextStyle{Bold: true}),
		Hex:   sizedText(TextSize, fyne.TextStyle{Monospace: true}),
		Cross: canvas.NewImageFromResource(theme.CancelIcon()),
		note:  sizedText(SmallSize, fyne.TextStyle{}),
		seen:  sizedText(SmallSize, fyne.TextStyle{}),
	}
	r.back.CornerRadius, r.outline.CornerRadius = Radius, Radius
	for i := range cardFigures {
		r.labels[i] = sizedText(SmallSize, fyne.TextStyle{})
		r.labels[i].Text = cardFigures[i].name
		r.figures[i] = sizedText(TextSize, fyne.TextStyle{Monospace: true})
	}
	return r
}

func (r *spotCardRenderer) colour() {
	th, v := r.c.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(ColorNamePanel, v)
	fore, quiet := th.Color(theme.ColorNameForeground, v), th.Color(ColorNameQuiet, v)
	r.name.Color, r.Hex.Color, r.note.Color, r.seen.Color = fore, fore, fore, quiet
	for i := range r.labels {
		r.labels[i].Color, r.figures[i].Color = quiet, fore
	}
	line, width := r.back.FillColor, float32(0)
	switch {
	case r.c.focused:
		line, width = th.Color(ColorNameFocusLine, v), FocusWidth
	case r.c.text.Selected:
		line, width = quiet, 1
	}
	if r.outline.FillColor != line {
		r.outline.FillColor = line
		r.outline.Refresh()
	}
	r.back.Move(fyne.NewPos(width, width))
	r.back.Resize(r.c.Size().SubtractWidthHeight(2*width, 2*width))
}

// write puts in what is shown now, and refreshes only what changed.
func (r *spotCardRenderer) write() {
	t := r.c.text
	if t.Lost {
		fill(r.colourBox, color.NRGBA{})
		fill(r.greyBox, color.NRGBA{})
	} else {
		fill(r.colourBox, color.NRGBA{t.Colour.R, t.Colour.G, t.Colour.B, 255})
		fill(r.greyBox, color.NRGBA{t.Grey, t.Grey, t.Grey, 255})
	}
	r.Cross.Hidden = t.Empty
	put(r.name, t.Name)
	put(r.Hex, t.Hex)
	put(r.note, t.Note)
	for i, figure := range cardFigures {
		put(r.figures[i], figure.of(t))
	}
	r.Layout(r.c.Size())
}

// fill gives a box a colour; the same one costs nothing.
func fill(box *canvas.Rectangle, c color.NRGBA) {
	if box.FillColor != c {
		box.FillColor = c
		box.Refresh()
	}
}

// Layout puts the swatches on top, then name and hex, then the figures flush right.
func (r *spotCardRenderer) Layout(size fyne.Size) {
	r.outline.Resize(size)
	r.colour()
	p := planCard(size.Width)
	// The colour lies under the grey too: no gap can open between the two.
	r.colourBox.Move(p.swatch)
	r.colourBox.Resize(fyne.NewSize(p.right-p.swatch.X, SwatchHeight))
	r.greyBox.Move(p.swatch.AddXY(p.half, 0))
	r.greyBox.Resize(fyne.NewSize(p.right-p.swatch.X-p.half, SwatchHeight))
	setLeft(r.name, p.head)
	setRight(r.Hex, p.head)
	r.Cross.Move(p.cross)
	r.Cross.Resize(fyne.NewSquareSize(crossSize))
	for i, at := range p.figures {
		setLeft(r.labels[i], at)
		setRight(r.figures[i], at)
	}
	setLeft(r.note, p.note)
	seen := longestFitting(p.seen.width(), SmallSize, r.c.text.Seen, r.c.text.SeenShort)
	if p.seen == p.note && r.c.text.Note != "" {
		seen = ""
	}
	put(r.seen, seen)
	if p.seen == p.note {
		setLeft(r.seen, p.seen)
	} else {
		setRight(r.seen, p.seen)
	}
}

// setLeft sets a text at the left of a line, setRight at its right, both with their
// letters on its baseline.
func setLeft(t *canvas.Text, at span)  { setOn(t, at.left, at.baseline) }
func setRight(t *canvas.Text, at span) { setOn(t, at.right-t.MinSize().Width, at.baseline) }

func setOn(t *canvas.Text, x, baseline float32) {
	size, ascent := fyne.CurrentApp().Driver().RenderedTextSize(t.Text, t.TextSize, t.TextStyle, nil)
	t.Move(fyne.NewPos(x, float32(math.Round(float64(baseline-ascent)))))
	t.Resize(size)
}

// MinSize has a fixed height at its width, whatever there is to say.
func (r *spotCardRenderer) MinSize() fyne.Size {
	return fyne.NewSize(18*Step, cardHeight(r.c.Size().Width))
}

// Refresh draws with the theme of now.
func (r *spotCardRenderer) Refresh() {
	r.colour()
	r.write()
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn.
func (r *spotCardRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.outline, r.back, r.colourBox, r.greyBox, r.name, r.Hex, r.note, r.seen, r.Cross}
	for i := range r.labels {
		all = append(all, r.labels[i], r.figures[i])
	}
	return all
}

// Destroy has nothing to let go of.
func (r *spotCardRenderer) Destroy() {}
