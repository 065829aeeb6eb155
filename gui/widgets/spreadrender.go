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

// spreadRenderer draws a spread: one picture for the bins, and over it what moves.
type spreadRenderer struct {
	s       *Spread
	back    *canvas.Rectangle
	mass    *canvas.Raster
	picture SpreadPicture
	nothing *canvas.Text // said where nothing is counted
	shares  [4]*canvas.Text
	edges   [3]*canvas.Rectangle
	grips   [3]*canvas.Rectangle
	holes   [3]*canvas.Rectangle // in the grips of edges that were set by hand
	focus   *canvas.Rectangle
	steps   [colour.Steps + 1]*canvas.Text
	ticks   [colour.Steps + 1]*canvas.Rectangle
	marks   [setup.MaxSpots]*canvas.Rectangle
	letters [setup.MaxSpots]*canvas.Text
}

func newSpreadRenderer(s *Spread) *spreadRenderer {
	r := &spreadRenderer{s: s, back: canvas.NewRectangle(nil), nothing: sizedText(SmallSize, fyne.TextStyle{})}
	r.back.CornerRadius = Radius
	r.focus = canvas.NewRectangle(color.Transparent)
	r.focus.StrokeWidth, r.focus.CornerRadius = FocusWidth, Radius
	r.mass = canvas.NewRaster(func(w, h int) image.Image {
		scale := float64(h) / float64(max(r.mass.Size().Height, 1))
		r.picture.Limits = s.State.Limits
		return r.picture.Draw(&s.State.Histogram, s.State.Target, w, h, scale)
	})
	for i := range r.shares {
		r.shares[i] = sizedText(SmallSize, fyne.TextStyle{})
	}
	for i := range r.edges {
		r.edges[i], r.grips[i] = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
		r.holes[i] = canvas.NewRectangle(nil)
		r.grips[i].CornerRadius = Step / 4
	}
	for i := range r.steps {
		r.steps[i], r.ticks[i] = sizedText(SmallSize, fyne.TextStyle{}), canvas.NewRectangle(nil)
	}
	for i := range r.marks {
		r.marks[i], r.letters[i] = canvas.NewRectangle(nil), sizedText(SmallSize, fyne.TextStyle{Bold: true})
	}
	return r
}

func (r *spreadRenderer) colour() {
	th, v := r.s.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	fore, quiet, line := th.Color(theme.ColorNameForeground, v), th.Color(ColorNameQuiet, v), th.Color(ColorNameFocusLine, v)
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.picture.Ink = color.RGBAModel.Convert(th.Color(ColorNameMass, v)).(color.RGBA)
	r.picture.Sign = color.RGBAModel.Convert(line).(color.RGBA)
	r.nothing.Color = quiet
	r.focus.StrokeColor, r.focus.Hidden = line, !r.s.hand.focused
	for _, t := range r.shares {
		t.Color = fore
	}
	for i := range r.edges {
		r.edges[i].FillColor, r.grips[i].FillColor, r.holes[i].FillColor = line, line, r.back.FillColor
	}
	for i := range r.steps {
		r.steps[i].Color, r.ticks[i].FillColor = quiet, quiet
	}
	for i := range r.marks {
		r.marks[i].FillColor, r.letters[i].Color = line, line
	}
}

// Layout places everything.
func (r *spreadRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	r.focus.Resize(size)
	left, right := SpreadX(0, size.Width), SpreadX(100, size.Width)
	r.mass.Move(fyne.NewPos(left, spreadTop+Step))
	r.mass.Resize(fyne.NewSize(max(right-left, 1), max(size.Height-spreadTop-spreadFoot-Step, 1)))
	r.write()
}

// write puts in edges, shares, steps and marks of now.
func (r *spreadRenderer) write() {
	size := r.s.Size()
	r.writeShares(size)
	r.writeEdges(size)
	r.writeSteps(size)
	r.writeMarks(size)
}

// writeShares says the groups' shares, or that there are none.
func (r *spreadRenderer) writeShares(size fyne.Size) {
	labels := shareLabels(r.s.State.Groups, size.Width, func(words string) float32 {
		return fyne.MeasureText(words, SmallSize, fyne.TextStyle{}).Width
	})
	for i, text := range r.shares {
		if i >= len(labels) {
			text.Hide()
			continue
		}
		put(text, labels[i].words)
		placeText(text, labels[i].x, Step/2)
		text.Show()
	}
	words := ""
	if r.s.given && len(labels) == 0 {
		words = wording.SayGroups(nil, nil)
	}
	put(r.nothing, words)
	placeText(r.nothing, (size.Width-r.nothing.MinSize().Width)/2, Step/2)
}

// writeEdges draws the edges of the groups, each with its grip.
func (r *spreadRenderer) writeEdges(size fyne.Size) {
	groups := r.s.State.Groups
	for i, edge := range r.edges {
		if i+1 >= len(groups) {
			edge.Hide()
			r.grips[i].Hide()
			r.holes[i].Hide()
			continue
		}
		x := SpreadX(groups[i].To, size.Width)
		edge.Move(fyne.NewPos(x-0.5, spreadTop))
		edge.Resize(fyne.NewSize(1, size.Height-spreadTop-spreadFoot))
		w, h := gripWidth, gripHeight
		if r.s.hand.focused && i == r.s.hand.chosen {
			w, h = 1.5*gripWidth, 1.5*gripHeight
		}
		r.grips[i].Move(fyne.NewPos(x-w/2, spreadTop+gripHeight-Step/4-h))
		r.grips[i].Resize(fyne.NewSize(w, h))
		r.holes[i].Move(r.grips[i].Position().AddXY(2, 2))
		r.holes[i].Resize(fyne.NewSize(w-4, h-4))
		r.holes[i].Hidden = !r.s.State.ByHand
		edge.Show()
		r.grips[i].Show()
	}
}

// writeSteps marks the value steps along the foot. They lie where their lightness is.
func (r *spreadRenderer) writeSteps(size fyne.Size) {
	for v := range r.steps {
		x := SpreadX(colour.Lightness(colour.YOfValue(float64(v))), size.Width)
		r.ticks[v].Move(fyne.NewPos(x-0.5, size.Height-spreadFoot))
		r.ticks[v].Resize(fyne.NewSize(1, Step/2))
		number := v
		if r.s.State.FromWhite {
			number = colour.Steps - v
		}
		text := r.steps[v]
		put(text, strconv.Itoa(number))
		placeText(text, x-text.MinSize().Width/2, size.Height-spreadFoot+Step/2)
	}
}

// writeMarks marks the spots, their letters at the right of their lines.
func (r *spreadRenderer) writeMarks(size fyne.Size) {
	marks := r.s.State.Marks
	xs := make([]float32, min(len(marks), len(r.marks)))
	for i := range xs {
		xs[i] = SpreadX(marks[i].Lightness, size.Width)
	}
	heights := markHeights(xs, size.Height-spreadTop-spreadFoot)
	for i, mark := range r.marks {
		if i >= len(xs) {
			mark.Hide()
			r.letters[i].Hide()
			continue
		}
		top := size.Height - spreadFoot - heights[i]
		mark.Move(fyne.NewPos(xs[i]-1, top))
		mark.Resize(fyne.NewSize(2, heights[i]))
		put(r.letters[i], marks[i].Name)
		setOn(r.letters[i], xs[i]+3, top+Step)
		mark.Show()
		r.letters[i].Show()
	}
}

// MinSize fits a narrow window.
func (r *spreadRenderer) MinSize() fyne.Size { return fyne.NewSize(30*Step, spreadHeight) }

// Refresh draws with the theme of now.
func (r *spreadRenderer) Refresh() {
	r.colour()
	r.write()
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn, from below.
func (r *spreadRenderer) Objects() []fyne.CanvasObject {
	all := []fyne.CanvasObject{r.back, r.mass, r.nothing}
	for i := range r.edges {
		all = append(all, r.edges[i], r.grips[i], r.holes[i])
	}
	for _, t := range r.shares {
		all = append(all, t)
	}
	for i := range r.steps {
		all = append(all, r.ticks[i], r.steps[i])
	}
	for i := range r.marks {
		all = append(all, r.marks[i], r.letters[i])
	}
	return append(all, r.focus)
}

// Destroy has nothing to let go of.
func (r *spreadRenderer) Destroy() {}
