package widgets

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
)

// Pick shows the one of some words that is chosen, and lists them all when it is pressed.
type Pick struct {
	drawn
	focus
	words  []string
	chosen string
	choose func(word string)
	open   func(rows []MenuRow, at fyne.Position)

	back, line *canvas.Rectangle
	text       *canvas.Text
	arrow      *canvas.Image
}

// NewPick returns a list of words, the first chosen. open shows a menu at a point of the window; choose
// is called for a word that the painter wants, which is chosen by then.
func NewPick(words []string, keys Keys, open func([]MenuRow, fyne.Position), choose func(word string)) *Pick {
	p := &Pick{words: words, chosen: words[0], open: open, choose: choose}
	p.focus = focus{keys: keys, owner: p, changed: p.redraw}
	p.back, p.text, p.arrow = add(&p.drawn, newPanelBox()), p.addText(TextSize, fyne.TextStyle{}), p.addIcon()
	p.line = add(&p.drawn, newFocusLine(Radius+FocusGap))
	p.draw(p)
	return p
}

// Chosen is the word that is chosen.
func (p *Pick) Chosen() string { return p.chosen }

// Choose is a press of a word in the list.
func (p *Pick) Choose(word string) {
	p.chosen = word
	p.redraw()
	p.choose(word)
}

// Tapped lists the words below, the chosen one marked.
func (p *Pick) Tapped(*fyne.PointEvent) {
	rows := make([]MenuRow, len(p.words))
	for i, word := range p.words {
		rows[i].Items = []MenuItem{{Words: word, On: word == p.chosen, Do: func() { p.Choose(word) }}}
	}
	p.open(rows, fyne.CurrentApp().Driver().AbsolutePositionForObject(p).AddXY(0, p.Size().Height))
}

// TypedKey lists the words, or chooses the one before or after.
func (p *Pick) TypedKey(e *fyne.KeyEvent) {
	switch by := arrows[e.Name].Y; {
	case presses(e):
		p.Tapped(nil)
	case by == 0:
		p.keys.TypedKey(e.Name)
	default:
		for i, word := range p.words {
			if next := i + by; word == p.chosen && next >= 0 && next < len(p.words) {
				p.Choose(p.words[next])
				return
			}
		}
	}
}

func (p *Pick) write(size fyne.Size, of colours) {
	fillEdged(p.back, theme.ColorNameInputBackground, of)
	say(p.text, p.chosen, of(theme.ColorNameForeground))
	picture(p.arrow, icons.OpenList, ColorNameQuiet)
	showFocus(p.line, p.focused, of)
}

func (p *Pick) place(size fyne.Size) {
	p.back.Resize(size)
	putAround(p.line, fyne.Position{}, size)
	placeText(p.text, Step, (size.Height-p.text.MinSize().Height)/2)
	put(p.arrow, fyne.NewPos(size.Width-SmallIcon()-Step/2, (size.Height-SmallIcon())/2), fyne.NewSquareSize(SmallIcon()))
}

// around is the width of all but the word.
func (p *Pick) around() float32 { return Step + Step/2 + SmallIcon() + Step/2 }

// minSize has room for the word that is chosen.
func (p *Pick) minSize() fyne.Size {
	return fyne.NewSize(float32(math.Ceil(float64(p.around()+textWidth(p.chosen)))), Row())
}
