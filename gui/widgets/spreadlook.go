package widgets

import (
	"image"
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/setup"
	"app.tonedesk/gui/wording"
)

// spreadParts are what is drawn of a spread: one picture for the bins, and over it what moves.
type spreadParts struct {
	back    *canvas.Rectangle
	mass    *canvas.Raster
	picture spreadPicture
	nothing *canvas.Text    // said where nothing is counted
	shares  [4]*canvas.Text // over the groups
	names   [4]*canvas.Text // below the shares
	borders [3]*canvas.Rectangle
	grips   [3]*canvas.Rectangle
	grooves [3][2]*canvas.Rectangle // in the grips
	line    *canvas.Rectangle       // of the focus
	axis    *canvas.Rectangle
	steps   [colour.Steps + 1]*canvas.Text
	ticks   [colour.Steps + 1]*canvas.Rectangle
	marks   [setup.MaxSpots]*spotLine
}

// makeParts makes all that is drawn, from below.
func (s *Spread) makeParts() {
	d := &s.drawn
	s.back = add(d, newPanelBox())
	s.mass = add(d, canvas.NewRaster(func(w, h int) image.Image {
		scale := float64(h) / float64(max(s.mass.Size().Height, 1))
		s.picture.limits = s.state.Limits
		return s.picture.draw(&s.state.Histogram, s.state.Target, w, h, scale)
	}))
	s.nothing = s.addText(SmallSize, fyne.TextStyle{})
	s.axis = s.addBox()
	for i := range s.borders {
		s.borders[i], s.grips[i] = s.addBox(), s.addBox()
		s.grips[i].CornerRadius = 2
		s.grooves[i] = [2]*canvas.Rectangle{s.addBox(), s.addBox()}
	}
	for i := range s.shares {
		s.shares[i], s.names[i] = s.addText(SmallSize, fyne.TextStyle{}), s.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range s.steps {
		s.ticks[i], s.steps[i] = s.addBox(), s.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range s.marks {
		s.marks[i] = newSpotLine(d)
	}
	s.line = add(d, newFocusLine(Radius))
}

// lines is how many lines of labels there are: with more than a pair of spots one.
func (s *Spread) lines(height float32) int { return spreadLines(height, len(s.state.Marks) > 2) }

// write puts in shares, borders, steps and marks of now.
func (s *Spread) write(size fyne.Size, of colours) {
	line := of(ColorNameFocusLine)
	fillEdged(s.back, ColorNamePanel, of)
	s.picture.ink = color.RGBAModel.Convert(of(ColorNameMass)).(color.RGBA)
	s.picture.sign = color.RGBAModel.Convert(line).(color.RGBA)
	showFocus(s.line, s.focused, of)
	s.writeLabels(size, of)
	for i := range s.borders {
		there := i < s.borderCount()
		for _, box := range []*canvas.Rectangle{s.borders[i], s.grips[i]} {
			fill(box, line)
			show(box, there)
		}
		for _, groove := range s.grooves[i] {
			fill(groove, of(ColorNamePanel))
			show(groove, there)
		}
	}
	fill(s.axis, of(ColorNameQuiet))
	for v, text := range s.steps {
		number := v
		if s.state.FromWhite {
			number = colour.Steps - v
		}
		say(text, strconv.Itoa(number), of(ColorNameQuiet))
		fill(s.ticks[v], of(ColorNameQuiet))
	}
	for i, mark := range s.marks {
		mark.write(nth(s.state.Marks, i).Name, i < len(s.state.Marks))
	}
}

// writeLabels says the groups' shares and names, or that there are none.
func (s *Spread) writeLabels(size fyne.Size, of colours) {
	lines := s.lines(size.Height)
	labels := groupLabels(s.state.Groups, size.Width, lines, smallWidth)
	for i := range s.shares {
		label := nth(labels, i)
		say(s.shares[i], label.upper(lines), of(theme.ColorNameForeground))
		say(s.names[i], label.lower(lines), of(ColorNameQuiet))
	}
	words := ""
	if s.given && len(labels) == 0 {
		words = wording.SayGroups(nil, nil)
	}
	say(s.nothing, words, of(ColorNameQuiet))
}

// place places everything: the shares above, the value steps along the foot, where their
// lightness is.
func (s *Spread) place(size fyne.Size) {
	s.back.Resize(size)
	s.line.Resize(size)
	lines := s.lines(size.Height)
	top, foot := plotOf(size.Height, lines)
	left, right := spreadX(0, size.Width), spreadX(100, size.Width)
	put(s.mass, fyne.NewPos(left, top), fyne.NewSize(max(right-left, 1), max(foot-top, 1)))
	put(s.axis, fyne.NewPos(left, foot), fyne.NewSize(max(right-left, 1), 1))
	scale := textScale()
	for i, label := range groupLabels(s.state.Groups, size.Width, lines, smallWidth) {
		if i < len(s.shares) {
			y := (gripTop+gripHeight/2)*scale + halfCapital*scale
			setOn(s.shares[i], label.middle-s.shares[i].MinSize().Width/2, y)
			setOn(s.names[i], label.middle-s.names[i].MinSize().Width/2, y+spreadLine*scale)
		}
	}
	placeText(s.nothing, (size.Width-s.nothing.MinSize().Width)/2, Step/2)
	s.placeBorders(size, foot)
	for v, text := range s.steps {
		x := spreadX(colour.Lightness(colour.YOfValue(float64(v))), size.Width)
		put(s.ticks[v], fyne.NewPos(x-0.5, foot), fyne.NewSize(1, Step/2))
		setOn(text, x-text.MinSize().Width/2, foot+(spreadFoot-Step)*scale+halfCapital*scale)
	}
	s.placeMarks(size, top, foot)
}

// placeBorders places the borders of the groups, each with its grip. The one that keys move has a
// larger grip.
func (s *Spread) placeBorders(size fyne.Size, foot float32) {
	for i := range min(s.borderCount(), len(s.borders)) {
		x := spreadX(s.state.Groups[i].To, size.Width)
		put(s.borders[i], fyne.NewPos(x-0.5, gripTop), fyne.NewSize(1, foot-gripTop))
		w, h := gripWidth, float32(gripHeight)
		if s.focused && i == s.chosen {
			w, h = 1.5*gripWidth, 1.5*gripHeight
		}
		put(s.grips[i], fyne.NewPos(x-w/2, gripTop), fyne.NewSize(w, h))
		for j, groove := range s.grooves[i] {
			put(groove, fyne.NewPos(x-1.5+2*float32(j), gripTop+3), fyne.NewSize(1, h-6))
		}
	}
}

// placeMarks places the spots' marks, their letters beside their lines.
func (s *Spread) placeMarks(size fyne.Size, top, foot float32) {
	xs, wide := make([]float32, min(len(s.state.Marks), len(s.marks))), float32(0)
	for i := range xs {
		xs[i] = spreadX(s.state.Marks[i].Lightness, size.Width)
		wide = max(wide, s.marks[i].letter[0].MinSize().Width)
	}
	offsets, levels := letterPlaces(xs, wide+2, size.Width)
	high := min(markHeight, foot-top)
	for i, x := range xs {
		letter := foot - high + 2*halfCapital*textScale() - float32(levels[i])*(2*halfCapital+2)*textScale()
		s.marks[i].place(x, foot, high, fyne.NewPos(x+offsets[i]+1, max(letter, 2*halfCapital*textScale())))
	}
}
