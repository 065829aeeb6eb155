package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// LeastHeight gives its one part all the room there is, and asks for a height.
type LeastHeight struct{ Height float32 }

// Layout gives all of the room.
func (LeastHeight) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// MinSize asks for the height.
func (l LeastHeight) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[0].MinSize().Width, l.Height)
}

// Lengths of an item of the shelf.
const (
	shelfWidth  = 13.5 * Step
	shelfHeight = 16.5 * Step
	shelfLine   = 1.75 * Step
	shelfThumb  = 10 * Step
)

// ShelfItem shows one still: a small picture, its name, its key figures.
type ShelfItem struct {
	widget.BaseWidget
	img     *image.RGBA
	picture *canvas.Raster
	lines   [3]*canvas.Text
}

func NewShelfItem() *ShelfItem {
	s := &ShelfItem{}
	for i := range s.lines {
		s.lines[i] = sizedText(SmallSize, fyne.TextStyle{})
	}
	s.picture = newStill(func() *image.RGBA { return s.img })
	s.picture.ScaleMode = canvas.ImageScaleFastest
	s.ExtendBaseWidget(s)
	return s
}

func (s *ShelfItem) Set(lines []string, img *image.RGBA) {
	for i, words := range lines {
		put(s.lines[i], cutTo(words, shelfWidth-Step))
	}
	if img != s.img {
		s.img = img
		s.Refresh()
	}
}

// cutTo cuts a text so that it fits into a width in the small size.
func cutTo(text string, width float32) string {
	fits := func(t string) bool { return fyne.MeasureText(t, SmallSize, fyne.TextStyle{}).Width <= width }
	if fits(text) {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		if cut := string(runes[:n]) + "…"; fits(cut) {
			return cut
		}
	}
	return ""
}

// CreateRenderer draws the item.
func (s *ShelfItem) CreateRenderer() fyne.WidgetRenderer { return &shelfItemRenderer{s} }

type shelfItemRenderer struct{ s *ShelfItem }

// Layout puts the picture over the words.
func (r *shelfItemRenderer) Layout(size fyne.Size) {
	box := fyne.NewSize(size.Width-Step, shelfThumb)
	at, fit := fyne.NewPos(Step/2, Step/2), box
	if img := r.s.img; img != nil {
		by := min(box.Width/float32(img.Rect.Dx()), box.Height/float32(img.Rect.Dy()))
		fit = fyne.NewSize(float32(img.Rect.Dx())*by, float32(img.Rect.Dy())*by)
	}
	r.s.picture.Move(at.AddXY((box.Width-fit.Width)/2, (box.Height-fit.Height)/2))
	r.s.picture.Resize(fit)
	for i, t := range r.s.lines {
		placeText(t, Step/2, shelfThumb+0.75*Step+float32(i)*shelfLine)
	}
}

// MinSize is every item's size.
func (r *shelfItemRenderer) MinSize() fyne.Size { return fyne.NewSize(shelfWidth, shelfHeight) }

// Refresh draws with the theme of now.
func (r *shelfItemRenderer) Refresh() {
	th, v := r.s.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	for i, t := range r.s.lines {
		t.Color = th.Color(ColorNameQuiet, v)
		if i == 0 {
			t.Color = th.Color(theme.ColorNameForeground, v)
		}
	}
	r.Layout(r.s.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn.
func (r *shelfItemRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.s.picture, r.s.lines[0], r.s.lines[1], r.s.lines[2]}
}

// Destroy has nothing to let go of.
func (r *shelfItemRenderer) Destroy() {}
