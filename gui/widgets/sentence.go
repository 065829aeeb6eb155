package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/wording"
)

// Sentence shows the answer to what the open page asks, in large type: it never wraps and is never
// cut. Left of it a pair stands as two bars on one line, or a pictogram. How high it is its owner
// decides; where there is room for a second line it shows one.
type Sentence struct {
	drawn
	text wording.Sentence

	back, foot   *canvas.Rectangle
	bars         [2]*canvas.Rectangle
	names        [2]*canvas.Text
	icon         *canvas.Image
	title        *canvas.Text
	below, right *canvas.Text
}

// NewSentence returns an empty sentence.
func NewSentence() *Sentence {
	s := &Sentence{}
	s.back = add(&s.drawn, newPanelBox())
	for i := range s.bars {
		s.bars[i], s.names[i] = s.addBox(), s.addText(SmallSize, fyne.TextStyle{Bold: true})
	}
	s.foot, s.icon = s.addBox(), s.addIcon()
	s.title = s.addText(SentenceSize, fyne.TextStyle{})
	s.below, s.right = s.addText(SmallSize, fyne.TextStyle{}), s.addText(SmallSize, fyne.TextStyle{})
	s.draw(s)
	return s
}

// Set shows t; the same once more costs nothing.
func (s *Sentence) Set(t wording.Sentence) {
	if !t.Equal(s.text) {
		s.text = t
		s.redraw()
	}
}

// Text returns what is shown.
func (s *Sentence) Text() wording.Sentence { return s.text }

// sentencePlan is where the parts lie in one line or in two, at the text's plain size.
type sentencePlan struct {
	barLeft, barWidth, barGap, barHigh, foot float32 // barHigh is that of lightness 100; foot is where they stand
	icon                                     float32 // its side
	besideBars, besideIcon                   float32 // where the words begin
	title                                    float32 // its middle where there is a line below
	below                                    float32 // the middle of that
}

var (
	sentenceOneLine  = sentencePlan{barLeft: 14, barWidth: 10, barGap: 2, barHigh: 28, foot: 31, icon: 20, besideBars: 52, besideIcon: 44, title: 18}
	sentenceTwoLines = sentencePlan{barLeft: 16, barWidth: 22, barGap: 3, barHigh: 46, foot: 54, icon: 24, besideBars: 80, besideIcon: 56, title: 22, below: 47}
)

const (
	sentenceInset = 2 * Step // where words begin that stand alone, and where they end
	rightApart    = 2 * Step // least room between the sentence and the words at the right
	sentenceEnd   = 1.5 * Step
)

// grown is the plan in a size of text.
func (p sentencePlan) grown(by float32) sentencePlan {
	for _, v := range []*float32{&p.barLeft, &p.barWidth, &p.barGap, &p.barHigh, &p.foot, &p.icon, &p.besideBars, &p.besideIcon, &p.title, &p.below} {
		*v = round(*v * by)
	}
	return p
}

// planFor chooses by the height that there is.
func planFor(height float32) sentencePlan {
	if height >= sentenceTwoLines.below*textScale()+SmallSize()/2 {
		return sentenceTwoLines.grown(textScale())
	}
	return sentenceOneLine.grown(textScale())
}

// left is where the words begin, and bare where they do without bars and icon.
func (s *Sentence) left(p sentencePlan) float32 {
	switch {
	case len(s.text.Bars) > 0:
		return p.besideBars
	case s.text.Icon != "":
		return p.besideIcon
	}
	return sentenceInset
}

// bare reports whether the words need the room of the bars too.
func (s *Sentence) bare(p sentencePlan, width float32) bool {
	return fyne.MeasureText(s.text.Short, SentenceSize(), fyne.TextStyle{}).Width > width-s.left(p)-sentenceEnd
}

// lines are the words below and at the right in a plan: where there is a second line but nothing
// for it, the words of the right stand there.
func (s *Sentence) lines(p sentencePlan, room, title float32) (below, right string) {
	t := s.text
	if p.below > 0 {
		if t.Below == "" {
			return t.Named(t.Right), ""
		}
		return longestFitting(room, SmallSize(), t.Named(t.Below), t.Named(t.BelowShort), t.Named(t.Below)), ""
	}
	for _, words := range []string{t.Named(t.Right), t.Named(firstOf(t.Right)), t.Space, t.Right, firstOf(t.Right)} {
		if words != "" && title+rightApart+smallWidth(words) <= room {
			right = words
			break
		}
	}
	return "", right
}

// write puts in the bars and the words that fit.
func (s *Sentence) write(size fyne.Size, of colours) {
	p := planFor(size.Height)
	fillEdged(s.back, ColorNamePanel, of)
	bare := s.bare(p, size.Width)
	s.writeBars(p, bare, of)
	ink := ColorNameFocusLine
	if s.text.Dim {
		ink = ColorNameQuiet
	}
	name := icons.Name("")
	if !bare && len(s.text.Bars) == 0 {
		name = icons.Name(s.text.Icon)
	}
	picture(s.icon, name, ink)
	left := s.left(p)
	if bare {
		left = sentenceInset
	}
	room := max(size.Width-left-sentenceEnd, 1)
	words := longestFitting(room, SentenceSize(), s.text.Title, s.text.Short)
	s.title.TextSize = fittingSize(words, SentenceSize(), room)
	say(s.title, words, of(ink))
	below, right := s.lines(p, room, fyne.MeasureText(words, s.title.TextSize, fyne.TextStyle{}).Width)
	s.below.TextSize = fittingSize(below, SmallSize(), room)
	say(s.below, below, of(ColorNameQuiet))
	say(s.right, right, of(ColorNameQuiet))
}

// writeBars gives the bars their greys, and names them where there is room for letters.
func (s *Sentence) writeBars(p sentencePlan, bare bool, of colours) {
	fill(s.foot, of(ColorNameFocusLine))
	show(s.foot, !bare && len(s.text.Bars) > 0)
	for i, bar := range s.bars {
		there := !bare && i < len(s.text.Bars)
		b := nth(s.text.Bars, i)
		show(bar, there)
		fill(bar, greyFill(b.Grey))
		edge(bar, near(bar.FillColor, of(ColorNamePanel)), of(ColorNameHairline))
		name, ink := "", of(theme.ColorNameForeground)
		if there && p.below > 0 {
			name = b.Name
		}
		if s.nameInside(p, b) {
			ink = greyFill(colour.GreyOf(inkOn(b.Lightness)))
		}
		say(s.names[i], name, ink)
	}
}

// nearPanel is up to which difference of 8-bit codes a grey is lost in the panel (our choice: about
// ten steps of lightness).
const nearPanel = 25

// near reports whether one grey is hardly seen on another.
func near(a, b color.Color) bool {
	x, _, _, _ := a.RGBA()
	y, _, _, _ := b.RGBA()
	return max(x, y)-min(x, y) < nearPanel<<8
}

// edge gives a box a hairline, or takes it away.
func edge(box *canvas.Rectangle, on bool, ink color.Color) {
	width := float32(0)
	if on {
		width = 1
	}
	if box.StrokeWidth != width || box.StrokeColor != ink {
		box.StrokeWidth, box.StrokeColor = width, ink
		box.Refresh()
	}
}

// inkOn is the lightness (L*) of letters on a grey: far from it, so that they are read.
func inkOn(lightness float64) float64 {
	if lightness >= 50 {
		return 5
	}
	return 97
}

// nameInside reports whether a bar is high enough for its letter; else that stands on it.
func (s *Sentence) nameInside(p sentencePlan, b wording.Bar) bool {
	return barHigh(p, b.Lightness) >= SmallSize()*1.5
}

func barHigh(p sentencePlan, lightness float64) float32 {
	return p.barHigh * float32(min(max(lightness, 0), 100)/100)
}

// barRect returns where bar i stands: its foot is on the line, its height its lightness.
func barRect(p sentencePlan, i int, lightness float64) (fyne.Position, fyne.Size) {
	h := barHigh(p, lightness)
	return fyne.NewPos(p.barLeft+float32(i)*(p.barWidth+p.barGap), p.foot-h), fyne.NewSize(p.barWidth, h)
}

// place puts the bars left and the words beside them.
func (s *Sentence) place(size fyne.Size) {
	p := planFor(size.Height)
	s.back.Resize(size)
	put(s.foot, fyne.NewPos(p.barLeft-4, p.foot), fyne.NewSize(2*p.barWidth+p.barGap+8, barLine))
	for i := range min(len(s.text.Bars), len(s.bars)) {
		pos, box := barRect(p, i, s.text.Bars[i].Lightness)
		put(s.bars[i], pos, box)
		text := s.names[i].MinSize()
		y := p.foot - text.Height - 1
		if !s.nameInside(p, s.text.Bars[i]) {
			y = pos.Y - text.Height
		}
		placeText(s.names[i], pos.X+(box.Width-text.Width)/2, y)
	}
	put(s.icon, fyne.NewPos((p.besideIcon-p.icon)/2, (size.Height-p.icon)/2), fyne.NewSquareSize(p.icon))
	s.placeWords(p, size)
}

// barLine is the height of the line on which bars stand.
const barLine = 2

// placeWords stands the sentence in the middle, or over the line below it.
func (s *Sentence) placeWords(p sentencePlan, size fyne.Size) {
	left := s.left(p)
	if s.bare(p, size.Width) {
		left = sentenceInset
	}
	title, below := s.title.MinSize(), s.below.MinSize()
	y := (size.Height - title.Height) / 2
	if s.below.Text != "" {
		y = p.title - title.Height/2
		placeText(s.below, left, p.below-below.Height/2)
	}
	placeText(s.title, left, y)
	_, baseline := fyne.CurrentApp().Driver().RenderedTextSize(s.title.Text, s.title.TextSize, s.title.TextStyle, nil)
	setRight(s.right, span{left: left, right: size.Width - sentenceEnd, baseline: y + baseline})
}
