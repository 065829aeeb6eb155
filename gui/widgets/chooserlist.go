package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Where the words of a row find no room in letters of the size that was asked for, the row becomes a
// list: the chosen word, and the others behind an arrow.

// Lists has the row become a list where its words find no room; open shows a menu at a point of the
// window.
func (c *Chooser) Lists(open func(rows []MenuRow, at fyne.Position)) *Chooser {
	c.open = open
	c.redraw()
	return c
}

// leastSegment is the part of their size to which a row's letters shrink before it becomes a list (our
// choice: a step of the setting).
const leastSegment = 0.9

// listed reports whether the row is a list in a width.
func (c *Chooser) listed(width float32) bool {
	return c.open != nil && !c.brief && width > 0 && c.needed(width, leastSegment*TextSize()) > width
}

// list opens it below, the chosen word marked.
func (c *Chooser) list() {
	rows := make([]MenuRow, len(c.choices))
	for i, of := range c.choices {
		rows[i].Items = []MenuItem{{Words: of.Word, On: i == c.chosen, Do: func() { c.press(i) }}}
	}
	c.open(rows, fyne.CurrentApp().Driver().AbsolutePositionForObject(c).AddXY(0, c.Size().Height))
}

// writeListed shows the chosen word alone, or none.
func (c *Chooser) writeListed(width float32, of colours) {
	for i, t := range c.texts {
		picture(c.pictures[i], "", "")
		word := ""
		if i == c.chosen {
			room := max(width-entrySide-Step/2-SmallIcon()-Step, 1)
			word = longestFitting(room, TextSize(), c.choices[i].Word, c.shown(i, width).Word)
			t.TextSize = fittingSize(word, TextSize(), room)
		}
		t.TextStyle.Bold = false
		say(t, word, of(theme.ColorNameForeground))
	}
	picture(c.arrow, icons.OpenList, theme.ColorNameForeground)
}

func (c *Chooser) placeListed(size fyne.Size) {
	for _, t := range c.texts {
		placeText(t, entrySide, (size.Height-t.MinSize().Height)/2)
	}
	icon := SmallIcon()
	put(c.arrow, fyne.NewPos(size.Width-icon-Step, (size.Height-icon)/2), fyne.NewSquareSize(icon))
}
