package widgets

import (
	"cmp"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/language"
	"app.tonedesk/gui/wording"
)

// LightCard says whether a picture's shadows agree, and shows on two scales how deep each lies and
// how its hue shifts: a swatch a shadow, with a frame where it disagrees. The band of the first is
// where a shadow reads.
type LightCard struct {
	drawn
	text wording.LightCardText

	lines []*canvas.Text // as many as there ever were
	rows  [2]lightScaleLook
}

// lightScaleLook is what is drawn of a scale.
type lightScaleLook struct {
	name     *canvas.Text
	band     *canvas.Rectangle // none under the second
	axis     *canvas.Rectangle
	ticks    [mostLightTicks]*canvas.Text
	swatches []lightSwatchLook // as many as there ever were
}

// lightSwatchLook is a swatch, with the frame round one that disagrees.
type lightSwatchLook struct{ frame, gap, colour *canvas.Rectangle }

// NewLightCard returns a card that says nothing as yet.
func NewLightCard() *LightCard {
	c := &LightCard{}
	for i := range c.rows {
		r := &c.rows[i]
		r.name, r.band, r.axis = c.addText(TextSize, fyne.TextStyle{}), c.addBox(), c.addBox()
		for k := range r.ticks {
			r.ticks[k] = c.addText(SmallSize, fyne.TextStyle{})
		}
	}
	c.draw(c)
	return c
}

// Set shows t; the same once more costs nothing.
func (c *LightCard) Set(t wording.LightCardText) {
	if !t.Equal(c.text) {
		c.text = t
		c.redraw()
	}
}

// Text returns what is shown.
func (c *LightCard) Text() wording.LightCardText { return c.text }

// Lengths of the diagram.
const (
	lightSwatchWide = 10
	lightFrame      = 2 // a frame's line, and the gap within it
	mostLightTicks  = 11
)

// lightSwatchHigh is the height of a swatch, which stays narrow beside larger text since its place says
// something; lightBandHigh that of the band under some.
func lightSwatchHigh() float32 { return round(14 * textScale()) }
func lightBandHigh() float32   { return round(18 * textScale()) }

// lightNames are what the two scales are of.
var lightNames = [2]language.Words{"depth", "hue shift"}

// lightPlan is where everything lies in a card of a width.
type lightPlan struct {
	lines  []string // of words, those in the text's size first
	full   int      // how many are
	rows   [2]lightRow
	shown  int // how many rows are
	height float32
}

// lightRow is a scale with its swatches.
type lightRow struct {
	name     fyne.Position
	from, to float32 // ends of the axis
	y        float32 // its middle
	band     rect    // none where w is 0
	ticks    []placedWords
	ticksAt  float32
	swatches []rect
	of       []int  // the shadow that each swatch is of
	framed   []bool // whether it disagrees
}

// planLight lays out what t says in a width.
func planLight(t wording.LightCardText, width float32) lightPlan {
	var p lightPlan
	for _, words := range t.Lines {
		p.lines = append(p.lines, brokenLines(words, width, math.MaxInt, textWidth)...)
	}
	p.full = len(p.lines)
	for _, words := range t.Quiet {
		p.lines = append(p.lines, brokenLines(words, width, math.MaxInt, smallWidth)...)
	}
	p.height = float32(p.full)*lightLine() + float32(len(p.lines)-p.full)*quietLine()
	if len(t.Shadows) == 0 {
		p.height += Step / 2
		return p
	}
	p.shown, p.rows = 2, [2]lightRow{depthRow(t), hueRow(t)}
	scales := [2]lightScale{depthScale(t), hueScale(t)}
	p.height += Step / 2
	for i, s := range scales {
		r := &p.rows[i]
		r.to = width - round(max(scales[0].beyond(), scales[1].beyond(), Step))
		p.height = r.place(s, width, p.height+Step/2)
		if i == 0 {
			left, right := s.x(t.Rule[0], r.from, r.to), s.x(t.Rule[1], r.from, r.to)
			r.band = rect{left, r.y - lightBandHigh()/2, max(right-left, 0), lightBandHigh()}
		}
		r.placeSwatches(s, t)
	}
	return p
}

// beyond is how far the words of the last tick stand beyond the end of the axis.
func (s lightScale) beyond() float32 { return smallWidth(s.say(s.to, false)) / 2 }

// lightLine is the height of a line of words in the text's size.
func lightLine() float32 { return round(19 * textScale()) }

// depthRow and hueRow say of which shadows there are swatches, and which stand out. One whose colour
// disagrees and that has no hue to shift stands out by its depth.
func depthRow(t wording.LightCardText) (r lightRow) {
	for i, s := range t.Shadows {
		r.of, r.framed = append(r.of, i), append(r.framed, s.Deep || s.Hue && s.HueShift == nil)
	}
	return r
}

func hueRow(t wording.LightCardText) (r lightRow) {
	for i, s := range t.Shadows {
		if s.HueShift != nil {
			r.of, r.framed = append(r.of, i), append(r.framed, s.Hue)
		}
	}
	return r
}

// lightScale is a scale: its ends, its ticks and where the shadows stand on it.
type lightScale struct {
	from, to float64
	ticks    []float64
	say      func(tick float64, first bool) string
	at       func(s wording.LightShadow) float64
}

// depthScale goes from one tone to four, or as far as there are shadows.
func depthScale(t wording.LightCardText) lightScale {
	s := lightScale{from: 1, to: 4, say: wording.SayDepthTick, at: func(s wording.LightShadow) float64 { return s.Tones }}
	for _, shadow := range t.Shadows {
		s.from, s.to = min(s.from, math.Floor(shadow.Tones)), max(s.to, math.Ceil(shadow.Tones))
	}
	s.from, s.to = min(s.from, math.Floor(t.Rule[0])), max(s.to, math.Ceil(t.Rule[1]))
	for v := s.from; v <= s.to; v++ {
		s.ticks = append(s.ticks, v)
	}
	return s
}

// hueScale goes as far to either side, in steps of degrees by which it is easily read.
func hueScale(t wording.LightCardText) lightScale {
	half := 60.0
	for _, s := range t.Shadows {
		for s.HueShift != nil && math.Abs(*s.HueShift) > half && half < 180 {
			half += 30
		}
	}
	s := lightScale{from: -half, to: half, say: wording.SayHueTick, at: func(s wording.LightShadow) float64 { return *s.HueShift }}
	for k := -2.0; k <= 2; k++ {
		s.ticks = append(s.ticks, k*half/2)
	}
	return s
}

// place lays the scale out from y on and returns where it ends. Its name stands before it, or above it
// where that takes more than a third of the width.
func (r *lightRow) place(s lightScale, width, y float32) float32 {
	names, before := max(textWidth(lightNames[0].String()), textWidth(lightNames[1].String())), smallWidth(wording.SayHueTick(-60, false))/2
	r.name, r.from = fyne.NewPos(0, y+(lightBandHigh()-lightLine())/2), round(names+Step+before)
	if names > width/3 {
		r.name.Y, r.from = y, round(before+2*lightFrame)
		y += lightLine()
	}
	r.y, r.ticksAt = y+lightBandHigh()/2, y+lightBandHigh()+1
	r.placeTicks(s, width)
	return r.ticksAt + quietLine()
}

// x is where a figure stands on a scale from left to right.
func (s lightScale) x(v float64, left, right float32) float32 {
	return left + float32((v-s.from)/(s.to-s.from))*(right-left)
}

// placeSwatches stands a swatch on the scale for every shadow of the row; where they would lie over
// each other they move apart.
func (r *lightRow) placeSwatches(s lightScale, t wording.LightCardText) {
	at, halves := make([]float32, len(r.of)), make([]float32, len(r.of))
	const wide = lightSwatchWide
	high := lightSwatchHigh()
	for k, i := range r.of {
		at[k], halves[k] = s.x(s.at(t.Shadows[i]), r.from, r.to), (wide+1)/2.0
		if r.framed[k] {
			halves[k] += 2 * lightFrame
		}
	}
	for _, x := range apart(at, halves, r.from, r.to) {
		r.swatches = append(r.swatches, rect{x - wide/2, r.y - high/2, wide, high})
	}
}

// apart moves things, each so much to both sides of where it wants its middle to be, apart until none
// lies over another, each group that meets as little as it can on the whole. They keep their order,
// and their middles stay between from and to; where that is too little room for all they lie over
// each other evenly.
func apart(at, halves []float32, from, to float32) []float32 {
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(at[i], at[k]) })
	begin := make([]float32, len(at)) // of each, in order, if all stood close together from 0 on
	for k := 1; k < len(order); k++ {
		begin[k] = begin[k-1] + halves[order[k-1]] + halves[order[k]]
	}
	by := float32(1)
	if n := len(order); n > 0 && begin[n-1] > to-from {
		by = max(to-from, 0) / begin[n-1]
	}
	type pool struct {
		sum float32
		n   int
	}
	var pools []pool // of what stands close together, by how far it is shifted from begin
	for k, i := range order {
		pools = append(pools, pool{at[i] - by*begin[k], 1})
		for len(pools) > 1 {
			last, before := pools[len(pools)-1], pools[len(pools)-2]
			if last.sum*float32(before.n) > before.sum*float32(last.n) {
				break
			}
			pools = append(pools[:len(pools)-2], pool{before.sum + last.sum, before.n + last.n})
		}
	}
	moved, k := make([]float32, len(at)), 0
	for _, p := range pools {
		for range p.n {
			shift := p.sum / float32(p.n)
			if n := len(order); n > 0 {
				shift = max(min(shift, to-by*begin[n-1]), from)
			}
			moved[order[k]] = shift + by*begin[k]
			k++
		}
	}
	return moved
}

// placeTicks stands the figures under their places; where they would touch, without their unit, then
// only every second one, or every third.
func (r *lightRow) placeTicks(s lightScale, width float32) {
	for every := 1; every < len(s.ticks); every++ {
		last := (len(s.ticks)-1)%every == 0 // it always stays
		if last && (r.tryTicks(s, width, every, true) || r.tryTicks(s, width, every, false)) {
			return
		}
	}
}

// tryTicks stands every so many figures, the first with its unit or not, and reports whether they fit.
func (r *lightRow) tryTicks(s lightScale, width float32, every int, unit bool) bool {
	r.ticks = r.ticks[:0]
	fits, end := true, float32(math.Inf(-1))
	for k := 0; k < len(s.ticks); k += every {
		words := s.say(s.ticks[k], unit && k == 0)
		wide := smallWidth(words)
		x := s.x(s.ticks[k], r.from, r.to) - smallWidth(s.say(s.ticks[k], false))/2
		x = max(min(x, width-wide), 0)
		fits = fits && x >= end+wordsApart
		end = x + wide
		r.ticks = append(r.ticks, placedWords{words, x})
	}
	return fits && len(r.ticks) <= mostLightTicks
}

func (c *LightCard) write(size fyne.Size, of colours) {
	p := planLight(c.text, size.Width)
	for len(c.lines) < len(p.lines) {
		c.lines = append(c.lines, c.addText(TextSize, fyne.TextStyle{}))
	}
	for i, line := range c.lines {
		ink := ColorNameQuiet
		line.TextSize = SmallSize()
		if i < p.full {
			line.TextSize, ink = TextSize(), theme.ColorNameForeground
		}
		say(line, nth(p.lines, i), of(ink))
	}
	for i := range c.rows {
		r, at := &c.rows[i], p.rows[i]
		shown := i < p.shown
		for len(r.swatches) < len(at.swatches) {
			r.swatches = append(r.swatches, lightSwatchLook{c.addBox(), c.addBox(), c.addBox()})
		}
		say(r.name, lightNames[i].String(), of(ColorNameQuiet))
		fill(r.band, of(ColorNameOn))
		fill(r.axis, of(ColorNameHairline))
		show(r.name, shown)
		show(r.axis, shown)
		show(r.band, at.band.w > 0)
		for k, tick := range r.ticks {
			say(tick, nth(at.ticks, k).words, of(ColorNameQuiet))
		}
		for k, s := range r.swatches {
			show(s.colour, k < len(at.swatches))
			framed := k < len(at.swatches) && at.framed[k]
			show(s.frame, framed)
			show(s.gap, framed)
			fill(s.frame, of(ColorNameFocusLine))
			fill(s.gap, of(ColorNamePanel))
			if k < len(at.swatches) {
				fill(s.colour, rgbFill(c.text.Shadows[at.of[k]].Colour))
			}
		}
	}
}

func (c *LightCard) place(size fyne.Size) {
	p := planLight(c.text, size.Width)
	y := float32(0)
	for i, line := range c.lines {
		placeText(line, 0, y)
		if y += quietLine(); i < p.full {
			y += lightLine() - quietLine()
		}
	}
	for i := range c.rows {
		r, at := &c.rows[i], p.rows[i]
		placeText(r.name, at.name.X, at.name.Y)
		put(r.band, at.band.position(), at.band.size())
		put(r.axis, fyne.NewPos(at.from, at.y), fyne.NewSize(max(at.to-at.from, 0), 1))
		for k, tick := range r.ticks {
			placeText(tick, nth(at.ticks, k).x, at.ticksAt)
		}
		for k, s := range r.swatches {
			box := nth(at.swatches, k)
			put(s.colour, box.position(), box.size())
			for i, o := range [2]*canvas.Rectangle{s.gap, s.frame} {
				out := float32(i+1) * lightFrame
				put(o, box.position().SubtractXY(out, out), box.size().AddWidthHeight(2*out, 2*out))
			}
		}
	}
}

// minSize is as high as its words in the width of now.
func (c *LightCard) minSize() fyne.Size {
	const least = 30 * Step
	return fyne.NewSize(least, planLight(c.text, max(c.Size().Width, least)).height)
}
