package gui

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// VerdictText is what is said of two spots.
type VerdictText struct {
	Title  string // the sentence
	Short  string // the same for a narrow window
	Sub    string // quieter, below
	Remark string // on how a grey layer would mislead; "" for none
	Bars   []Bar  // the spots' lightness, side by side
}

func (t VerdictText) equal(o VerdictText) bool {
	return t.Title == o.Title && t.Short == o.Short && t.Sub == o.Sub && t.Remark == o.Remark && slices.Equal(t.Bars, o.Bars)
}

// Bar is a spot's lightness as a bar.
type Bar struct {
	Name      string
	Lightness float64 // L*, 0 to 100: the height
	Grey      uint8   // 8-bit code: the fill
}

// Verdict shows the sentence, always in the same place and at the same height, with the
// pair as two bars standing on one line. Use it on the Fyne goroutine only.
type Verdict struct {
	widget.BaseWidget
	text VerdictText
	r    *verdictRenderer
}

// NewVerdict returns an empty verdict.
func NewVerdict() *Verdict {
	v := &Verdict{}
	v.ExtendBaseWidget(v)
	return v
}

// Set shows t; the same once more costs nothing.
func (v *Verdict) Set(t VerdictText) {
	if t.equal(v.text) {
		return
	}
	v.text = t
	if v.r != nil {
		v.r.write()
	}
}

// Text returns what is shown.
func (v *Verdict) Text() VerdictText { return v.text }

// Lengths of the verdict.
const (
	verdictHeight = 10 * Step
	barsWidth     = 5 * Step   // of the two bars
	barsHeight    = 6.5 * Step // of lightness 100
)

// CreateRenderer makes the canvas objects.
func (v *Verdict) CreateRenderer() fyne.WidgetRenderer {
	r := &verdictRenderer{v: v, back: canvas.NewRectangle(nil), foot: canvas.NewRectangle(nil)}
	r.back.CornerRadius = Radius
	r.title, r.sub, r.remark = canvas.NewText("", nil), canvas.NewText("", nil), [2]*canvas.Text{canvas.NewText("", nil), canvas.NewText("", nil)}
	r.title.TextSize, r.sub.TextSize = SentenceSize, TextSize
	for i := range r.bars {
		r.bars[i] = canvas.NewRectangle(nil)
		r.edges[i] = canvas.NewRectangle(color.Transparent)
		r.edges[i].StrokeWidth = 1
	}
	for _, t := range r.remark {
		t.TextSize = SmallSize
	}
	v.r = r
	r.colour()
	return r
}

type verdictRenderer struct {
	v          *Verdict
	back, foot *canvas.Rectangle
	bars       [2]*canvas.Rectangle
	edges      [2]*canvas.Rectangle // of the bars, so that one like the panel is seen
	title, sub *canvas.Text
	remark     [2]*canvas.Text // in two lines at most
}

func (r *verdictRenderer) colour() {
	th, v := r.v.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.foot.FillColor = th.Color(theme.ColorNameForeground, v)
	r.title.Color = th.Color(ColorNameFocusLine, v)
	r.sub.Color = th.Color(ColorNameQuiet, v)
	for i := range r.remark {
		r.remark[i].Color = th.Color(theme.ColorNameForeground, v)
		r.edges[i].StrokeColor = th.Color(ColorNameMass, v)
	}
}

// barRect returns where bar i stands: its foot is on the line, its height its lightness.
func barRect(i int, lightness float64, height float32) (fyne.Position, fyne.Size) {
	w, h := (barsWidth-Step/2)/2, barsHeight*float32(min(max(lightness, 0), 100)/100)
	foot := (height + barsHeight) / 2
	return fyne.NewPos(2*Step+float32(i)*(w+Step/2), foot-h), fyne.NewSize(w, h)
}

// Layout puts the bars left and the sentence beside them.
func (r *verdictRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	r.foot.Move(fyne.NewPos(1.5*Step, (size.Height+barsHeight)/2))
	r.foot.Resize(fyne.NewSize(barsWidth+Step, 2))
	r.write()
}

// write puts in the texts and the bars of now.
func (r *verdictRenderer) write() {
	size, t := r.v.Size(), r.v.text
	for i, bar := range r.bars {
		bar.Hide()
		r.edges[i].Hide()
		if i < len(t.Bars) {
			pos, box := barRect(i, t.Bars[i].Lightness, size.Height)
			grey := t.Bars[i].Grey
			bar.FillColor = color.NRGBA{grey, grey, grey, 255}
			bar.Move(pos)
			bar.Resize(box)
			bar.Show()
			bar.Refresh()
			r.edges[i].Move(pos)
			r.edges[i].Resize(box)
			r.edges[i].Show()
		}
	}
	x := 2*Step + barsWidth + 2*Step
	room := size.Width - x - Step
	put(r.title, longestFitting(room, SentenceSize, t.Title, t.Short))
	if room > 0 { // what still doesn't fit is written smaller, never cut
		r.title.TextSize = SentenceSize
		if w := fyne.MeasureText(r.title.Text, SentenceSize, r.title.TextStyle).Width; w > room {
			r.title.TextSize = max(SentenceSize*room/w, TextSize)
		}
	}
	r.sub.TextSize = TextSize
	if fyne.MeasureText(t.Sub, TextSize, r.sub.TextStyle).Width > room {
		r.sub.TextSize = SmallSize
	}
	put(r.sub, t.Sub)
	first, second := breakLine(t.Remark, room, r.remark[0])
	put(r.remark[0], first)
	put(r.remark[1], second)
	y := (size.Height - r.title.MinSize().Height - r.sub.MinSize().Height) / 2
	if first != "" {
		y = Step / 4
	}
	for _, text := range []*canvas.Text{r.title, r.sub, r.remark[0], r.remark[1]} {
		text.Move(fyne.NewPos(x, y))
		text.Resize(text.MinSize())
		y += text.MinSize().Height - 1
	}
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

// breakLine breaks words into two lines of at most room, at the last space that fits.
func breakLine(words string, room float32, like *canvas.Text) (first, second string) {
	fits := func(s string) bool { return fyne.MeasureText(s, like.TextSize, like.TextStyle).Width <= room }
	if words == "" || fits(words) {
		return words, ""
	}
	at := 0
	for i, c := range words {
		if c == ' ' && fits(words[:i]) {
			at = i
		}
	}
	if at == 0 {
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
	return []fyne.CanvasObject{r.back, r.bars[0], r.bars[1], r.edges[0], r.edges[1], r.foot, r.title, r.sub, r.remark[0], r.remark[1]}
}

// Destroy has nothing to let go of.
func (r *verdictRenderer) Destroy() {}
