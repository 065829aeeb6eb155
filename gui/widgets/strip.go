package widgets

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/icons"
	"app.tonedesk/gui/language"
)

// Strip stands under the picture or, in a low window, beside it: what lies under the pointer, or
// where the view's knob stands, and the ways to enlarge the picture.
type Strip struct {
	drawn

	// Under has the reading follow the pointer out of the picture; Out, Fit and In are pressed to make
	// the picture smaller, to see all of it, and to enlarge it.
	Under, Out, Fit, In *Button

	beside bool
	under  StripReading
	knob   StripKnob
	note   [3]string // quiet words where there is neither; from the longest to the shortest, "" for none
	slider *Slider

	swatch, grey         *canvas.Rectangle
	edge                 *canvas.Rectangle // around both
	lightness, value     *canvas.Text
	fromA                *canvas.Text
	melts                [3]*canvas.Text // lines, of which the first alone stands under the picture
	lightName, valueName *canvas.Text    // beside the picture
	knobText             *canvas.Text
}

// StripReading is what lies under the pointer, in words; none where Lightness is "".
type StripReading struct {
	Colour           colour.RGB
	Grey             uint8  // of the same lightness
	Lightness, Value string // "56.0", "5.5"
	FromA            string // "−2.5 from A"; "" where there is no spot A
	// Melts says what melts into what at a lost edge, from the longest words to the shortest; "" for
	// none. It stands in place of the reading and of the knob.
	Melts [3]string
	Far   bool // the pointer is outside of the window: nobody can slide the knob now
}

// StripKnob is the knob of the view that is shown; none where Words is "".
type StripKnob struct {
	Words        string // where it stands: "5 steps"
	From, To, By float64
	At           float64
}

// NewStrip returns an empty strip; turned is told where the painter slides the view's knob to.
func NewStrip(keys Keys, turned func(to float64)) *Strip {
	s := &Strip{}
	s.edge = s.addBox()
	s.swatch, s.grey = s.addBox(), s.addBox()
	s.lightness, s.value = s.addText(TextSize, fyne.TextStyle{}), s.addText(SmallSize, fyne.TextStyle{})
	s.lightName, s.valueName = s.addText(SmallSize, fyne.TextStyle{}), s.addText(SmallSize, fyne.TextStyle{})
	s.fromA, s.knobText = s.addText(SmallSize, fyne.TextStyle{}), s.addText(SmallSize, fyne.TextStyle{})
	for i := range s.melts {
		s.melts[i] = s.addText(SmallSize, fyne.TextStyle{})
	}
	s.slider = add(&s.drawn, NewSlider(0, 1, 1, keys))
	s.slider.OnChanged = func(to float64) {
		if to != s.knob.At {
			turned(to)
		}
	}
	s.Under = add(&s.drawn, NewIconButton(icons.UnderPointer, keys, nil).Flat())
	s.Out = add(&s.drawn, NewIconButton(icons.ZoomOut, keys, nil).Flat())
	s.Fit = add(&s.drawn, NewIconButton(icons.ZoomFit, keys, nil).Flat())
	s.In = add(&s.drawn, NewIconButton(icons.ZoomIn, keys, nil).Flat())
	s.SetZoom(false, false)
	s.draw(s)
	return s
}

// SetReading shows what lies under the pointer; the same costs nothing.
func (s *Strip) SetReading(r StripReading) {
	if r != s.under {
		s.under = r
		s.redraw()
	}
}

// Reading returns what is shown of what lies under the pointer.
func (s *Strip) Reading() StripReading { return s.under }

// SetNote has quiet words stand where there is nothing to read and no knob: from the longest to the
// shortest.
func (s *Strip) SetNote(words [3]string) {
	if words != s.note {
		s.note = words
		s.redraw()
	}
}

// SetKnob shows where the view's knob stands.
func (s *Strip) SetKnob(k StripKnob) {
	if k == s.knob {
		return
	}
	s.knob = k
	s.slider.Min, s.slider.Max, s.slider.Step = k.From, k.To, k.By
	if k.Words != "" {
		s.slider.SetValue(k.At)
	}
	s.redraw()
}

// Knob returns what is shown of the view's knob.
func (s *Strip) Knob() StripKnob { return s.knob }

// SetZoom says what can be done: out, and in.
func (s *Strip) SetZoom(out, in bool) {
	s.Out.SetOff(!out)
	s.Fit.SetOff(!out)
	s.In.SetOff(!in)
}

func (s *Strip) setBeside(on bool) {
	if on != s.beside {
		s.beside = on
		s.Under.SetFlat(!on)
		s.Out.SetFlat(!on)
		s.Fit.SetFlat(!on)
		s.In.SetFlat(!on)
		s.redraw()
	}
}

// Lengths of the strip.
const (
	stripSwatch     = 5 * Step  // width of the two swatches under the picture, at the text's plain size
	stripSwatchHigh = 2 * Step  // and their height
	stripSlider     = 11 * Step // the slider's width, at most
	sideSwatchHigh  = 4 * Step  // beside the picture
	sideGap         = Step / 2
)

// write shows the reading or the knob.
func (s *Strip) write(size fyne.Size, of colours) {
	knob, there := s.knob.Words != "", s.under.Lightness != ""
	knob = knob && !(there && s.under.Far)
	melts := s.fitting(s.under.Melts, size)
	knob = knob && melts[0] == ""
	there = there && !knob && melts[0] == ""
	meltInk := theme.ColorNameForeground
	if !there && !knob && melts[0] == "" {
		melts, meltInk = s.fitting(s.note, size), ColorNameQuiet
	}
	fill(s.edge, of(ColorNameHairline))
	fill(s.swatch, rgbFill(s.under.Colour))
	fill(s.grey, greyFill(s.under.Grey))
	for _, o := range []fyne.CanvasObject{s.edge, s.swatch, s.grey} {
		show(o, there)
	}
	var lightness, value, lightName, valueName string
	if there {
		lightness, value = s.under.Lightness, language.Say("value %s", s.under.Value)
		if s.beside && smallWidth(language.Say("lightness")+" ")+fyne.MeasureText(lightness, TextSize(), fyne.TextStyle{}).Width <= size.Width {
			lightName, valueName, value = language.Say("lightness"), language.Say("value"), s.under.Value
		}
	}
	s.value.TextSize = SmallSize()
	if valueName != "" {
		s.value.TextSize = TextSize()
	}
	say(s.lightness, lightness, of(theme.ColorNameForeground))
	valueInk := ColorNameQuiet
	if valueName != "" {
		valueInk = theme.ColorNameForeground
	}
	say(s.value, value, of(valueInk))
	say(s.lightName, lightName, of(ColorNameQuiet))
	say(s.valueName, valueName, of(ColorNameQuiet))
	fromA, knobWords := "", ""
	if there && s.hasRoom(size, smallWidth(s.under.FromA)) {
		fromA = s.under.FromA
	}
	if knob {
		knobWords = s.knob.Words
	}
	say(s.fromA, fromA, of(ColorNameQuiet))
	say(s.knobText, knobWords, of(theme.ColorNameForeground))
	for i, line := range melts {
		say(s.melts[i], line, of(meltInk))
	}
	show(s.slider, knob)
	show(s.Under, s.fitsUnder(size))
}

// fitting returns the first of some words that fits, beside the picture in up to three lines; the last
// where none does.
func (s *Strip) fitting(words [3]string, size fyne.Size) (lines [3]string) {
	for _, w := range words {
		if s.beside {
			lines = broken(w, size.Width)
		} else if lines = [3]string{w}; smallWidth(w) > size.Width-4*Row()-Step/2 {
			continue
		}
		n := slices.Index(append(lines[:], ""), "")
		if n == 1 || n > 1 && float32(n)*lineHigh(SmallSize()) <= size.Height-2*Row()-2*Step {
			return lines
		}
	}
	return [3]string{words[len(words)-1]}
}

// broken breaks words into lines of a width; none where they take more than there are.
func broken(words string, width float32) (lines [3]string) {
	n := 0
	for _, w := range strings.Split(words, " ") {
		with := strings.TrimSpace(lines[n] + " " + w)
		if smallWidth(with) > width && lines[n] != "" {
			if n++; n == len(lines) {
				return [3]string{}
			}
			with = w
		}
		if lines[n] = with; smallWidth(with) > width {
			return [3]string{}
		}
	}
	return lines
}

// hasRoom reports whether there is room for one more text as wide as that, once the figures are set.
func (s *Strip) hasRoom(size fyne.Size, width float32) bool {
	if !s.beside {
		taken := Row() + Step/2 + stripSwatch*textScale() + s.lightness.MinSize().Width + s.value.MinSize().Width + 3*Step
		return taken+width <= size.Width-3*Row()
	}
	left := size.Height - sideSwatchHigh - sideGap - 2*lineHigh(TextSize())
	high := lineHigh(SmallSize()) - Step/2 // without what no figure reaches down to
	return width <= size.Width && high <= left-buttonsHigh(left)
}

func (s *Strip) place(size fyne.Size) {
	if s.beside {
		s.placeBeside(size)
		return
	}
	w := Row()
	x := size.Width
	for _, b := range []*Button{s.In, s.Fit, s.Out} {
		x -= w
		put(b, fyne.NewPos(x, (size.Height-Row())/2), fyne.NewSquareSize(w))
	}
	put(s.Under, fyne.NewPos(0, (size.Height-Row())/2), fyne.NewSquareSize(w))
	left := w + Step/2
	high, wide := stripSwatchHigh*textScale(), stripSwatch*textScale()
	s.placeSwatches(fyne.NewPos(left, (size.Height-high)/2), fyne.NewSize(wide, high))
	at := left + wide + Step
	placeText(s.lightness, at, (size.Height-s.lightness.MinSize().Height)/2)
	placeText(s.value, at+s.lightness.MinSize().Width+Step, (size.Height-s.value.MinSize().Height)/2)
	after := at + s.lightness.MinSize().Width + s.value.MinSize().Width + 2*Step
	placeText(s.fromA, after, (size.Height-s.fromA.MinSize().Height)/2)
	placeText(s.knobText, left, (size.Height-s.knobText.MinSize().Height)/2)
	placeText(s.melts[0], left, (size.Height-s.melts[0].MinSize().Height)/2)
	from := left + s.knobText.MinSize().Width + Step
	h := s.slider.MinSize().Height
	put(s.slider, fyne.NewPos(from, (size.Height-h)/2), fyne.NewSize(max(min(stripSlider, x-Step-from), 0), h))
}

// placeBeside stands all below each other, the buttons at the foot.
func (s *Strip) placeBeside(size fyne.Size) {
	s.placeButtons(size)
	s.placeSwatches(fyne.Position{}, fyne.NewSize(size.Width, sideSwatchHigh))
	y := sideSwatchHigh + sideGap
	line := lineHigh(TextSize())
	if s.lightName.Text == "" {
		placeText(s.lightness, 0, y)
		placeText(s.value, 0, y+line)
	} else {
		setRow(s.lightName, s.lightness, size.Width, y)
		setRow(s.valueName, s.value, size.Width, y+line)
	}
	placeText(s.fromA, 0, y+2*line)
	placeText(s.knobText, 0, 0)
	for i, line := range s.melts {
		placeText(line, 0, float32(i)*lineHigh(SmallSize()))
	}
	put(s.slider, fyne.NewPos(0, s.knobText.MinSize().Height), fyne.NewSize(size.Width, s.slider.MinSize().Height))
}

// buttonsHigh is how high they stand beside the picture, where the reading leaves so much.
func buttonsHigh(left float32) float32 {
	if h := min(Row(), round((left-2*Step)/2)); h >= 4*Step {
		return 2*h + Step
	}
	return min(Row(), max(left-Step/2, 4*Step))
}

// fitsUnder reports whether the first of the buttons beside the picture has room; else the menu has it.
func (s *Strip) fitsUnder(size fyne.Size) bool {
	left := size.Height - sideSwatchHigh - sideGap - 2*lineHigh(TextSize())
	return !s.beside || size.IsZero() || min(Row(), round((left-2*Step)/2)) >= 4*Step || size.Width >= 4*4*Step+3*Step/2
}

// placeButtons stands them at the foot, in two rows or, where the reading leaves too little room for
// that, in one.
func (s *Strip) placeButtons(size fyne.Size) {
	left := size.Height - sideSwatchHigh - sideGap - 2*lineHigh(TextSize())
	if h := min(Row(), round((left-2*Step)/2)); h >= 4*Step {
		w := (size.Width - Step) / 2
		foot := size.Height - h
		put(s.Under, fyne.NewPos(0, foot-Step-h), fyne.NewSize(w, h))
		put(s.Out, fyne.NewPos(w+Step, foot), fyne.NewSize(w, h))
		put(s.Fit, fyne.NewPos(0, foot), fyne.NewSize(w, h))
		put(s.In, fyne.NewPos(w+Step, foot-Step-h), fyne.NewSize(w, h))
		return
	}
	buttons, h := []*Button{s.Under, s.Out, s.Fit, s.In}, min(Row(), max(left-Step/2, 4*Step))
	if !s.Under.Visible() {
		buttons = buttons[1:]
	}
	n := float32(len(buttons))
	w := (size.Width - (n-1)*Step/2) / n
	for i, b := range buttons {
		put(b, fyne.NewPos(float32(i)*(w+Step/2), size.Height-h), fyne.NewSize(w, h))
	}
}

// setRow sets a name left and its figure right, on one line.
func setRow(name, figure *canvas.Text, width, y float32) {
	_, baseline := fyne.CurrentApp().Driver().RenderedTextSize(figure.Text, figure.TextSize, figure.TextStyle, nil)
	at := span{right: width, baseline: y + baseline}
	setLeft(name, at)
	setRight(figure, at)
}

// placeSwatches stands colour and grey edge to edge, with a hairline round both.
func (s *Strip) placeSwatches(pos fyne.Position, size fyne.Size) {
	put(s.edge, pos, size)
	half := round(size.Width / 2)
	put(s.swatch, pos.AddXY(1, 1), fyne.NewSize(half-1, size.Height-2))
	put(s.grey, pos.AddXY(half, 1), fyne.NewSize(size.Width-half-1, size.Height-2))
}
