package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
)

// Sheet stands in place of the sentence and the page: a heading with a button to close it, a row of
// segments or nothing, and what is between scrolls.
type Sheet struct {
	drawn
	icon   icons.Name
	title  string
	Done   *Button
	tabs   *Chooser // nil: none
	inside Fitted
	scroll *container.Scroll

	back    *canvas.Rectangle
	picture *canvas.Image
	heading *canvas.Text
}

// Fitted is what asks for a height that its width decides.
type Fitted interface {
	fyne.CanvasObject
	For(width float32)
}

// NewSheet returns a sheet; tabs may be nil. The window's keys go through what is behind it.
func NewSheet(icon icons.Name, title string, tabs *Chooser, content Fitted, keys Keys, done func()) *Sheet {
	s := &Sheet{icon: icon, title: title, Done: NewButton(language.Say("Done"), keys, done), tabs: tabs}
	s.back = add(&s.drawn, newPanelBox())
	s.picture, s.heading = s.addIcon(), s.addText(TextSize, fyne.TextStyle{Bold: true})
	add(&s.drawn, s.Done)
	if tabs != nil {
		add(&s.drawn, tabs)
	}
	s.scroll = add(&s.drawn, container.NewVScroll(nil))
	s.put(content)
	s.draw(s)
	return s
}

// SetContent shows something else, from its beginning.
func (s *Sheet) SetContent(content Fitted) {
	s.put(content)
	s.scroll.ScrollToTop()
	s.place(s.Size())
	s.scroll.Refresh()
}

// Renew shows what the content says now, which may need another height.
func (s *Sheet) Renew() {
	s.inside.Refresh()
	s.scroll.Refresh()
}

// Cells are the controls of a form in it, by the names of their rows.
func (s *Sheet) Cells() (cells []Cell) {
	if form, ok := s.inside.(*Form); ok {
		for _, r := range form.rows {
			if r.Control != nil {
				cells = append(cells, Cell{Words: r.Name, Part: r.Control, At: fyne.CurrentApp().Driver().AbsolutePositionForObject(r.Control)})
			}
		}
	}
	return cells
}

// outlineRoom is what the outline of the focus needs around a control, within what scrolls.
const outlineRoom = FocusGap + FocusWidth

// put sets what scrolls, with a gutter for the scroll bar.
func (s *Sheet) put(content Fitted) {
	s.inside = content
	s.scroll.Content = container.New(layout.NewCustomPaddedLayout(outlineRoom, 0, outlineRoom, Gutter), content)
}

// Scroll is what scrolls.
func (s *Sheet) Scroll() *container.Scroll { return s.scroll }

// Content is what is shown.
func (s *Sheet) Content() Fitted { return s.inside }

// Tabs are the segments; nil for none.
func (s *Sheet) Tabs() *Chooser { return s.tabs }

func (s *Sheet) write(_ fyne.Size, of colours) {
	fillEdged(s.back, ColorNamePanel, of)
	picture(s.picture, s.icon, theme.ColorNameForeground)
	say(s.heading, s.title, of(theme.ColorNameForeground))
}

// place keeps heading and segments at the top, a half step around everything.
func (s *Sheet) place(size fyne.Size) {
	s.back.Resize(size)
	const side, gap = Step, Step / 2
	done, icon, y := s.Done.MinSize(), IconSize(), float32(gap)
	put(s.Done, fyne.NewPos(size.Width-side-done.Width, y), done)
	put(s.picture, fyne.NewPos(side, y+(done.Height-icon)/2), fyne.NewSquareSize(icon))
	placeText(s.heading, side+icon+Step, y+(done.Height-s.heading.MinSize().Height)/2)
	y += done.Height + gap
	if s.tabs != nil {
		put(s.tabs, fyne.NewPos(side, y), fyne.NewSize(size.Width-2*side, s.tabs.MinSize().Height))
		y += s.tabs.MinSize().Height + gap
	}
	room := fyne.NewSize(max(size.Width-side, 0), max(size.Height-y, 0))
	s.inside.For(room.Width - Gutter)
	put(s.scroll, fyne.NewPos(side-outlineRoom, y-outlineRoom), room.AddWidthHeight(outlineRoom, outlineRoom))
}

// LeastHeight is the height in which nothing scrolls, in a width.
func (s *Sheet) LeastHeight(width float32) float32 {
	s.inside.For(width - 2*Step)
	high := Step + s.Done.MinSize().Height + s.inside.MinSize().Height
	if s.tabs != nil {
		high += s.tabs.MinSize().Height + Step/2
	}
	return high
}

// minSize asks for nothing: it has the room of what it stands for.
func (s *Sheet) minSize() (none fyne.Size) { return none }
