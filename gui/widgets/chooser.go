package widgets

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Chooser is a row of words or pictograms of which one is chosen: it stands out and has a bar at
// its foot, the others are quiet. Clicks choose, and the arrow keys do.
type Chooser struct {
	drawn
	focus
	choices []Choice
	tabs    bool
	size    float32 // of its words
	chosen  int
	choose  func(i int)
	tips    *Tips
	brief   bool                                   // pictograms stand for the words where these find no room
	off     map[int]string                         // why choices can't be chosen now
	open    func(rows []MenuRow, at fyne.Position) // of the list that stands for the row; nil: there is none

	back, under, foot, line *canvas.Rectangle
	arrow                   *canvas.Image // of the list
	texts                   []*canvas.Text
	pictures                []*canvas.Image
}

// Choice is one of those in a chooser: a word, a pictogram, or both. Where a pictogram stands alone
// the tip says what it is.
type Choice struct {
	Word  string
	Short string // stands for the word where the row has too little room; "" for none
	Icon  icons.Name
	Tip   string
}

// NewChooser returns a row of words, the first chosen. It calls choose for a word that the
// painter wants; it is chosen only once Set says so.
func NewChooser(words []string, keys Keys, choose func(i int)) *Chooser {
	choices := make([]Choice, len(words))
	for i, w := range words {
		choices[i].Word = w
	}
	return NewChoices(choices, nil, keys, choose)
}

// NewTabs returns a chooser as the tabs of pages look: on a panel, the open one bold.
func NewTabs(words []string, keys Keys, choose func(i int)) *Chooser {
	c := NewChooser(words, keys, choose)
	c.tabs = true
	for i := range c.texts {
		c.texts[i].TextStyle.Bold = i == c.chosen
	}
	return c
}

// NewChoices is NewChooser with pictograms, explained by tips.
func NewChoices(choices []Choice, tips *Tips, keys Keys, choose func(i int)) *Chooser {
	c := &Chooser{choices: choices, choose: choose, tips: tips}
	c.focus = focus{keys: keys, owner: c, changed: c.redraw}
	c.back, c.under, c.foot = add(&c.drawn, newPanelBox()), add(&c.drawn, newPanelBox()), c.addBox()
	for range choices {
		c.texts, c.pictures = append(c.texts, c.addText(TextSize, fyne.TextStyle{})), append(c.pictures, c.addIcon())
	}
	c.arrow = c.addIcon()
	c.line = add(&c.drawn, newFocusLine(Radius+FocusGap))
	c.size = TextSize()
	c.draw(c)
	return c
}

// NewBrief is NewChoices whose words give way to their pictograms where they find no room.
func NewBrief(choices []Choice, tips *Tips, keys Keys, choose func(i int)) *Chooser {
	c := NewChoices(choices, tips, keys, choose)
	c.brief = true
	c.redraw()
	return c
}

// Set shows which word is chosen; another than those there are leaves none chosen.
func (c *Chooser) Set(chosen int) {
	if chosen != c.chosen {
		c.chosen = chosen
		c.redraw()
	}
}

// SetOff says why choice i can't be chosen now, which a press explains too; "" where it can.
func (c *Chooser) SetOff(i int, why string) {
	if c.off[i] == why {
		return
	}
	if c.off == nil {
		c.off = map[int]string{}
	}
	c.off[i] = why
	c.redraw()
}

// Off returns why choice i can't be chosen now; "" where it can.
func (c *Chooser) Off(i int) string { return c.off[i] }

// Rests reports whether a part shows a choice that can't be chosen now.
func (c *Chooser) Rests(part fyne.CanvasObject) bool {
	for i, t := range c.texts {
		if fyne.CanvasObject(t) == part {
			return c.off[i] != ""
		}
	}
	return false
}

// Chosen returns which word is chosen.
func (c *Chooser) Chosen() int { return c.chosen }

// Word returns that of choice i.
func (c *Chooser) Word(i int) string { return nth(c.choices, i).Word }

// ChosenWord returns the word that is chosen; "" if none is.
func (c *Chooser) ChosenWord() string { return c.Word(c.chosen) }

// Choose is a press of word i.
func (c *Chooser) Choose(i int) { c.choose(i) }

// slots returns where each word begins, and where the last ends: words of these widths have
// equal room or, where that is too little for one, room by their widths, but for each enough to be
// hit, while there is.
func slots(words []float32, width float32) []float32 {
	n := float32(len(words))
	at, equal := make([]float32, len(words)+1), width/n
	least := min(Row(), equal)
	if needed(words, least) > width { // the longest would lie over its neighbours: what a pen hits is enough
		least = min(4*Step, equal)
	}
	rooms := roomsByWidth(words, width, least)
	x := float32(0)
	for i := range words {
		if x += rooms[i]; slices.Max(words)+Step <= equal {
			x = equal * float32(i+1)
		}
		at[i+1] = float32(int(x + 0.5))
	}
	return at
}

// needed is the width of words of which each has its own, but at least so much.
func needed(words []float32, least float32) (sum float32) {
	for _, w := range words {
		sum += max(w, least)
	}
	return sum
}

// roomsByWidth gives each word its width and an equal part of what is left, but at least so much.
func roomsByWidth(words []float32, width, least float32) []float32 {
	rooms, narrow := make([]float32, len(words)), make([]bool, len(words))
	for again := true; again; {
		again = false
		spare, wide := width, float32(0)
		for i, w := range words {
			if narrow[i] {
				spare -= least
			} else {
				spare, wide = spare-w, wide+1
			}
		}
		for i, w := range words {
			if narrow[i] {
				continue
			}
			rooms[i] = w + spare/wide
			if rooms[i] < least {
				rooms[i], narrow[i], again = least, true, true
			}
		}
	}
	return rooms
}

// inner is how far the choices are from the edge of the row.
func (c *Chooser) inner() float32 {
	if c.tabs {
		return 0
	}
	return segmentGap
}

// segmentGap is around the chosen one of a row that is no row of tabs.
const segmentGap = 2

// slots returns where the choices begin in a row of this width, and where the last ends.
func (c *Chooser) slots(width float32) []float32 {
	widths := make([]float32, len(c.choices))
	for i := range c.choices {
		widths[i] = c.width(c.shown(i, width), i) + Step/2 // they never touch
	}
	at := slots(widths, width-2*c.inner())
	for i := range at {
		at[i] += c.inner()
	}
	return at
}

// shown is what is shown of choice i in a row of this width: of a brief one a word or a pictogram.
func (c *Chooser) shown(i int, width float32) Choice {
	of := c.choices[i]
	switch {
	case c.brief && width < c.wish():
		of.Word = ""
	case c.brief:
		of.Icon = ""
	case of.Short != "" && width < c.wish()+Step*float32(len(c.choices)): // with as much room again
		of.Word = of.Short
	}
	return of
}

// wish is the width of a row with its words.
func (c *Chooser) wish() float32 { return c.wishOf(false) }

// wishOf is the same, or with the short words where there are any.
func (c *Chooser) wishOf(short bool) float32 {
	sum := 2 * c.inner()
	for i, of := range c.choices {
		if c.brief {
			of.Icon = ""
		}
		if short && of.Short != "" {
			of.Word = of.Short
		}
		sum += c.widthAt(of, i, TextSize()) + Step
	}
	return sum
}

// width is that of a choice at place i, without room around it.
func (c *Chooser) width(of Choice, i int) float32 { return c.widthAt(of, i, c.size) }

// widthAt is the same with words of a size.
func (c *Chooser) widthAt(of Choice, i int, size float32) (w float32) {
	if word := of.Word; word != "" {
		w = fyne.MeasureText(word, size, c.texts[i].TextStyle).Width
	}
	if of.Icon != "" {
		if w > 0 {
			w += Step / 2
		}
		w += IconSize()
	}
	return w
}

// at returns which choice lies at a place; -1 for none.
func (c *Chooser) at(x float32) int {
	slots := c.slots(c.Size().Width)
	for i := range c.choices {
		if x >= slots[i] && x < slots[i+1] {
			return i
		}
	}
	return -1
}

// Count returns how many choices there are.
func (c *Chooser) Count() int { return len(c.choices) }

// Target returns where a press means choice i, or opens the list with it.
func (c *Chooser) Target(i int) (fyne.Position, fyne.Size) {
	if c.listed(c.Size().Width) {
		return fyne.Position{}, c.Size()
	}
	slots := c.slots(c.Size().Width)
	return fyne.NewPos(slots[i], 0), fyne.NewSize(slots[i+1]-slots[i], c.Size().Height)
}

// Tapped chooses what is under the pointer.
func (c *Chooser) Tapped(e *fyne.PointEvent) {
	c.tips.Leave()
	if c.listed(c.Size().Width) {
		c.list()
		return
	}
	c.press(c.at(e.Position.X))
}

// press chooses choice i, or says why it can't be chosen.
func (c *Chooser) press(i int) {
	switch {
	case i < 0:
	case c.off[i] != "": // a pen can't rest on it first
		c.tips.Now(c.off[i], c.texts[i])
	default:
		c.choose(i)
	}
}

// MouseIn and MouseMoved explain what is under the pointer.
func (c *Chooser) MouseIn(e *desktop.MouseEvent) { c.MouseMoved(e) }

// MouseMoved explains the pictogram under the pointer, or why its choice is off.
func (c *Chooser) MouseMoved(e *desktop.MouseEvent) {
	i := c.at(e.Position.X)
	if i < 0 || c.listed(c.Size().Width) {
		return
	}
	shown := c.shown(i, c.Size().Width)
	switch {
	case c.off[i] != "":
		c.tips.enter(c.off[i], c.texts[i])
	case shown.Tip != "" && (shown.Icon != "" || shown.Word != c.choices[i].Word):
		c.tips.enter(shown.Tip, c.pictures[i])
	}
}

// MouseOut lets the tip go.
func (c *Chooser) MouseOut() { c.tips.Leave() }

// Cursor is the hand: the words are there to be pressed.
func (c *Chooser) Cursor() desktop.Cursor { return desktop.PointerCursor }

// TypedKey goes from word to word with the arrows, and opens the list.
func (c *Chooser) TypedKey(e *fyne.KeyEvent) {
	step := arrows[e.Name].X
	if c.listed(c.Size().Width) && presses(e) {
		c.list()
	} else if step == 0 {
		c.keys.TypedKey(e.Name)
	} else if next := c.chosen + step; next >= 0 && next < len(c.choices) && c.off[next] == "" {
		c.choose(next)
	}
}

// fit makes the words smaller where together they are wider than the row: they are never cut, and
// never lie over each other.
func (c *Chooser) fit(width float32) {
	for c.size = TextSize(); c.size > 1 && width > 0 && c.needed(width, c.size) > width; c.size-- {
	}
}

// write makes the chosen word stand out.
func (c *Chooser) write(size fyne.Size, of colours) {
	c.fit(size.Width)
	back := theme.ColorNameInputBackground
	if c.tabs {
		back = ColorNamePanel
	}
	fillEdged(c.back, back, of)
	fill(c.under, of(ColorNameOn))
	fill(c.foot, of(ColorNameFocusLine))
	showFocus(c.line, c.focused, of)
	one, listed := c.chosen >= 0 && c.chosen < len(c.choices), c.listed(size.Width)
	show(c.under, one && !c.tabs && !listed)
	show(c.foot, one && !listed)
	if listed {
		c.writeListed(size.Width, of)
		return
	}
	picture(c.arrow, "", "")
	for i, t := range c.texts {
		ink := ColorNameQuiet
		if i == c.chosen {
			ink = ColorNameFocusLine
		}
		if c.off[i] != "" {
			ink = ColorNameOff
		}
		t.TextStyle.Bold, t.TextSize = c.tabs && i == c.chosen, c.size
		shown := c.shown(i, size.Width)
		say(t, shown.Word, of(ink))
		picture(c.pictures[i], shown.Icon, ink)
	}
}

// place centres every choice in its room.
func (c *Chooser) place(size fyne.Size) {
	c.back.Resize(size)
	putAround(c.line, fyne.Position{}, size)
	if c.listed(size.Width) {
		c.placeListed(size)
		return
	}
	at := c.slots(size.Width)
	for i, t := range c.texts {
		shown := c.shown(i, size.Width)
		text, icon, all := fyne.NewSize(0, t.MinSize().Height), float32(0), c.width(shown, i)
		if shown.Word != "" {
			text.Width = t.MinSize().Width
		}
		if shown.Icon != "" {
			icon = IconSize()
		}
		x := at[i] + (at[i+1]-at[i]-all)/2
		put(c.pictures[i], fyne.NewPos(x, (size.Height-icon)/2), fyne.NewSquareSize(icon))
		placeText(t, x+all-text.Width, (size.Height-text.Height)/2)
		if i == c.chosen {
			put(c.under, fyne.NewPos(at[i], c.inner()), fyne.NewSize(at[i+1]-at[i], size.Height-2*c.inner()))
			if c.tabs { // the row goes from edge to edge: the outline is round the open one
				put(c.line, fyne.NewPos(at[i]+FocusWidth, FocusWidth), fyne.NewSize(at[i+1]-at[i]-2*FocusWidth, size.Height-2*FocusWidth))
			}
			c.placeFoot(at[i], at[i+1], all, size.Height)
		}
	}
}

// placeFoot puts the bar under the chosen one: at the foot of its box, or of the window for tabs.
func (c *Chooser) placeFoot(from, to, words, height float32) {
	if c.tabs {
		wide := min(words+2*Step, to-from)
		put(c.foot, fyne.NewPos((from+to-wide)/2, height-tabFoot), fyne.NewSize(wide, tabFoot))
		return
	}
	put(c.foot, fyne.NewPos(from+footInset, height-2*footHigh-c.inner()), fyne.NewSize(max(to-from-2*footInset, 0), footHigh))
}

// tabFoot is the height of the bar under the open tab.
const tabFoot = 3

// minSize keeps the choices apart.
func (c *Chooser) minSize() fyne.Size {
	if !c.brief {
		return fyne.NewSize(c.wishOf(true), Row())
	}
	return fyne.NewSize(2*c.inner()+float32(len(c.choices))*max(IconSize()+Step, Row()), Row())
}

// needed is the width of what is shown in a row of a width with words of a size.
func (c *Chooser) needed(width, size float32) float32 {
	sum := 2 * c.inner()
	for i := range c.choices {
		sum += c.widthAt(c.shown(i, width), i, size) + Step
	}
	return sum
}
