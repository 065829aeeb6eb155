package widgets

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// SourceText is what the source chip says.
type SourceText struct {
	Icon  icons.Name // of the source's kind
	Name  string     // cut where it finds no room
	Sign  Sign       // how the source does, as a shape
	State [3]string  // the same in words: with the picture's size, without, and in a word
}

// SourceChip says what is watched and how it does; pressed, it opens the menu of sources. Its width
// never follows its words.
type SourceChip struct {
	drawn
	explained
	OnTapped func()

	text                SourceText
	wide                bool // there is room for the picture's size
	back, line          *canvas.Rectangle
	icon, list          *canvas.Image
	sign                *canvas.Raster
	ink                 color.RGBA // of the sign
	nameText, stateText *canvas.Text
}

// NewSourceChip returns a chip that waits for its source.
func NewSourceChip(keys Keys) *SourceChip {
	c := &SourceChip{text: SourceText{Sign: SignWaiting}}
	c.focus = focus{keys: keys, owner: c, changed: c.redraw}
	c.back, c.icon, c.list = add(&c.drawn, newPanelBox()), c.addIcon(), c.addIcon()
	c.sign = add(&c.drawn, canvas.NewRaster(func(w, h int) image.Image { return drawSign(c.text.Sign, w, h, c.ink) }))
	c.nameText, c.stateText = c.addText(TextSize, fyne.TextStyle{}), c.addText(SmallSize, fyne.TextStyle{})
	c.line = add(&c.drawn, newFocusLine(Radius+FocusGap))
	c.draw(c)
	return c
}

// Set shows a source; the same costs nothing.
func (c *SourceChip) Set(t SourceText) {
	if t == c.text {
		return
	}
	was := c.text
	c.text = t
	c.redraw()
	if t.Sign != was.Sign { // else an age that a narrow window doesn't show would have all of it drawn
		c.sign.Refresh()
	}
}

// Text returns what is shown.
func (c *SourceChip) Text() SourceText { return c.text }

// Explain gives the chip a tip.
func (c *SourceChip) Explain(tips *Tips, words string) { c.tips, c.tip = tips, words }

// Tip returns it.
func (c *SourceChip) Tip() string { return c.tip }

// Below is where the menu of sources opens.
func (c *SourceChip) Below() fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(c).AddXY(0, c.Size().Height)
}

// Tapped opens the menu.
func (c *SourceChip) Tapped(*fyne.PointEvent) {
	c.tips.Leave()
	if c.OnTapped != nil {
		c.OnTapped()
	}
}

// TypedKey opens it with Space and Enter.
func (c *SourceChip) TypedKey(e *fyne.KeyEvent) {
	c.tips.Leave()
	if presses(e) {
		c.Tapped(nil)
	} else {
		c.keys.TypedKey(e.Name)
	}
}

// Lengths of the chip, at the text's plain size.
const (
	signSide    = 8
	chipIconGap = 4
	signGap     = 4
	chipEnd     = 2
	chipRaised  = 3   // by how much the arrow is over the middle: the state has its line's whole width
	chipBare    = 100 // under this width there are no pictograms (our choice: words come first)
)

// lefts are where the name and the words of the state begin.
func (c *SourceChip) lefts(width float32) (icon, name, state float32) {
	icon = Step
	name = icon
	if width >= chipBare*textScale() {
		name += IconSize() + chipIconGap
	}
	return icon, name, name + round(signSide*textScale()) + signGap
}

// write puts in the longest words that fit.
func (c *SourceChip) write(size fyne.Size, of colours) {
	back, quiet := theme.ColorNameInputBackground, ColorNameQuiet
	if c.pointed {
		back, quiet = ColorNameRaised, ColorNameQuietRaised
	}
	fillEdged(c.back, back, of)
	showFocus(c.line, c.focused, of)
	icon, name, state := c.lefts(size.Width)
	kind := c.text.Icon
	if name == icon {
		kind = ""
	}
	picture(c.icon, kind, theme.ColorNameForeground)
	below := size.Width - Step/2 // where the state ends: below the arrow
	list, end := icons.OpenList, size.Width-SmallIcon()-2*chipEnd
	if name == icon {
		list, end = "", below
	}
	picture(c.list, list, ColorNameQuiet)
	if ink := color.RGBAModel.Convert(of(theme.ColorNameForeground)).(color.RGBA); ink != c.ink {
		c.ink = ink
		c.sign.Refresh()
	}
	words := c.text.State[:]
	if !c.wide {
		words = words[1:]
	}
	say(c.nameText, cutWords(c.text.Name, end-name, textWidth), of(theme.ColorNameForeground))
	says := longestFitting(below-state, SmallSize(), words...)
	c.stateText.TextSize = fittingSize(says, SmallSize(), max(below-state, 0))
	say(c.stateText, says, of(quiet))
}

// place stands name and state below each other, right of the pictogram.
func (c *SourceChip) place(size fyne.Size) {
	c.back.Resize(size)
	putAround(c.line, fyne.Position{}, size)
	icon, name, state := c.lefts(size.Width)
	put(c.icon, fyne.NewPos(icon, (size.Height-IconSize())/2), fyne.NewSquareSize(IconSize()))
	small := SmallIcon()
	put(c.list, fyne.NewPos(size.Width-small-chipEnd, (size.Height-small)/2-chipRaised*textScale()), fyne.NewSquareSize(small))
	middle, first, second := size.Height/2, c.nameText.MinSize().Height, c.stateText.MinSize().Height
	placeText(c.nameText, name, middle-first+1)
	y := middle - 1
	placeText(c.stateText, state, y)
	side := round(signSide * textScale())
	put(c.sign, fyne.NewPos(name, round(y+(second-side)/2)), fyne.NewSquareSize(side))
}

func (c *SourceChip) minSize() fyne.Size { return fyne.NewSize(0, Row()) }
