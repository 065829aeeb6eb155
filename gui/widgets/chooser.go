package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Chooser is a row of words of which one is chosen: it is underlined and stands out, the
// others are quiet. Clicks choose, and the arrow keys do. Use it on the Fyne goroutine only.
type Chooser struct {
	widget.BaseWidget
	Words   []string
	height  float32
	Chosen  int
	Choose  func(i int)
	Keys    Keys // gets the keys that the row has no use for
	focused bool
	r       *chooserRenderer
}

var (
	_ fyne.Focusable     = (*Chooser)(nil)
	_ fyne.Tappable      = (*Chooser)(nil)
	_ fyne.Shortcutable  = (*Chooser)(nil)
	_ desktop.Cursorable = (*Chooser)(nil)
)

func NewChooser(words []string, height float32, keys Keys, choose func(i int)) *Chooser {
	c := &Chooser{Words: words, height: height, Keys: keys, Choose: choose}
	c.ExtendBaseWidget(c)
	return c
}

// Set shows which word is chosen; another than those there are leaves none chosen.
func (c *Chooser) Set(chosen int) {
	if chosen == c.Chosen {
		return
	}
	c.Chosen = chosen
	c.Refresh()
}

// Slot returns where part i of n equal ones lies in a row of this width.
func Slot(i, n int, width float32) (x, w float32) {
	from, to := float32(int(width*float32(i)/float32(n))), float32(int(width*float32(i+1)/float32(n)))
	return from, to - from
}

// Slots returns where each word begins, and where the last ends: words of these widths have
// equal room or, where that is too little for one, room by their widths.
func Slots(words []float32, width float32) []float32 {
	at, sum, widest := make([]float32, len(words)+1), float32(0), float32(0)
	for _, w := range words {
		sum += w
		widest = max(widest, w)
	}
	spare := (width - sum) / float32(len(words))
	x := float32(0)
	for i, w := range words {
		if x += w + spare; widest+Step <= width/float32(len(words)) {
			x = width * float32(i+1) / float32(len(words))
		}
		at[i+1] = float32(int(x + 0.5))
	}
	return at
}

// Slots returns where the words begin now, and where the last ends.
func (c *Chooser) slots() []float32 {
	widths := make([]float32, len(c.Words))
	for i, word := range c.Words {
		widths[i] = fyne.MeasureText(word, TextSize, fyne.TextStyle{}).Width
	}
	return Slots(widths, c.Size().Width)
}

// Tapped chooses the word under the pointer.
func (c *Chooser) Tapped(e *fyne.PointEvent) {
	at := c.slots()
	for i := range c.Words {
		if e.Position.X >= at[i] && e.Position.X < at[i+1] {
			c.Choose(i)
			return
		}
	}
}

// Cursor is the hand: the words are there to be pressed.
func (c *Chooser) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline.
func (c *Chooser) FocusGained() {
	c.Keys.Reveal(c)
	c.setFocused(true)
}

// FocusLost takes it away.
func (c *Chooser) FocusLost() { c.setFocused(false) }

func (c *Chooser) setFocused(focused bool) {
	c.focused = focused
	c.Refresh()
}

// TypedKey goes from word to word with the arrows.
func (c *Chooser) TypedKey(e *fyne.KeyEvent) {
	next := c.Chosen
	switch e.Name {
	case fyne.KeyLeft:
		next--
	case fyne.KeyRight:
		next++
	default:
		c.Keys.TypedKey(e.Name)
		return
	}
	if next >= 0 && next < len(c.Words) {
		c.Choose(next)
	}
}

// TypedRune goes to the window's keys.
func (c *Chooser) TypedRune(r rune) { c.Keys.TypedRune(r) }

// TypedShortcut goes to the window's keys.
func (c *Chooser) TypedShortcut(s fyne.Shortcut) { c.Keys.TypedShortcut(s) }

// CreateRenderer makes the canvas objects.
func (c *Chooser) CreateRenderer() fyne.WidgetRenderer {
	r := &chooserRenderer{c: c, back: canvas.NewRectangle(nil), under: canvas.NewRectangle(nil), focus: canvas.NewRectangle(nil)}
	r.focus.StrokeWidth = FocusWidth
	for _, word := range c.Words {
		t := sizedText(TextSize, fyne.TextStyle{})
		t.Text = word
		r.words = append(r.words, t)
	}
	c.r = r
	r.colour()
	return r
}

type chooserRenderer struct {
	c                  *Chooser
	back, under, focus *canvas.Rectangle
	words              []*canvas.Text
}

func (r *chooserRenderer) colour() {
	th, v := r.c.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	line := th.Color(ColorNameFocusLine, v)
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.under.FillColor = line
	r.focus.Hidden = !r.c.focused
	r.focus.StrokeColor = line
	for i, t := range r.words {
		t.Color = th.Color(ColorNameQuiet, v)
		if i == r.c.Chosen {
			t.Color = th.Color(theme.ColorNameForeground, v)
		}
	}
}

// underHeight is the height of the line under the chosen word.
const underHeight = 3

// Layout centres every word in its room.
func (r *chooserRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	r.focus.Resize(size)
	r.under.Hidden = r.c.Chosen < 0 || r.c.Chosen >= len(r.words)
	at := r.c.slots()
	for i, t := range r.words {
		x, w := at[i], at[i+1]-at[i]
		text := t.MinSize()
		placeText(t, x+(w-text.Width)/2, (size.Height-text.Height)/2)
		if i == r.c.Chosen {
			wide := min(text.Width+2*Step, w-Step)
			r.under.Move(fyne.NewPos(x+(w-wide)/2, size.Height-underHeight-2))
			r.under.Resize(fyne.NewSize(wide, underHeight))
		}
	}
}

// MinSize keeps the words apart.
func (r *chooserRenderer) MinSize() fyne.Size {
	var sum float32
	for _, t := range r.words {
		sum += t.MinSize().Width + Step
	}
	return fyne.NewSize(sum, r.c.height)
}

// Refresh draws with the theme of now.
func (r *chooserRenderer) Refresh() {
	r.colour()
	r.Layout(r.c.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn, from below.
func (r *chooserRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.back, r.under}
	for _, t := range r.words {
		all = append(all, t)
	}
	return append(all, r.focus)
}

// Destroy has nothing to let go of.
func (r *chooserRenderer) Destroy() {}
