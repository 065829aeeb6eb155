package widgets

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/gui/wording"
)

// Verdict shows the sentence, always in the same place and at the same height, with the
// pair as two bars standing on one line. Use it on the Fyne goroutine only.
type Verdict struct {
	widget.BaseWidget
	text wording.VerdictText
	r    *verdictRenderer
}

// NewVerdict returns an empty verdict.
func NewVerdict() *Verdict {
	v := &Verdict{}
	v.ExtendBaseWidget(v)
	return v
}

// Set shows t; the same once more costs nothing.
func (v *Verdict) Set(t wording.VerdictText) {
	if t.Equal(v.text) {
		return
	}
	v.text = t
	if v.r != nil {
		v.r.write()
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

// CreateRenderer makes the canvas objects.
func (v *Verdict) CreateRenderer() fyne.WidgetRenderer {
	r := &verdictRenderer{v: v, back: canvas.NewRectangle(nil), foot: canvas.NewRectangle(nil)}
	r.back.CornerRadius = Radius
	r.title = sizedText(SentenceSize, fyne.TextStyle{})
	for i := range r.lines {
		r.lines[i] = sizedText(TextSize, fyne.TextStyle{})
	}
	for i := range r.bars {
		r.bars[i] = canvas.NewRectangle(nil)
		r.bars[i].StrokeWidth = 1 // so that a bar like the panel is seen
		r.names[i] = sizedText(SmallSize, fyne.TextStyle{})
	}
	v.r = r
	r.colour()
	return r
}

// sizedText returns an empty text, its colour to come.
func sizedText(size float32, style fyne.TextStyle) *canvas.Text {
	t := canvas.NewText("", nil)
	t.TextSize, t.TextStyle = size, style
	return t
}

type verdictRenderer struct {
	v          *Verdict
	back, foot *canvas.Rectangle
	bars       [2]*canvas.Rectangle
	names      [2]*canvas.Text
	title      *canvas.Text
	lines      [2]*canvas.Text // below the sentence
	loud       [2]bool         // which of them hold a remark
}

func (r *verdictRenderer) colour() {
	th, v := r.v.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	fore, quiet := th.Color(theme.ColorNameForeground, v), th.Color(ColorNameQuiet, v)
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.foot.FillColor = fore
	r.title.Color = th.Color(ColorNameFocusLine, v)
	for i := range r.bars {
		r.bars[i].StrokeColor = th.Color(ColorNameMass, v)
		r.names[i].Color = quiet
	}
	for i := range r.lines {
		r.lines[i].Color = quiet
		if r.loud[i] {
			r.lines[i].Color = fore
		}
	}
}

// barRect returns where bar i stands: its foot is on the line, its height its lightness.
func barRect(i int, lightness float64) (fyne.Position, fyne.Size) {
	w, h := (barsWidth-Step/2)/2, barsHeight*float32(min(max(lightness, 0), 100)/100)
	return fyne.NewPos(barsLeft+float32(i)*(w+Step/2), barsFoot-h), fyne.NewSize(w, h)
}

// Layout puts the bars left and the sentence beside them.
func (r *verdictRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	r.foot.Move(fyne.NewPos(barsLeft-Step/2, barsFoot))
	r.foot.Resize(fyne.NewSize(barsWidth+Step, 2))
	r.write()
}

// write puts in the bars and the words of now. Nothing but the bars' height moves: the
// sentence is always where it was.
func (r *verdictRenderer) write() {
	for i := range r.bars {
		r.writeBar(i)
	}
	t, room := r.v.text, max(r.v.Size().Width-textLeft-Step, 1)
	sentence := longestFitting(room, SentenceSize, t.Title, t.Short)
	r.title.TextSize = fittingSize(sentence, SentenceSize, room)
	put(r.title, sentence)
	placeText(r.title, textLeft, titleTop)

	lines := verdictLines(t, func(s string) bool { return fyne.MeasureText(s, SmallSize, fyne.TextStyle{}).Width <= room })
	for i, line := range lines {
		r.loud[i] = line.remark
		size := TextSize
		if line.remark {
			size = SmallSize
		}
		r.lines[i].TextSize = fittingSize(line.words, size, room)
	}
	r.colour()
	for i, line := range lines {
		put(r.lines[i], line.words)
	}
	placeText(r.lines[0], textLeft, subTop)
	placeText(r.lines[1], textLeft, remarkTop)
}

func (r *verdictRenderer) writeBar(i int) {
	bar, name := r.bars[i], r.names[i]
	if i >= len(r.v.text.Bars) {
		bar.Hide()
		name.Hide()
		return
	}
	t := r.v.text.Bars[i]
	if fill := (color.NRGBA{t.Grey, t.Grey, t.Grey, 255}); bar.FillColor != fill {
		bar.FillColor = fill
		bar.Refresh()
	}
	pos, box := barRect(i, t.Lightness)
	bar.Move(pos)
	bar.Resize(box)
	bar.Show()
	put(name, t.Name)
	placeText(name, pos.X+(box.Width-name.MinSize().Width)/2, barsFoot+2)
	name.Show()
}

// verdictLine is a line below the sentence.
type verdictLine struct {
	words  string
	remark bool
}

// verdictLines shares out the two lines below the sentence. Where a remark needs both, it
// takes the place of the quieter words: what misleads is to be known first.
func verdictLines(t wording.VerdictText, fits func(string) bool) [2]verdictLine {
	first, second := breakLine(t.Remark, fits)
	if second == "" {
		return [2]verdictLine{{words: t.Sub}, {words: first, remark: true}}
	}
	return [2]verdictLine{{first, true}, {second, true}}
}

// fittingSize returns the size at which words fit into room: the wished one, or as many whole
// sizes less as it takes. Words are never cut.
func fittingSize(words string, size, room float32) float32 {
	for size > 1 && fyne.MeasureText(words, size, fyne.TextStyle{}).Width > room {
		size--
	}
	return size
}

// placeText moves a text to its place, and gives it its own size.
func placeText(t *canvas.Text, x, y float32) {
	t.Move(fyne.NewPos(x, y))
	t.Resize(t.MinSize())
}

// put gives a text new words; the same ones cost nothing.
func put(t *canvas.Text, words string) {
	if t.Text != words {
		t.Text = words
		t.Refresh()
	}
}

// longestFitting returns the first of the words that fit into room at a size, or the last.
func longestFitting(room, size float32, words ...string) string {
	for _, w := range words[:len(words)-1] {
		if fyne.MeasureText(w, size, fyne.TextStyle{}).Width <= room {
			return w
		}
	}
	return words[len(words)-1]
}

// breakLine breaks words into two lines at the last space that lets the first fit. The
// second holds all the rest.
func breakLine(words string, fits func(string) bool) (first, second string) {
	if words == "" || fits(words) {
		return words, ""
	}
	at := strings.Index(words, " ") // a first word too long is not broken either
	for i, c := range words {
		if c == ' ' && fits(words[:i]) {
			at = i
		}
	}
	if at < 0 {
		return words, ""
	}
	return words[:at], words[at+1:]
}

// MinSize has a fixed height: nothing below may jump.
func (r *verdictRenderer) MinSize() fyne.Size { return fyne.NewSize(30*Step, verdictHeight) }

// Refresh draws with the theme of now.
func (r *verdictRenderer) Refresh() {
	r.colour()
	r.write()
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn.
func (r *verdictRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{
		r.back, r.bars[0], r.bars[1], r.foot, r.names[0], r.names[1], r.title, r.lines[0], r.lines[1],
	}
}

// Destroy has nothing to let go of.
func (r *verdictRenderer) Destroy() {}
