package widgets

import (
	"image"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
)

// TargetText is what the card of a target shows: its name, how far the picture is from it, and what
// there is more and less of.
type TargetText struct{ Name, Distance, Shares string }

// TargetCard shows a target: a small grey picture, and how the picture stands to it.
type TargetCard struct {
	drawn
	text TargetText
	img  *image.RGBA

	frame   *canvas.Rectangle
	picture *canvas.Raster
	head    *Heading
	Cross   *Button
	lines   []*canvas.Text // as many as there ever were
}

// NewTargetCard returns a card without a target, whose cross calls remove.
func NewTargetCard(keys Keys, tips *Tips, remove func()) *TargetCard {
	t := &TargetCard{}
	t.frame = t.addBox()
	t.picture = add(&t.drawn, newPictureRaster(func() *image.RGBA { return t.img }))
	t.picture.ScaleMode = canvas.ImageScaleFastest
	t.head = add(&t.drawn, NewHeading(icons.Target, language.Say("Target"), ""))
	t.Cross = add(&t.drawn, NewIconButton(icons.Close, keys, remove).Flat())
	t.Cross.Explain(tips, language.Say("Paint toward it no longer"))
	t.draw(t)
	return t
}

// Set shows a target by its small picture, which is not copied; nil for none.
func (t *TargetCard) Set(text TargetText, img *image.RGBA) {
	if text == t.text && img == t.img {
		return
	}
	changed := img != t.img
	t.text, t.img = text, img
	t.redraw()
	if changed {
		t.picture.Refresh()
	}
}

// Text returns what is shown.
func (t *TargetCard) Text() TargetText { return t.text }

// targetPlan is where everything lies in a card of a width.
type targetPlan struct {
	picture rect // with its hairline
	head    rect
	cross   rect
	words   rect     // of the first line
	lines   []string // the distance's first
	first   int      // how many are the distance's
	height  float32
}

// The picture's room, and how wide words have to be beside it.
const (
	targetWide = 86
	targetHigh = 66
)

// planTarget lays out a card; where the words would be narrow they stand below the picture.
func planTarget(text TargetText, img *image.RGBA, width float32) targetPlan {
	p := targetPlan{picture: rect{0, Step / 2, targetWide, targetHigh}}
	if img != nil {
		by := min((targetWide-2)/float32(img.Rect.Dx()), (targetHigh-2)/float32(img.Rect.Dy()))
		p.picture.w, p.picture.h = round(float32(img.Rect.Dx())*by)+2, round(float32(img.Rect.Dy())*by)+2
	}
	left, top := float32(targetWide+2*Step), float32(0)
	if stacked := width-left < 12*TextSize(); stacked {
		left, top = 0, p.picture.bottom()+Step/2
	}
	p.cross = rect{width - Row(), 0, Row(), Row()}
	p.head = rect{left, top, width - left, Row()}
	if top == 0 {
		p.head.w -= Row()
	}
	room := width - left
	p.words = rect{left, top + Row() - Step/2, room, round(19 * textScale())}
	first := brokenLines(text.Distance, room, math.MaxInt, textWidth)
	p.lines = append(slices.Clone(first), brokenLines(text.Shares, room, math.MaxInt, smallWidth)...)
	p.first = len(first)
	p.height = max(p.words.y+float32(p.first)*p.words.h+float32(len(p.lines)-p.first)*quietLine(), p.picture.bottom()+Step/2)
	return p
}

func (t *TargetCard) write(size fyne.Size, of colours) {
	p := planTarget(t.text, t.img, size.Width)
	fill(t.frame, of(ColorNameHairline))
	name := cutWords(t.text.Name, p.head.w-t.head.quietAt(), textWidth)
	if name == "…" {
		name = ""
	}
	t.head.SetQuiet(name)
	for len(t.lines) < len(p.lines) {
		t.lines = append(t.lines, t.addText(TextSize, fyne.TextStyle{}))
	}
	for i, line := range t.lines {
		ink := ColorNameQuiet
		line.TextSize = SmallSize()
		if i < p.first {
			line.TextSize, ink = TextSize(), theme.ColorNameForeground
		}
		say(line, nth(p.lines, i), of(ink))
	}
}

func (t *TargetCard) place(size fyne.Size) {
	p := planTarget(t.text, t.img, size.Width)
	put(t.frame, p.picture.position(), p.picture.size())
	put(t.picture, p.picture.position().AddXY(1, 1), p.picture.size().SubtractWidthHeight(2, 2))
	put(t.head, p.head.position(), p.head.size())
	put(t.Cross, p.cross.position(), p.cross.size())
	y := p.words.y
	for i, line := range t.lines {
		placeText(line, p.words.x, y)
		if y += quietLine(); i < p.first {
			y += p.words.h - quietLine()
		}
	}
}

// minSize is as high as its lines in the width of now.
func (t *TargetCard) minSize() fyne.Size {
	return fyne.NewSize(30*Step, planTarget(t.text, t.img, max(t.Size().Width, 30*Step)).height)
}
