package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// Preview is what can be chosen in a menu with a small picture of it over its name. A frame marks
// the one that is on.
type Preview struct {
	drawn
	is      MenuItem
	menu    *Menu
	index   int
	pointed bool
	shown   *image.RGBA // nil before there is one

	back, frame, well *canvas.Rectangle
	picture           *canvas.Raster
	words, keys       *canvas.Text
}

// The room of a preview's picture, in Fyne units, and what is around it.
const (
	PreviewWidth  = 108
	PreviewHeight = 80
	leastPreview  = 88   // width, where the window is narrow
	leastName     = 0.75 // of the letters of a name, where there is too little room (our choice)
	previewSide   = Step - FocusWidth
)

// NewPreview returns a preview without a picture.
func NewPreview(is MenuItem) *Preview {
	p := &Preview{is: is}
	p.back, p.frame, p.well = add(&p.drawn, newPanelBox()), p.addBox(), p.addBox()
	p.picture = add(&p.drawn, newPictureRaster(func() *image.RGBA { return p.shown }))
	p.picture.ScaleMode = canvas.ImageScaleSmooth
	p.words, p.keys = p.addText(TextSize, fyne.TextStyle{}), p.addText(TextSize, fyne.TextStyle{})
	p.draw(p)
	return p
}

// SetPicture shows a picture, which is the preview's from now on.
func (p *Preview) SetPicture(img *image.RGBA) {
	p.shown = img
	p.redraw()
	p.picture.Refresh()
}

func (p *Preview) item() *MenuItem { return &p.is }
func (p *Preview) point(on bool) {
	p.pointed = on
	p.redraw()
}

// Tapped chooses it.
func (p *Preview) Tapped(*fyne.PointEvent) { p.menu.choose(p.index) }

// MouseIn raises it.
func (p *Preview) MouseIn(*desktop.MouseEvent) { p.menu.point(p.index) }

// MouseMoved has nothing to do.
func (p *Preview) MouseMoved(*desktop.MouseEvent) {}

// MouseOut lets go of it.
func (p *Preview) MouseOut() { p.menu.point(-1) }

func (p *Preview) write(size fyne.Size, of colours) {
	ground, ink, quiet := theme.ColorNameMenuBackground, theme.ColorNameForeground, ColorNameQuiet
	if p.is.On {
		ground, ink, quiet = ColorNameOn, ColorNameFocusLine, ColorNameFocusLine
	}
	if p.pointed {
		ground, quiet = ColorNamePointed, ink
	}
	fill(p.back, of(ground))
	fill(p.frame, of(ColorNameFocusLine))
	show(p.frame, p.is.On)
	fill(p.well, of(theme.ColorNameInputBackground))
	p.words.TextSize = TextSize()
	if room := size.Width - 2*previewSide - Step/2 - p.keysWide(); room > 0 {
		p.words.TextSize = fittingSize(p.is.Words, TextSize(), room)
	}
	say(p.words, p.is.Words, of(ink))
	say(p.keys, wording.SayKeys(p.is.Keys), of(quiet))
}

func (p *Preview) minSize() fyne.Size {
	w := max(leastPreview, leastName*textWidth(p.is.Words)+Step+p.keysWide())
	return fyne.NewSize(w+2*previewSide, PreviewHeight+2*previewSide+FocusWidth+nameHeight()+Step/2)
}

// wide is the width in which picture and name have all of their room.
func (p *Preview) wide() float32 {
	return max(PreviewWidth, textWidth(p.is.Words)+Step+p.keysWide()) + 2*previewSide
}

// nameHeight is that of a line of names.
func nameHeight() float32 { return fyne.MeasureText("M", TextSize(), fyne.TextStyle{}).Height }

func (p *Preview) keysWide() float32 { return textWidth(wording.SayKeys(p.is.Keys)) }

// place puts the picture, whole, into the middle of its room.
func (p *Preview) place(size fyne.Size) {
	put(p.back, fyne.NewPos(1, 1), size.SubtractWidthHeight(2, 2))
	room := fyne.NewSize(size.Width-2*previewSide, PreviewHeight)
	at, part := fyne.NewPos(previewSide, previewSide), room
	if p.shown != nil {
		w, h := float32(p.shown.Rect.Dx()), float32(p.shown.Rect.Dy())
		by := min(room.Width/w, room.Height/h)
		part = fyne.NewSize(round(w*by), round(h*by))
		at = at.AddXY(round((room.Width-part.Width)/2), round((room.Height-part.Height)/2))
	}
	put(p.well, at, part)
	put(p.picture, at, part)
	put(p.frame, at.SubtractXY(FocusWidth, FocusWidth), part.AddWidthHeight(2*FocusWidth, 2*FocusWidth))
	y := previewSide + PreviewHeight + FocusWidth + Step/4
	placeText(p.words, previewSide, y+(nameHeight()-p.words.MinSize().Height)/2)
	placeText(p.keys, size.Width-previewSide-p.keys.MinSize().Width, y)
}
