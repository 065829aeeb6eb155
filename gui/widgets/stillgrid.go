package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// StillGrid shows small pictures of stills in rows. Only what is in sight is drawn, so that
// thousands stay quick. It tells of every tap, also on the one that was tapped before.
type StillGrid struct {
	widget.GridWrap
	keys Keys
}

// NewStillGrid returns a grid of so many items, each shown by fill; tapped also stands for
// the space bar and Return on the item that has the focus.
func NewStillGrid(keys Keys, count func() int, fill func(i int, item *StillItem), tapped func(i int)) *StillGrid {
	g := &StillGrid{keys: keys}
	g.Length, g.CreateItem = count, func() fyne.CanvasObject { return NewStillItem() }
	g.UpdateItem = func(i widget.GridWrapItemID, o fyne.CanvasObject) { fill(i, o.(*StillItem)) }
	g.OnSelected = func(i widget.GridWrapItemID) {
		g.UnselectAll() // or a second tap would not be told
		tapped(i)
	}
	g.ExtendBaseWidget(g)
	return g
}

// FocusGained reveals the grid.
func (g *StillGrid) FocusGained() {
	g.keys.Reveal(g)
	g.GridWrap.FocusGained()
}

// TypedRune goes to the window's keys.
func (g *StillGrid) TypedRune(r rune) {
	if r != ' ' {
		g.keys.TypedRune(r)
	}
}

// TypedShortcut goes to the window's keys.
func (g *StillGrid) TypedShortcut(s fyne.Shortcut) { g.keys.TypedShortcut(s) }

// TypedKey goes through the items with the arrows; what else there is goes to the window's keys.
func (g *StillGrid) TypedKey(e *fyne.KeyEvent) {
	switch {
	case presses(e):
		g.GridWrap.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case arrows[e.Name] != (image.Point{}):
		g.GridWrap.TypedKey(e)
	default:
		g.keys.TypedKey(e.Name)
	}
}
