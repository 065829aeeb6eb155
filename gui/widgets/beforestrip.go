package widgets

import (
	"image"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
)

// mostBefore is how many stills are offered at a glance to compare with.
const mostBefore = 4

// BeforeStill is a still that can be compared with.
type BeforeStill struct {
	Name   string
	Img    *image.RGBA // nil while it is being made
	Chosen bool
}

// BeforeStrip offers the last stills as small pictures, the chosen one framed, and a button for all
// of them.
type BeforeStrip struct {
	drawn
	items  [mostBefore]*beforeItem
	all    *Button
	count  int
	choose func(i int)
}

// NewBeforeStrip returns an empty strip.
func NewBeforeStrip(keys Keys, tips *Tips, choose func(i int), all func()) *BeforeStrip {
	s := &BeforeStrip{choose: choose}
	for i := range s.items {
		s.items[i] = add(&s.drawn, newBeforeItem(keys, tips, func() { s.choose(i) }))
	}
	s.all = add(&s.drawn, NewIconButton(icons.Folder, keys, all).Flat())
	s.all.Explain(tips, language.Say("All stills"))
	s.draw(s)
	return s
}

// Set shows the first of the stills.
func (s *BeforeStrip) Set(list []BeforeStill) {
	s.count = min(len(list), mostBefore)
	for i, item := range s.items {
		item.set(nth(list, i))
	}
	s.redraw()
}

// beforeIn is how many small pictures a strip of this width has room for.
func beforeIn(width float32) int {
	item := beforeWide + 2*stillAround
	return max(1, min(mostBefore, int((width-Row()-Step)/item)))
}

func (s *BeforeStrip) write(size fyne.Size, _ colours) {
	for i, item := range s.items {
		show(item, i < min(s.count, beforeIn(size.Width)))
	}
}

func (s *BeforeStrip) place(size fyne.Size) {
	for i, item := range s.items {
		put(item, fyne.NewPos(float32(i)*(beforeWide+2*stillAround)-stillAround, 0), item.minSize())
	}
	put(s.all, fyne.NewPos(size.Width-Row(), (size.Height-Row())/2), fyne.NewSquareSize(Row()))
}

func (s *BeforeStrip) minSize() fyne.Size {
	return fyne.NewSize(beforeWide+2*stillAround+Step+Row(), max(beforeHigh+2*stillAround, Row()))
}

// beforeItem is one of them, as a button.
type beforeItem struct {
	*Button
	still BeforeStill
	show  *StillItem
}

func newBeforeItem(keys Keys, tips *Tips, tapped func()) *beforeItem {
	b := &beforeItem{Button: NewButton("", keys, tapped).Flat(), show: newStillItem(fyne.NewSize(beforeWide, beforeHigh))}
	b.tips = tips
	add(&b.drawn, b.show)
	b.self, b.focus.owner = b, b
	b.ExtendBaseWidget(b)
	return b
}

func (b *beforeItem) set(still BeforeStill) {
	b.still, b.tip = still, still.Name
	b.show.Set("", "", still.Img, still.Chosen)
}

func (b *beforeItem) place(size fyne.Size) {
	b.Button.place(size)
	put(b.show, fyne.Position{}, size)
}

func (b *beforeItem) minSize() fyne.Size {
	return fyne.NewSize(beforeWide+2*stillAround, beforeHigh+2*stillAround)
}
