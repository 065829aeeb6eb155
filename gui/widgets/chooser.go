package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
)

// Chooser is a row of words of which one is chosen: it is underlined and stands out, the
// others are quiet. Clicks choose, and the arrow keys do.
type Chooser struct {
	drawn
	focus
	words  []string
	height float32
	chosen int
	choose func(i int)

	back, under, line *canvas.Rectangle
	texts             []*canvas.Text
}

// NewChooser returns a row of words, the first chosen. It calls choose for a word that the
// painter wants; it is chosen only once Set says so.
func NewChooser(words []string, height float32, keys Keys, choose func(i int)) *Chooser {
	c := &Chooser{words: words, height: height, choose: choose}
	c.focus = focus{keys: keys, owner: c, changed: c.redraw}
	c.back, c.under = c.addBox(), c.addBox()
	for range words {
		c.texts = append(c.texts, c.addText(TextSize, fyne.TextStyle{}))
	}
	c.line = add(&c.drawn, newFocusLine(0))
	c.draw(c)
	return c
}

// Set shows which word is chosen; another than those there are leaves none chosen.
func (c *Chooser) Set(chosen int) {
	if chosen != c.chosen {
		c.chosen = chosen
		c.redraw()
	}
}

// Chosen returns which word is chosen.
func (c *Chooser) Chosen() int { return c.chosen }

// ChosenWord returns the word that is chosen; "" if none is.
func (c *Chooser) ChosenWord() string {
	if c.chosen < 0 || c.chosen >= len(c.words) {
		return ""
	}
	return c.words[c.chosen]
}

// Choose is a press of word i.
func (c *Chooser) Choose(i int) { c.choose(i) }

// slot returns where part i of n equal ones lies in a row of this width.
func slot(i, n int, width float32) (x, w float32) {
	from, to := float32(int(width*float32(i)/float32(n))), float32(int(width*float32(i+1)/float32(n)))
	return from, to - from
}

// slots returns where each word begins, and where the last ends: words of these widths have
// equal room or, where that is too little for one, room by their widths.
func slots(words []float32, width float32) []float32 {
	at, equal, spare := make([]float32, len(words)+1), width/float32(len(words)), width
	for _, w := range words {
		spare -= w
	}
	x := float32(0)
	for i, w := range words {
		if x += w + spare/float32(len(words)); slices.Max(words)+Step <= equal {
			x = equal * float32(i+1)
		}
		at[i+1] = float32(int(x + 0.5))
	}
	return at
}

// slots returns where the words begin in a row of this width, and where the last ends.
func (c *Chooser) slots(width float32) []float32 {
	widths := make([]float32, len(c.words))
	for i, word := range c.words {
		widths[i] = fyne.MeasureText(word, TextSize, fyne.TextStyle{}).Width
	}
	return slots(widths, width)
}

// Tapped chooses the word under the pointer.
func (c *Chooser) Tapped(e *fyne.PointEvent) {
	at := c.slots(c.Size().Width)
	for i := range c.words {
		if e.Position.X >= at[i] && e.Position.X < at[i+1] {
			c.choose(i)
			return
		}
	}
}

// Cursor is the hand: the words are there to be pressed.
func (c *Chooser) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey goes from word to word with the arrows.
func (c *Chooser) TypedKey(e *fyne.KeyEvent) {
	step := arrows[e.Name].X
	if step == 0 {
		c.keys.TypedKey(e.Name)
	} else if next := c.chosen + step; next >= 0 && next < len(c.words) {
		c.choose(next)
	}
}

// write makes the chosen word stand out.
func (c *Chooser) write(_ fyne.Size, of colours) {
	fill(c.back, of(ColorNamePanel))
	fill(c.under, of(ColorNameFocusLine))
	showFocus(c.line, c.focused, of)
	show(c.under, c.ChosenWord() != "")
	for i, t := range c.texts {
		ink := of(ColorNameQuiet)
		if i == c.chosen {
			ink = of(theme.ColorNameForeground)
		}
		say(t, c.words[i], ink)
	}
}

// underHeight is the height of the line under the chosen word.
const underHeight = 3

// place centres every word in its room.
func (c *Chooser) place(size fyne.Size) {
	c.back.Resize(size)
	c.line.Resize(size)
	at := c.slots(size.Width)
	for i, t := range c.texts {
		x, w := at[i], at[i+1]-at[i]
		text := t.MinSize()
		placeText(t, x+(w-text.Width)/2, (size.Height-text.Height)/2)
		if i == c.chosen {
			wide := min(text.Width+2*Step, w-Step)
			put(c.under, fyne.NewPos(x+(w-wide)/2, size.Height-underHeight-2), fyne.NewSize(wide, underHeight))
		}
	}
}

// minSize keeps the words apart.
func (c *Chooser) minSize() fyne.Size {
	var sum float32
	for _, t := range c.texts {
		sum += t.MinSize().Width + Step
	}
	return fyne.NewSize(sum, c.height)
}
