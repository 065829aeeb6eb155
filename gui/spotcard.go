package gui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
)

// CardText is what a spot's card shows, ready to be drawn.
type CardText struct {
	Name                                     string
	Colour                                   analysis.RGB
	Grey                                     uint8 // of the same lightness
	Hex                                      string
	Lightness, Value, LayerGrey, Chroma, Hue string
	Note                                     string // what is to be known before the figures are trusted
	Seen, SeenShort                          string // a hint on how light the colour looks
	Selected                                 bool
	Lost                                     bool // there is no reading
	Empty                                    bool // there is no spot
}

// SayEmptyCard stands where a spot's card will be, so that nothing moves when it comes.
func SayEmptyCard(name string) CardText {
	t := SayLostCard(name, false)
	t.Note, t.Empty = "", true
	return t
}

// SayLostCard is the card of a spot that lies outside of the picture.
func SayLostCard(name string, selected bool) CardText {
	return CardText{
		Name: name, Hex: unknown, Lightness: unknown, Value: unknown, LayerGrey: unknown, Chroma: unknown, Hue: unknown,
		Note: "outside the picture", Selected: selected, Lost: true,
	}
}

// CardActs are told what the painter does with card i.
type CardActs struct {
	Copy, Select, Delete func(i int)
	Keys                 keySink // gets the keys that a card has no use for
}

// spotCard shows one spot: colour and grey edge to edge, and the figures. A click on it
// selects the spot, one on the hex code copies it, one on the cross deletes the spot.
type spotCard struct {
	widget.BaseWidget
	index   int
	acts    CardActs
	text    CardText
	focused bool
	r       *spotCardRenderer
}

var (
	_ fyne.Focusable     = (*spotCard)(nil)
	_ fyne.Tappable      = (*spotCard)(nil)
	_ fyne.Shortcutable  = (*spotCard)(nil)
	_ desktop.Cursorable = (*spotCard)(nil)
)

func newSpotCard(index int, acts CardActs) *spotCard {
	c := &spotCard{index: index, acts: acts}
	c.ExtendBaseWidget(c)
	return c
}

func (c *spotCard) set(t CardText) {
	if t == c.text {
		return
	}
	c.text = t
	if c.r != nil {
		c.r.write()
	}
}

// Tapped does what the tapped part is for.
func (c *spotCard) Tapped(e *fyne.PointEvent) {
	switch {
	case c.text.Empty:
	case c.r != nil && inside(e.Position, c.r.cross):
		c.acts.Delete(c.index)
	case c.r != nil && !c.text.Lost && inside(e.Position, c.r.hex):
		c.acts.Copy(c.index)
	default:
		c.acts.Select(c.index)
	}
}

// inside reports whether p lies on o, or next to it by four units.
func inside(p fyne.Position, o fyne.CanvasObject) bool {
	at, size := o.Position(), o.Size()
	return p.X >= at.X-4 && p.Y >= at.Y-4 && p.X <= at.X+size.Width+4 && p.Y <= at.Y+size.Height+4
}

// Cursor is the hand: cards are there to be pressed.
func (c *spotCard) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline.
func (c *spotCard) FocusGained() { c.setFocused(true) }

// FocusLost takes it away.
func (c *spotCard) FocusLost() { c.setFocused(false) }

func (c *spotCard) setFocused(focused bool) {
	c.focused = focused
	if c.r != nil {
		c.r.colour()
		c.r.outline.Refresh()
	}
}

// TypedKey copies with Enter or Space and deletes with Delete.
func (c *spotCard) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if !c.text.Lost {
			c.acts.Copy(c.index)
		}
	case fyne.KeyDelete, fyne.KeyBackspace:
		c.acts.Delete(c.index)
	default:
		c.acts.Keys.typedKey(e.Name)
	}
}

// TypedRune goes to the window's keys.
func (c *spotCard) TypedRune(r rune) {
	if r != ' ' {
		c.acts.Keys.typedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (c *spotCard) TypedShortcut(s fyne.Shortcut) { c.acts.Keys.typedShortcut(s) }

// cardRows are the figures, from above: their names and how to find them.
var cardRows = []struct {
	name   string
	figure func(CardText) string
}{
	{"lightness", func(t CardText) string { return t.Lightness }},
	{"value", func(t CardText) string { return t.Value }},
	{"layer grey", func(t CardText) string { return t.LayerGrey }},
	{"chroma, hue", func(t CardText) string { return t.Chroma + ", " + t.Hue }},
}

// Lengths of a card.
const (
	swatchHeight = 5 * Step // 40, the least for a fair comparison
	cardRow      = 2 * Step // height of a line
)

// CreateRenderer makes the canvas objects.
func (c *spotCard) CreateRenderer() fyne.WidgetRenderer {
	r := &spotCardRenderer{c: c}
	r.back, r.outline = canvas.NewRectangle(nil), canvas.NewRectangle(color.Transparent)
	r.back.CornerRadius, r.outline.CornerRadius, r.outline.StrokeWidth = Radius, Radius, FocusWidth
	r.colourBox, r.greyBox = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	text := func(size float32, style fyne.TextStyle) *canvas.Text {
		t := canvas.NewText("", nil)
		t.TextSize, t.TextStyle = size, style
		return t
	}
	r.name = text(TextSize, fyne.TextStyle{Bold: true})
	r.hex = text(TextSize, fyne.TextStyle{Monospace: true})
	r.note, r.seen = text(SmallSize, fyne.TextStyle{}), text(SmallSize, fyne.TextStyle{})
	r.cross = canvas.NewImageFromResource(theme.CancelIcon())
	for i := range cardRows {
		r.labels = append(r.labels, text(SmallSize, fyne.TextStyle{}))
		r.figures = append(r.figures, text(TextSize, fyne.TextStyle{Monospace: true}))
		r.labels[i].Text = cardRows[i].name
	}
	c.r = r
	r.colour()
	r.write()
	return r
}

type spotCardRenderer struct {
	c                  *spotCard
	back, outline      *canvas.Rectangle
	colourBox, greyBox *canvas.Rectangle
	name, hex          *canvas.Text
	note, seen         *canvas.Text
	cross              *canvas.Image
	labels, figures    []*canvas.Text
}

func (r *spotCardRenderer) colour() {
	th, v := r.c.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(ColorNamePanel, v)
	fore, quiet := th.Color(theme.ColorNameForeground, v), th.Color(ColorNameQuiet, v)
	r.name.Color, r.hex.Color, r.note.Color, r.seen.Color = fore, fore, fore, quiet
	for i := range r.labels {
		r.labels[i].Color, r.figures[i].Color = quiet, fore
	}
	r.outline.StrokeColor, r.outline.StrokeWidth = color.Transparent, FocusWidth
	switch {
	case r.c.focused:
		r.outline.StrokeColor = th.Color(ColorNameFocusLine, v)
	case r.c.text.Selected:
		r.outline.StrokeColor, r.outline.StrokeWidth = quiet, 1
	}
	r.cross.Resource = theme.NewThemedResource(theme.CancelIcon())
}

// write puts in what is shown now, and refreshes only what changed.
func (r *spotCardRenderer) write() {
	t := r.c.text
	fill := func(box *canvas.Rectangle, c color.NRGBA) {
		if t.Lost {
			c = color.NRGBA{}
		}
		if box.FillColor != c {
			box.FillColor = c
			box.Refresh()
		}
	}
	fill(r.colourBox, color.NRGBA{t.Colour.R, t.Colour.G, t.Colour.B, 255})
	fill(r.greyBox, color.NRGBA{t.Grey, t.Grey, t.Grey, 255})
	r.cross.Hidden = t.Empty
	put(r.name, t.Name)
	put(r.hex, t.Hex)
	put(r.note, t.Note)
	for i, row := range cardRows {
		put(r.figures[i], row.figure(t))
	}
	r.Layout(r.c.Size())
	before := r.outline.StrokeColor
	r.colour()
	if r.outline.StrokeColor != before {
		r.outline.Refresh()
	}
}

// Layout puts the swatches on top, then name and hex, then the figures flush right.
func (r *spotCardRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	r.outline.Resize(size)
	inner := size.Width - 2*Step
	half := float32(int(inner / 2)) // on a whole unit: the two meet without a gap
	r.colourBox.Move(fyne.NewPos(Step, Step))
	r.colourBox.Resize(fyne.NewSize(half, swatchHeight))
	r.greyBox.Move(fyne.NewPos(Step+half, Step))
	r.greyBox.Resize(fyne.NewSize(inner-half, swatchHeight))
	y := 1.5*Step + swatchHeight
	left := func(t *canvas.Text, y float32) {
		t.Move(fyne.NewPos(Step, y+(cardRow-t.MinSize().Height)/2))
		t.Resize(t.MinSize())
	}
	right := func(t *canvas.Text, y, gap float32) {
		t.Move(fyne.NewPos(size.Width-Step-gap-t.MinSize().Width, y+(cardRow-t.MinSize().Height)/2))
		t.Resize(t.MinSize())
	}
	left(r.name, y)
	right(r.hex, y, 2.5*Step)
	r.cross.Move(fyne.NewPos(size.Width-2.5*Step, y+1))
	r.cross.Resize(fyne.NewSquareSize(1.75 * Step))
	for i := range r.figures {
		y += cardRow
		left(r.labels[i], y)
		right(r.figures[i], y-1, 0)
	}
	left(r.note, y+cardRow)
	put(r.seen, longestFitting(inner, SmallSize, r.c.text.Seen, r.c.text.SeenShort))
	left(r.seen, y+2*cardRow-2)
	if r.c.text.Note == "" {
		left(r.seen, y+cardRow)
	}
}

// MinSize has a fixed height, whatever there is to say.
func (r *spotCardRenderer) MinSize() fyne.Size {
	return fyne.NewSize(18*Step, 2*Step+swatchHeight+(float32(len(cardRows))+2.75)*cardRow)
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
	all := []fyne.CanvasObject{r.back, r.colourBox, r.greyBox, r.name, r.hex, r.note, r.seen, r.cross}
	for i := range r.labels {
		all = append(all, r.labels[i], r.figures[i])
	}
	return append(all, r.outline)
}

// Destroy has nothing to let go of.
func (r *spotCardRenderer) Destroy() {}
