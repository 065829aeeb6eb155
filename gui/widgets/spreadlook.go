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

// spreadLook draws a spread: one picture for the bins, and over it what moves.
type spreadLook struct {
	s       *Spread
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

// newSpreadLook makes all that is drawn, from below.
func newSpreadLook(s *Spread) *spreadLook {
	d := &s.drawn
	l := &spreadLook{s: s, back: add(d, newPanelBox())}
	l.mass = add(d, canvas.NewRaster(func(w, h int) image.Image {
		scale := float64(h) / float64(max(l.mass.Size().Height, 1))
		l.picture.limits = s.state.Limits
		return l.picture.draw(&s.state.Histogram, s.state.Target, w, h, scale)
	}))
	l.nothing = d.addText(SmallSize, fyne.TextStyle{})
	for i := range l.edges {
		l.edges[i], l.grips[i], l.holes[i] = d.addBox(), d.addBox(), d.addBox()
		l.grips[i].CornerRadius = Step / 4
	}
	for i := range l.shares {
		l.shares[i] = d.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range l.steps {
		l.ticks[i], l.steps[i] = d.addBox(), d.addText(SmallSize, fyne.TextStyle{})
	}
	for i := range l.marks {
		l.marks[i], l.letters[i] = d.addBox(), d.addText(SmallSize, fyne.TextStyle{Bold: true})
	}
	l.line = add(d, newFocusLine(Radius))
	return l
}

// write puts in shares, edges, steps and marks of now.
func (l *spreadLook) write(size fyne.Size, of colours) {
	line := of(ColorNameFocusLine)
	fill(l.back, of(ColorNamePanel))
	l.picture.ink = color.RGBAModel.Convert(of(ColorNameMass)).(color.RGBA)
	l.picture.sign = color.RGBAModel.Convert(line).(color.RGBA)
	showFocus(l.line, l.s.focused, of)
	l.writeShares(size.Width, of)
	for i := range l.edges {
		there := i < l.s.edgeCount()
		for _, box := range []*canvas.Rectangle{l.edges[i], l.grips[i]} {
			fill(box, line)
			show(box, there)
		}
		fill(l.holes[i], of(ColorNamePanel))
		show(l.holes[i], there && l.s.state.ByHand)
	}
	for v, text := range l.steps {
		number := v
		if l.s.state.FromWhite {
			number = colour.Steps - v
		}
		say(text, strconv.Itoa(number), of(ColorNameQuiet))
		fill(l.ticks[v], of(ColorNameQuiet))
	}
	for i, mark := range l.marks {
		there := i < len(l.s.state.Marks)
		fill(mark, line)
		show(mark, there)
		show(l.letters[i], there)
		if there {
			say(l.letters[i], l.s.state.Marks[i].Name, line)
		}
	}
}

// writeShares says the groups' shares, or that there are none.
func (l *spreadLook) writeShares(width float32, of colours) {
	labels := shareLabels(l.s.state.Groups, width, smallWidth)
	for i, text := range l.shares {
		show(text, i < len(labels))
		if i < len(labels) {
			say(text, labels[i].words, of(theme.ColorNameForeground))
		}
	}
	words := ""
	if l.s.given && len(labels) == 0 {
		words = wording.SayGroups(nil, nil)
	}
	say(l.nothing, words, of(ColorNameQuiet))
}

// place places everything: the shares above, the value steps along the foot, where their
// lightness is.
func (l *spreadLook) place(size fyne.Size) {
	l.back.Resize(size)
	l.line.Resize(size)
	left, right := spreadX(0, size.Width), spreadX(100, size.Width)
	put(l.mass, fyne.NewPos(left, spreadTop+Step), fyne.NewSize(max(right-left, 1), max(size.Height-spreadTop-spreadFoot-Step, 1)))
	for i, label := range shareLabels(l.s.state.Groups, size.Width, smallWidth) {
		if i < len(l.shares) {
			placeText(l.shares[i], label.x, Step/2)
		}
	}
	placeText(l.nothing, (size.Width-l.nothing.MinSize().Width)/2, Step/2)
	l.placeEdges(size)
	for v, text := range l.steps {
		x := spreadX(colour.Lightness(colour.YOfValue(float64(v))), size.Width)
		put(l.ticks[v], fyne.NewPos(x-0.5, size.Height-spreadFoot), fyne.NewSize(1, Step/2))
		placeText(text, x-text.MinSize().Width/2, size.Height-spreadFoot+Step/2)
	}
	l.placeMarks(size)
}

// placeEdges places the edges of the groups, each with its grip. The one that keys move has
// a larger grip.
func (l *spreadLook) placeEdges(size fyne.Size) {
	for i := range min(l.s.edgeCount(), len(l.edges)) {
		x := spreadX(l.s.state.Groups[i].To, size.Width)
		put(l.edges[i], fyne.NewPos(x-0.5, spreadTop), fyne.NewSize(1, size.Height-spreadTop-spreadFoot))
		w, h := gripWidth, gripHeight
		if l.s.focused && i == l.s.hand.chosen {
			w, h = 1.5*gripWidth, 1.5*gripHeight
		}
		at := fyne.NewPos(x-w/2, spreadTop+gripHeight-Step/4-h)
		put(l.grips[i], at, fyne.NewSize(w, h))
		put(l.holes[i], at.AddXY(2, 2), fyne.NewSize(w-4, h-4))
	}
}

// placeMarks places the spots' marks, their letters at the right of their lines.
func (l *spreadLook) placeMarks(size fyne.Size) {
	xs := make([]float32, min(len(l.s.state.Marks), len(l.marks)))
	for i := range xs {
		xs[i] = spreadX(l.s.state.Marks[i].Lightness, size.Width)
	}
	for i, high := range markHeights(xs, size.Height-spreadTop-spreadFoot) {
		top := size.Height - spreadFoot - high
		put(l.marks[i], fyne.NewPos(xs[i]-1, top), fyne.NewSize(2, high))
		setOn(l.letters[i], xs[i]+3, top+Step)
	}
}

// minSize fits a narrow window.
func (l *spreadLook) minSize() fyne.Size { return fyne.NewSize(30*Step, spreadHeight) }
