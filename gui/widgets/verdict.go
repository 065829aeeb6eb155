package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// Verdict shows the sentence, always in the same place and at the same height, with the
// pair as two bars standing on one line.
type Verdict struct {
	drawn
	text wording.VerdictText

	back, foot *canvas.Rectangle
	bars       [2]*canvas.Rectangle
	names      [2]*canvas.Text
	title      *canvas.Text
	lines      [2]*canvas.Text // below the sentence
}

// NewVerdict returns an empty verdict.
func NewVerdict() *Verdict {
	v := &Verdict{}
	v.back = add(&v.drawn, newPanelBox())
	for i := range v.bars {
		v.bars[i], v.names[i] = v.addBox(), v.addText(SmallSize, fyne.TextStyle{})
		v.bars[i].StrokeWidth = 1 // so that a bar like the panel is seen
		v.lines[i] = v.addText(TextSize, fyne.TextStyle{})
	}
	v.foot, v.title = v.addBox(), v.addText(SentenceSize, fyne.TextStyle{})
	v.least = fyne.NewSize(30*Step, verdictHeight) // always: nothing below may jump
	v.draw(v)
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

// write puts in the bars and the words that fit.
func (v *Verdict) write(size fyne.Size, of colours) {
	fill(v.back, of(ColorNamePanel))
	fill(v.foot, of(theme.ColorNameForeground))
	for i, bar := range v.bars {
		show(bar, i < len(v.text.Bars))
		bar.StrokeColor = of(ColorNameMass)
		fill(bar, greyFill(nth(v.text.Bars, i).Grey))
		say(v.names[i], nth(v.text.Bars, i).Name, of(ColorNameQuiet))
	}
	t, room := v.text, max(size.Width-textLeft-Step, 1)
	sentence := longestFitting(room, SentenceSize, t.Title, t.Short)
	v.title.TextSize = fittingSize(sentence, SentenceSize, room)
	say(v.title, sentence, of(ColorNameFocusLine))
	for i, line := range verdictLines(t, room, smallWidth) {
		size, ink := TextSize, of(ColorNameQuiet)
		if line.remark {
			size, ink = SmallSize, of(theme.ColorNameForeground)
		}
		v.lines[i].TextSize = fittingSize(line.words, size, room)
		say(v.lines[i], line.words, ink)
	}
}

// barRect returns where bar i stands: its foot is on the line, its height its lightness.
func barRect(i int, lightness float64) (fyne.Position, fyne.Size) {
	w, h := (barsWidth-Step/2)/2, barsHeight*float32(min(max(lightness, 0), 100)/100)
	return fyne.NewPos(barsLeft+float32(i)*(w+Step/2), barsFoot-h), fyne.NewSize(w, h)
}

// place puts the bars left and the sentence beside them. Nothing but the bars' height ever
// moves: the sentence is always where it was.
func (v *Verdict) place(size fyne.Size) {
	v.back.Resize(size)
	put(v.foot, fyne.NewPos(barsLeft-Step/2, barsFoot), fyne.NewSize(barsWidth+Step, 2))
	for i := range min(len(v.text.Bars), len(v.bars)) {
		pos, box := barRect(i, v.text.Bars[i].Lightness)
		put(v.bars[i], pos, box)
		placeText(v.names[i], pos.X+(box.Width-v.names[i].MinSize().Width)/2, barsFoot+2)
	}
	placeText(v.title, textLeft, titleTop)
	placeText(v.lines[0], textLeft, subTop)
	placeText(v.lines[1], textLeft, remarkTop)
}

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
