package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
)

// Sizes of the small pictures of stills, 4 to 3, at the text's plain size: in the grid three stand
// beside each other at the window's plain width.
const (
	stillWide, stillHigh   float32 = 108, 81
	beforeWide, beforeHigh float32 = 68, 51
	stillAround            float32 = 4 // around a small picture, for its frame
)

// StillItem shows one still: a small picture, its name and its time. The selected one is framed
// and raised.
type StillItem struct {
	drawn
	room     fyne.Size // for the picture
	img      *image.RGBA
	words    [2]string
	selected bool
	chosen   bool

	tick          *canvas.Image     // on the picture of a chosen one
	under         *canvas.Rectangle // below it
	ground, frame *canvas.Rectangle
	picture       *canvas.Raster
	lines         [2]*canvas.Text // none where it is shown without words
}

// NewStillItem returns an item without a still. It is as large as its time of day is long.
func NewStillItem() *StillItem {
	wide := max(stillWide, round(textWidth(language.Say("today 00:00")))+1)
	return newStillItem(fyne.NewSize(wide, round(wide*stillHigh/stillWide)))
}

func newStillItem(room fyne.Size) *StillItem {
	s := &StillItem{room: room}
	s.ground, s.frame = add(&s.drawn, newPanelBox()), s.addBox()
	s.picture = add(&s.drawn, newPictureRaster(func() *image.RGBA { return s.img }))
	s.picture.ScaleMode = canvas.ImageScaleFastest
	s.under, s.tick = add(&s.drawn, newPanelBox()), s.addIcon()
	s.lines = [2]*canvas.Text{s.addText(TextSize, fyne.TextStyle{}), s.addText(SmallSize, fyne.TextStyle{})}
	s.draw(s)
	return s
}

// Set shows a still by its name and its time, which are cut to their room, and a small picture,
// which it does not copy; nil for none.
func (s *StillItem) Set(name, at string, img *image.RGBA, selected bool) {
	changed := img != s.img
	s.words, s.img, s.selected = [2]string{name, at}, img, selected
	s.redraw()
	if changed {
		s.picture.Refresh()
	}
}

// SetChosen shows whether the still is one of several that belong together.
func (s *StillItem) SetChosen(chosen bool) {
	if chosen != s.chosen {
		s.chosen = chosen
		s.redraw()
	}
}

// write puts in the words, of which the first stand out.
func (s *StillItem) write(_ fyne.Size, of colours) {
	quiet := ColorNameQuiet
	if s.selected {
		quiet = ColorNameQuietRaised
	}
	fill(s.ground, of(ColorNameRaised))
	show(s.ground, s.selected)
	fill(s.frame, of(ColorNameFocusLine))
	show(s.frame, s.selected && s.img != nil)
	fill(s.under, of(ColorNameChip))
	show(s.under, s.chosen)
	tick := icons.Check
	if !s.chosen {
		tick = ""
	}
	picture(s.tick, tick, ColorNameChipText)
	say(s.lines[0], cutAt(s.words[0], s.room.Width, TextSize()), of(theme.ColorNameForeground))
	say(s.lines[1], cutTo(s.words[1], s.room.Width), of(quiet))
}

// fitIn returns where a picture of w x h lies in a room, as large as it can be and in its middle.
func fitIn(room fyne.Size, w, h int) (fyne.Position, fyne.Size) {
	if w <= 0 || h <= 0 {
		return fyne.Position{}, room
	}
	by := min(room.Width/float32(w), room.Height/float32(h))
	size := fyne.NewSize(round(float32(w)*by), round(float32(h)*by))
	return fyne.NewPos(round((room.Width-size.Width)/2), round((room.Height-size.Height)/2)), size
}

// place puts the picture over the words.
func (s *StillItem) place(size fyne.Size) {
	s.ground.Resize(size)
	w, h := 0, 0
	if s.img != nil {
		w, h = s.img.Rect.Dx(), s.img.Rect.Dy()
	}
	pos, fit := fitIn(s.room, w, h)
	pos = pos.AddXY(stillAround, stillAround)
	put(s.picture, pos, fit)
	put(s.frame, pos.SubtractXY(FocusWidth, FocusWidth), fit.AddWidthHeight(2*FocusWidth, 2*FocusWidth))
	icon := SmallIcon()
	corner := pos.AddXY(fit.Width-icon-stillAround, stillAround)
	put(s.under, corner, fyne.NewSquareSize(icon))
	put(s.tick, corner, fyne.NewSquareSize(icon))
	y := stillAround + s.room.Height + stillAround
	for _, t := range s.lines {
		placeText(t, stillAround+FocusWidth, y)
		y += t.MinSize().Height - 1
	}
}

// minSize has room for both lines, whatever stands there.
func (s *StillItem) minSize() fyne.Size {
	size := s.room.AddWidthHeight(2*stillAround, 2*stillAround)
	for _, t := range s.lines {
		size.Height += t.MinSize().Height - 1
	}
	return size.AddWidthHeight(0, stillAround)
}
