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
	nothing *canvas.Text // said where nothing is counted
	shares  [4]*canvas.Text
	edges   [3]*canvas.Rectangle
	grips   [3]*canvas.Rectangle
	holes   [3]*canvas.Rectangle // in the grips of edges that were set by hand
	line    *canvas.Rectangle    // of the focus
	steps   [colour.Steps + 1]*canvas.Text
	ticks   [colour.Steps + 1]*canvas.Rectangle
	marks   [setup.MaxSpots]*canvas.Rectangle
	letters [setup.MaxSpots]*canvas.Text
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
	for i := range s.edges {
		s.edges[i], s.grips[i], s.holes[i] = s.addBox(), s.addBox(), s.addBox()
		s.grips[i].CornerRadius = Step / 4
	}
	for i := range s.shares {
		s.shares[i] = s.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range s.steps {
		s.ticks[i], s.steps[i] = s.addBox(), s.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range s.marks {
		s.marks[i], s.letters[i] = s.addBox(), s.addText(SmallSize, fyne.TextStyle{Bold: true})
	}
	s.line = add(d, newFocusLine(Radius))
}

// write puts in shares, edges, steps and marks of now.
func (s *Spread) write(size fyne.Size, of colours) {
	line := of(ColorNameFocusLine)
	fill(s.back, of(ColorNamePanel))
	s.picture.ink = color.RGBAModel.Convert(of(ColorNameMass)).(color.RGBA)
	s.picture.sign = color.RGBAModel.Convert(line).(color.RGBA)
	showFocus(s.line, s.focused, of)
	s.writeShares(size.Width, of)
	for i := range s.edges {
		there := i < s.edgeCount()
		for _, box := range []*canvas.Rectangle{s.edges[i], s.grips[i]} {
			fill(box, line)
			show(box, there)
		}
		fill(s.holes[i], of(ColorNamePanel))
		show(s.holes[i], there && s.state.Manual)
	}
	for v, text := range s.steps {
		number := v
		if s.state.FromWhite {
			number = colour.Steps - v
		}
		say(text, strconv.Itoa(number), of(ColorNameQuiet))
		fill(s.ticks[v], of(ColorNameQuiet))
	}
	for i, mark := range s.marks {
		fill(mark, line)
		show(mark, i < len(s.state.Marks))
		say(s.letters[i], nth(s.state.Marks, i).Name, line)
	}
}

// writeShares says the groups' shares, or that there are none.
func (s *Spread) writeShares(width float32, of colours) {
	labels := shareLabels(s.state.Groups, width, smallWidth)
	for i, text := range s.shares {
		say(text, nth(labels, i).words, of(theme.ColorNameForeground))
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
	left, right := spreadX(0, size.Width), spreadX(100, size.Width)
	put(s.mass, fyne.NewPos(left, spreadTop+Step), fyne.NewSize(max(right-left, 1), max(size.Height-spreadTop-spreadFoot-Step, 1)))
	for i, label := range shareLabels(s.state.Groups, size.Width, smallWidth) {
		if i < len(s.shares) {
			placeText(s.shares[i], label.x, Step/2)
		}
	}
	placeText(s.nothing, (size.Width-s.nothing.MinSize().Width)/2, Step/2)
	s.placeEdges(size)
	for v, text := range s.steps {
		x := spreadX(colour.Lightness(colour.YOfValue(float64(v))), size.Width)
		put(s.ticks[v], fyne.NewPos(x-0.5, size.Height-spreadFoot), fyne.NewSize(1, Step/2))
		placeText(text, x-text.MinSize().Width/2, size.Height-spreadFoot+Step/2)
	}
	s.placeMarks(size)
}

// placeEdges places the edges of the groups, each with its grip. The one that keys move has
// a larger grip.
func (s *Spread) placeEdges(size fyne.Size) {
	for i := range min(s.edgeCount(), len(s.edges)) {
		x := spreadX(s.state.Groups[i].To, size.Width)
		put(s.edges[i], fyne.NewPos(x-0.5, spreadTop), fyne.NewSize(1, size.Height-spreadTop-spreadFoot))
		w, h := gripWidth, gripHeight
		if s.focused && i == s.chosen {
			w, h = 1.5*gripWidth, 1.5*gripHeight
		}
		at := fyne.NewPos(x-w/2, spreadTop+gripHeight-Step/4-h)
		put(s.grips[i], at, fyne.NewSize(w, h))
		put(s.holes[i], at.AddXY(2, 2), fyne.NewSize(w-4, h-4))
	}
}

// placeMarks places the spots' marks, their letters at the right of their lines.
func (s *Spread) placeMarks(size fyne.Size) {
	xs := make([]float32, min(len(s.state.Marks), len(s.marks)))
	for i := range xs {
		xs[i] = spreadX(s.state.Marks[i].Lightness, size.Width)
	}
	for i, high := range markHeights(xs, size.Height-spreadTop-spreadFoot) {
		top := size.Height - spreadFoot - high
		put(s.marks[i], fyne.NewPos(xs[i]-1, top), fyne.NewSize(2, high))
		setOn(s.letters[i], xs[i]+3, top+Step)
	}
}
