package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// chooser is a row of words of which one is chosen: it is underlined and stands out, the
// others are quiet. Clicks choose, and the arrow keys do. Use it on the Fyne goroutine only.
type chooser struct {
	widget.BaseWidget
	words   []string
	height  float32
	chosen  int
	choose  func(i int)
	keys    keySink // gets the keys that the row has no use for
	focused bool
	r       *chooserRenderer
}

var (
	_ fyne.Focusable     = (*chooser)(nil)
	_ fyne.Tappable      = (*chooser)(nil)
	_ fyne.Shortcutable  = (*chooser)(nil)
	_ desktop.Cursorable = (*chooser)(nil)
)

func newChooser(words []string, height float32, keys keySink, choose func(i int)) *chooser {
	c := &chooser{words: words, height: height, keys: keys, choose: choose}
	c.ExtendBaseWidget(c)
	return c
}

// set shows which word is chosen; another than those there are leaves none chosen.
func (c *chooser) set(chosen int) {
	if chosen == c.chosen {
		return
	}
	c.chosen = chosen
	c.Refresh()
}

// slot returns where part i of n equal ones lies in a row of this width.
func slot(i, n int, width float32) (x, w float32) {
	from, to := float32(int(width*float32(i)/float32(n))), float32(int(width*float32(i+1)/float32(n)))
	return from, to - from
}

// slots returns where each word begins, and where the last ends: words of these widths have
// equal room or, where that is too little for one, room by their widths.
func slots(words []float32, width float32) []float32 {
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

// slots returns where the words begin now, and where the last ends.
func (c *chooser) slots() []float32 {
	widths := make([]float32, len(c.words))
	for i, word := range c.words {
		widths[i] = fyne.MeasureText(word, TextSize, fyne.TextStyle{}).Width
	}
	return slots(widths, c.Size().Width)
}

// Tapped chooses the word under the pointer.
func (c *chooser) Tapped(e *fyne.PointEvent) {
	at := c.slots()
	for i := range c.words {
		if e.Position.X >= at[i] && e.Position.X < at[i+1] {
			c.choose(i)
			return
		}
	}
}

// Cursor is the hand: the words are there to be pressed.
func (c *chooser) Cursor() desktop.Cursor { return desktop.PointerCursor }

// FocusGained shows the outline.
func (c *chooser) FocusGained() {
	c.keys.reveal(c)
	c.setFocused(true)
}

// FocusLost takes it away.
func (c *chooser) FocusLost() { c.setFocused(false) }

func (c *chooser) setFocused(focused bool) {
	c.focused = focused
	c.Refresh()
}

// TypedKey goes from word to word with the arrows.
func (c *chooser) TypedKey(e *fyne.KeyEvent) {
	next := c.chosen
	switch e.Name {
	case fyne.KeyLeft:
		next--
	case fyne.KeyRight:
		next++
	default:
		c.keys.typedKey(e.Name)
		return
	}
	if next >= 0 && next < len(c.words) {
		c.choose(next)
	}
}

// TypedRune goes to the window's keys.
func (c *chooser) TypedRune(r rune) { c.keys.typedRune(r) }

// TypedShortcut goes to the window's keys.
func (c *chooser) TypedShortcut(s fyne.Shortcut) { c.keys.typedShortcut(s) }

// CreateRenderer makes the canvas objects.
func (c *chooser) CreateRenderer() fyne.WidgetRenderer {
	r := &chooserRenderer{c: c, back: canvas.NewRectangle(nil), under: canvas.NewRectangle(nil), focus: canvas.NewRectangle(nil)}
	r.focus.StrokeWidth = FocusWidth
	for _, word := range c.words {
		t := sizedText(TextSize, fyne.TextStyle{})
		t.Text = word
		r.words = append(r.words, t)
	}
	c.r = r
	r.colour()
	return r
}

type chooserRenderer struct {
	c                  *chooser
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
		if i == r.c.chosen {
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
	r.under.Hidden = r.c.chosen < 0 || r.c.chosen >= len(r.words)
	at := r.c.slots()
	for i, t := range r.words {
		x, w := at[i], at[i+1]-at[i]
		text := t.MinSize()
		placeText(t, x+(w-text.Width)/2, (size.Height-text.Height)/2)
		if i == r.c.chosen {
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
