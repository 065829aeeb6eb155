package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// Lengths of an item of the shelf.
const (
	shelfWidth  = 13.5 * Step
	shelfHeight = 16.5 * Step
	shelfLine   = 1.75 * Step
	shelfThumb  = 10 * Step
)

// ShelfItem shows one still: a small picture, its name, its key figures.
type ShelfItem struct {
	drawn
	img     *image.RGBA
	words   [3]string
	picture *canvas.Raster
	lines   [3]*canvas.Text
}

// NewShelfItem returns an item without a still.
func NewShelfItem() *ShelfItem {
	s := &ShelfItem{}
	s.picture = add(&s.drawn, newPictureRaster(func() *image.RGBA { return s.img }))
	s.picture.ScaleMode = canvas.ImageScaleFastest
	for i := range s.lines {
		s.lines[i] = s.addText(SmallSize, fyne.TextStyle{})
	}
	s.least = fyne.NewSize(shelfWidth, shelfHeight)
	s.draw(s)
	return s
}

// Set shows a still by at most three lines, which are cut to their room, and a small picture,
// which it does not copy; nil for none.
func (s *ShelfItem) Set(lines []string, img *image.RGBA) {
	for i := range s.words {
		s.words[i] = cutTo(nth(lines, i), shelfWidth-Step)
	}
	changed := img != s.img
	s.img = img
	s.redraw()
	if changed {
		s.picture.Refresh()
	}
}

// write puts in the words, of which the first stand out.
func (s *ShelfItem) write(_ fyne.Size, of colours) {
	say(s.lines[0], s.words[0], of(theme.ColorNameForeground))
	say(s.lines[1], s.words[1], of(ColorNameQuiet))
	say(s.lines[2], s.words[2], of(ColorNameQuiet))
}

// place puts the picture over the words.
func (s *ShelfItem) place(size fyne.Size) {
	box := fyne.NewSize(size.Width-Step, shelfThumb)
	fit := box
	if s.img != nil {
		by := min(box.Width/float32(s.img.Rect.Dx()), box.Height/float32(s.img.Rect.Dy()))
		fit = fyne.NewSize(float32(s.img.Rect.Dx())*by, float32(s.img.Rect.Dy())*by)
	}
	put(s.picture, fyne.NewPos(Step/2+(box.Width-fit.Width)/2, Step/2+(box.Height-fit.Height)/2), fit)
	for i, t := range s.lines {
		placeText(t, Step/2, shelfThumb+0.75*Step+float32(i)*shelfLine)
	}
}
