package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// Verdict shows the sentence, always in the same place and at the same height, with the
// pair as two bars standing on one line. Use it on the Fyne goroutine only.
type Verdict struct {
	drawn
	text wording.VerdictText
	look *verdictLook
}

// NewVerdict returns an empty verdict.
func NewVerdict() *Verdict {
	v := &Verdict{}
	v.look = newVerdictLook(v)
	l := v.look
	v.draw(v, l, l.back, l.bars[0], l.bars[1], l.foot, l.names[0], l.names[1], l.title, l.lines[0], l.lines[1])
	return v
}

// Set shows t; the same once more costs nothing.
func (v *Verdict) Set(t wording.VerdictText) {
	if !t.Equal(v.text) {
		v.text = t
		v.redraw()
	}
}

// Text returns what is shown.
func (v *Verdict) Text() wording.VerdictText { return v.text }

// Lengths of the verdict.
const (
	verdictHeight = 10 * Step
	barsLeft      = 2 * Step
	barsWidth     = 5 * Step // of the two bars and the gap between them
	barsHeight    = 6 * Step // of lightness 100
	barsFoot      = Step + barsHeight
	textLeft      = barsLeft + barsWidth + 2*Step
	titleTop      = 1.25 * Step
	subTop        = titleTop + 3.5*Step // below the sentence's letters
	remarkTop     = subTop + 2*Step
)

type verdictLook struct {
	v          *Verdict
	back, foot *canvas.Rectangle
	bars       [2]*canvas.Rectangle
	names      [2]*canvas.Text
	title      *canvas.Text
	lines      [2]*canvas.Text // below the sentence
}

func newVerdictLook(v *Verdict) *verdictLook {
	l := &verdictLook{v: v, back: newPanelBox(), foot: canvas.NewRectangle(nil), title: sizedText(SentenceSize, fyne.TextStyle{})}
	for i := range l.bars {
		l.bars[i] = canvas.NewRectangle(nil)
		l.bars[i].StrokeWidth = 1 // so that a bar like the panel is seen
		l.names[i] = sizedText(SmallSize, fyne.TextStyle{})
		l.lines[i] = sizedText(TextSize, fyne.TextStyle{})
	}
	return l
}

// write puts in the bars and the words that fit.
func (l *verdictLook) write(size fyne.Size, of colours) {
	fill(l.back, of(ColorNamePanel))
	fill(l.foot, of(theme.ColorNameForeground))
	for i, bar := range l.bars {
		there := i < len(l.v.text.Bars)
		show(bar, there)
		show(l.names[i], there)
		bar.StrokeColor = of(ColorNameMass)
		if there {
			fill(bar, greyFill(l.v.text.Bars[i].Grey))
			say(l.names[i], l.v.text.Bars[i].Name, of(ColorNameQuiet))
		}
	}
	t, room := l.v.text, max(size.Width-textLeft-Step, 1)
	sentence := longestFitting(room, SentenceSize, t.Title, t.Short)
	l.title.TextSize = fittingSize(sentence, SentenceSize, room)
	say(l.title, sentence, of(ColorNameFocusLine))
	for i, line := range verdictLines(t, room, smallWidth) {
		size, ink := TextSize, of(ColorNameQuiet)
		if line.remark {
			size, ink = SmallSize, of(theme.ColorNameForeground)
		}
		l.lines[i].TextSize = fittingSize(line.words, size, room)
		say(l.lines[i], line.words, ink)
	}
}

// barRect returns where bar i stands: its foot is on the line, its height its lightness.
func barRect(i int, lightness float64) (fyne.Position, fyne.Size) {
	w, h := (barsWidth-Step/2)/2, barsHeight*float32(min(max(lightness, 0), 100)/100)
	return fyne.NewPos(barsLeft+float32(i)*(w+Step/2), barsFoot-h), fyne.NewSize(w, h)
}

// place puts the bars left and the sentence beside them. Nothing but the bars' height ever
// moves: the sentence is always where it was.
func (l *verdictLook) place(size fyne.Size) {
	l.back.Resize(size)
	put(l.foot, fyne.NewPos(barsLeft-Step/2, barsFoot), fyne.NewSize(barsWidth+Step, 2))
	for i := range min(len(l.v.text.Bars), len(l.bars)) {
		pos, box := barRect(i, l.v.text.Bars[i].Lightness)
		put(l.bars[i], pos, box)
		placeText(l.names[i], pos.X+(box.Width-l.names[i].MinSize().Width)/2, barsFoot+2)
	}
	placeText(l.title, textLeft, titleTop)
	placeText(l.lines[0], textLeft, subTop)
	placeText(l.lines[1], textLeft, remarkTop)
}

// minSize has a fixed height: nothing below may jump.
func (l *verdictLook) minSize() fyne.Size { return fyne.NewSize(30*Step, verdictHeight) }

// verdictLine is a line below the sentence.
type verdictLine struct {
	words  string
	remark bool
}

// verdictLines shares out the two lines below the sentence, as wide as room. Where a remark
// needs both, it takes the place of the quieter words: what misleads is to be known first.
func verdictLines(t wording.VerdictText, room float32, measure func(string) float32) [2]verdictLine {
	remark := brokenLines(t.Remark, room, 2, measure)
	if len(remark) == 1 {
		return [2]verdictLine{{words: t.Sub}, {words: remark[0], remark: true}}
	}
	return [2]verdictLine{{remark[0], true}, {remark[1], true}}
}
