package widgets

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Picklist shows what is chosen of a list of words, and opens the list as a menu.
type Picklist struct {
	drawn
	explained
	words  []string
	chosen int
	choose func(i int)
	Again  func(i int) bool // choosing it counts also while it is chosen; nil: none does
	open   func(rows []MenuRow, at fyne.Position)

	back, edge *canvas.Rectangle
	text       *canvas.Text
	arrow      *canvas.Image
}

// NewPicklist returns a list of words; another index than those there are shows none as chosen.
// open shows a menu at a point of the window, and choose is called with what is chosen there.
func NewPicklist(words []string, chosen int, keys Keys, open func([]MenuRow, fyne.Position), choose func(i int)) *Picklist {
	p := &Picklist{words: words, chosen: chosen, open: open, choose: choose}
	p.focus = focus{keys: keys, owner: p, changed: p.redraw}
	p.back = add(&p.drawn, newPanelBox())
	p.text, p.arrow = p.addText(TextSize, fyne.TextStyle{}), p.addIcon()
	p.edge = add(&p.drawn, newFocusLine(Radius+FocusGap))
	p.draw(p)
	return p
}

// Chosen returns which is chosen.
func (p *Picklist) Chosen() int { return p.chosen }

// Set shows one of the words as chosen, and tells nobody.
func (p *Picklist) Set(i int) {
	if i != p.chosen {
		p.chosen = i
		p.redraw()
	}
}

// Pick chooses one of the words, as a press in the list does.
func (p *Picklist) Pick(i int) {
	if i >= 0 && i < len(p.words) && (i != p.chosen || p.Again != nil && p.Again(i)) {
		p.chosen = i
		p.redraw()
		p.choose(i)
	}
}

// Tapped opens the list below.
func (p *Picklist) Tapped(*fyne.PointEvent) {
	rows := make([]MenuRow, len(p.words))
	for i, w := range p.words {
		rows[i].Items = []MenuItem{{Words: w, On: i == p.chosen, Do: func() { p.Pick(i) }}}
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(p)
	p.open(rows, at.AddXY(0, p.Size().Height))
}

// TypedKey opens the list, or chooses the word beside with the arrows.
func (p *Picklist) TypedKey(e *fyne.KeyEvent) {
	step := arrows[e.Name]
	switch {
	case presses(e):
		p.Tapped(nil)
	case step.X != 0 || step.Y != 0:
		p.Pick(p.chosen + step.X + step.Y)
	default:
		p.keys.TypedKey(e.Name)
	}
}

// write has the words smaller where they find no room, as in a dialog of a small window.
func (p *Picklist) write(size fyne.Size, of colours) {
	ground := theme.ColorNameInputBackground
	if p.pointed {
		ground = ColorNameRaised
	}
	fillEdged(p.back, ground, of)
	words := nth(p.words, max(p.chosen, -1))
	if room := size.Width - entrySide - Step/2 - SmallIcon() - Step; room > 0 {
		p.text.TextSize = fittingSize(words, TextSize(), room)
	}
	say(p.text, words, of(theme.ColorNameForeground))
	picture(p.arrow, icons.OpenList, theme.ColorNameForeground)
	showFocus(p.edge, p.focused, of)
}

func (p *Picklist) place(size fyne.Size) {
	put(p.back, fyne.NewPos(0, 1), size.SubtractWidthHeight(0, 2)) // lists below each other stay apart
	putAround(p.edge, fyne.Position{}, size)
	icon := SmallIcon()
	placeText(p.text, entrySide, (size.Height-p.text.MinSize().Height)/2)
	put(p.arrow, fyne.NewPos(size.Width-icon-Step, (size.Height-icon)/2), fyne.NewSquareSize(icon))
}

// minSize has room for the longest word.
func (p *Picklist) minSize() fyne.Size {
	widest := float32(0)
	for _, w := range p.words {
		widest = max(widest, unreadWidth(w))
	}
	return fyne.NewSize(entrySide+widest+Step/2+SmallIcon()+Step, Row())
}

// unreadWidth is textWidth, but for letters that fill a square (wide ones, Unicode Standard Annex 11):
// to measure them the toolkit would read a typeface of the system's with all of them and keep it,
// 20 MB, before one is ever shown.
func unreadWidth(words string) float32 {
	squares := 0
	rest := strings.Map(func(r rune) rune {
		if unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana) {
			squares++
			return -1
		}
		return r
	}, words)
	return textWidth(rest) + float32(squares)*TextSize()
}
