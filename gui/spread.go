package gui

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
)

// SpreadMark is a spot on the spread.
type SpreadMark struct {
	Name      string
	Lightness float64 // L*
}

// SpreadState is what a spread shows.
type SpreadState struct {
	Histogram [256]int // counts; bin i holds the L* that round to i/2.55
	Groups    []analysis.Group
	Marks     []SpreadMark
	FromWhite bool // the foot counts value from white
}

// spreadOf takes a reading's part for the spread; nothing of the reading is kept.
func spreadOf(r *analysis.Reading, marks []SpreadMark, fromWhite bool) SpreadState {
	return SpreadState{
		Histogram: r.Histogram, Groups: slices.Clone(r.Chosen().Groups()), Marks: marks, FromWhite: fromWhite,
	}
}

// Spread is the histogram of lightness from black to white: square-root height, group
// edges and shares on it, the spots marked. Use it on the Fyne goroutine only.
type Spread struct {
	widget.BaseWidget
	state SpreadState
	r     *spreadRenderer
}

// NewSpread returns an empty spread.
func NewSpread() *Spread {
	s := &Spread{}
	s.ExtendBaseWidget(s)
	return s
}

// Set shows a state; the same once more costs nothing.
func (s *Spread) Set(state SpreadState) {
	same := state.Histogram == s.state.Histogram && state.FromWhite == s.state.FromWhite &&
		slices.Equal(state.Groups, s.state.Groups) && slices.Equal(state.Marks, s.state.Marks)
	if same {
		return
	}
	redraw := state.Histogram != s.state.Histogram
	s.state = state
	if s.r != nil {
		s.r.write()
		if redraw {
			s.r.mass.Refresh()
		}
	}
}

// Lengths of the spread.
const (
	spreadHeight = 16 * Step
	spreadTop    = 3 * Step // for the shares
	spreadFoot   = 3 * Step // for the value steps
)

// spreadX returns where a lightness lies between the ends of a spread of this width.
func spreadX(lightness float64, width float32) float32 {
	return 2*Step + float32(min(max(lightness, 0), 100)/100)*(width-4*Step)
}

// spreadHeights returns the height of each bin, 0 to 1: the square root of its count over
// the highest, where a bin that is more than four times as high as all others is cut to
// their measure; cut tells which.
func spreadHeights(histogram *[256]int) (heights [256]float64, cut [256]bool) {
	sorted := slices.Clone(histogram[:])
	slices.Sort(sorted)
	top := sorted[255]
	if limit := 16 * sorted[247]; sorted[247] > 0 && top > limit { // the eight highest may be spikes
		top = limit
	}
	if top == 0 {
		return heights, cut
	}
	for i, count := range histogram {
		heights[i] = math.Sqrt(float64(min(count, top)) / float64(top))
		cut[i] = count > top
	}
	return heights, cut
}

// CreateRenderer makes the canvas objects.
func (s *Spread) CreateRenderer() fyne.WidgetRenderer {
	r := &spreadRenderer{s: s, back: canvas.NewRectangle(nil)}
	r.back.CornerRadius = Radius
	r.mass = canvas.NewRaster(r.draw)
	text := func(size float32) *canvas.Text {
		t := canvas.NewText("", nil)
		t.TextSize = size
		return t
	}
	for i := range r.shares {
		r.shares[i] = text(SmallSize)
	}
	for i := range r.edges {
		r.edges[i], r.grips[i] = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
		r.grips[i].CornerRadius = Step / 4
	}
	for i := range r.steps {
		r.steps[i], r.ticks[i] = text(SmallSize), canvas.NewRectangle(nil)
	}
	for i := range r.marks {
		r.marks[i], r.letters[i] = canvas.NewRectangle(nil), text(SmallSize)
		r.letters[i].TextStyle.Bold = true
	}
	s.r = r
	r.colour()
	return r
}

type spreadRenderer struct {
	s       *Spread
	back    *canvas.Rectangle
	mass    *canvas.Raster
	img     *image.RGBA
	ink     color.RGBA
	sign    color.RGBA
	shares  [4]*canvas.Text
	edges   [3]*canvas.Rectangle
	grips   [3]*canvas.Rectangle
	steps   [analysis.Steps + 1]*canvas.Text
	ticks   [analysis.Steps + 1]*canvas.Rectangle
	marks   [maxSpots]*canvas.Rectangle
	letters [maxSpots]*canvas.Text
}

func (r *spreadRenderer) colour() {
	th, v := r.s.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	fore, quiet, line := th.Color(theme.ColorNameForeground, v), th.Color(ColorNameQuiet, v), th.Color(ColorNameFocusLine, v)
	r.back.FillColor = th.Color(ColorNamePanel, v)
	r.ink = color.RGBAModel.Convert(th.Color(ColorNameMass, v)).(color.RGBA)
	r.sign = color.RGBAModel.Convert(line).(color.RGBA)
	for _, t := range r.shares {
		t.Color = fore
	}
	for i := range r.edges {
		r.edges[i].FillColor, r.grips[i].FillColor = line, line
	}
	for i := range r.steps {
		r.steps[i].Color, r.ticks[i].FillColor = quiet, quiet
	}
	for i := range r.marks {
		r.marks[i].FillColor, r.letters[i].Color = line, line
	}
}

// draw paints the bins, w by h display pixels, into an image that is kept.
func (r *spreadRenderer) draw(w, h int) image.Image {
	if r.img == nil || r.img.Rect.Dx() != w || r.img.Rect.Dy() != h {
		r.img = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	clear(r.img.Pix)
	heights, cut := spreadHeights(&r.s.state.Histogram)
	for x := range w {
		bin := min(x*256/max(w, 1), 255)
		top := h - int(heights[bin]*float64(h)+0.5)
		for y := max(top, 0); y < h; y++ {
			r.img.SetRGBA(x, y, r.ink)
		}
		if cut[bin] { // a gap and a cap say that the bar goes on
			for y := top + 3; y < min(top+6, h); y++ {
				r.img.SetRGBA(x, y, color.RGBA{})
			}
			for y := top; y < min(top+3, h); y++ {
				r.img.SetRGBA(x, y, r.sign)
			}
		}
	}
	return r.img
}

// Layout places everything.
func (r *spreadRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	left, right := spreadX(0, size.Width), spreadX(100, size.Width)
	r.mass.Move(fyne.NewPos(left, spreadTop+Step))
	r.mass.Resize(fyne.NewSize(max(right-left, 1), max(size.Height-spreadTop-spreadFoot-Step, 1)))
	r.write()
}

// write puts in edges, shares, steps and marks of now.
func (r *spreadRenderer) write() {
	size := r.s.Size()
	r.writeGroups(size)
	r.writeSteps(size)
	r.writeMarks(size)
}

func (r *spreadRenderer) writeGroups(size fyne.Size) {
	groups := r.s.state.Groups
	for i, text := range r.shares {
		if i >= len(groups) {
			text.Hide()
			continue
		}
		from, to := spreadX(groups[i].From, size.Width), spreadX(groups[i].To, size.Width)
		if i == 0 {
			from = Step / 2
		}
		if i == len(groups)-1 {
			to = size.Width - Step/2
		}
		share := Percent(groups[i].Share)
		put(text, longestFitting(to-from-4, SmallSize, groups[i].Name+" "+share, share, ""))
		w := text.MinSize()
		text.Move(fyne.NewPos((from+to-w.Width)/2, Step/2))
		text.Resize(w)
		text.Show()
	}
	for i, edge := range r.edges {
		if i+1 >= len(groups) {
			edge.Hide()
			r.grips[i].Hide()
			continue
		}
		x := spreadX(groups[i].To, size.Width)
		edge.Move(fyne.NewPos(x-0.5, spreadTop))
		edge.Resize(fyne.NewSize(1, size.Height-spreadTop-spreadFoot))
		r.grips[i].Move(fyne.NewPos(x-Step/2, spreadTop-Step/4))
		r.grips[i].Resize(fyne.NewSize(Step, Step*0.75))
		edge.Show()
		r.grips[i].Show()
	}
}

// writeSteps marks the value steps along the foot. They lie where their lightness is.
func (r *spreadRenderer) writeSteps(size fyne.Size) {
	for v := range r.steps {
		x := spreadX(analysis.Lightness(analysis.YOfValue(float64(v))), size.Width)
		r.ticks[v].Move(fyne.NewPos(x-0.5, size.Height-spreadFoot))
		r.ticks[v].Resize(fyne.NewSize(1, Step/2))
		number := v
		if r.s.state.FromWhite {
			number = analysis.Steps - v
		}
		text := r.steps[v]
		put(text, strconv.Itoa(number))
		w := text.MinSize()
		text.Move(fyne.NewPos(x-w.Width/2, size.Height-spreadFoot+Step/2))
		text.Resize(w)
	}
}

func (r *spreadRenderer) writeMarks(size fyne.Size) {
	marks := r.s.state.Marks
	for i, mark := range r.marks {
		if i >= len(marks) {
			mark.Hide()
			r.letters[i].Hide()
			continue
		}
		x := spreadX(marks[i].Lightness, size.Width)
		top := size.Height - spreadFoot - 4*Step - float32(i%3)*1.5*Step // letters of near spots don't lie on each other
		mark.Move(fyne.NewPos(x-1, top))
		mark.Resize(fyne.NewSize(2, size.Height-spreadFoot-top))
		put(r.letters[i], marks[i].Name)
		w := r.letters[i].MinSize()
		at := fyne.NewPos(x+3, top-Step/2)
		if at.X+w.Width > size.Width-Step/2 {
			at.X = x - 3 - w.Width
		}
		r.letters[i].Move(at)
		r.letters[i].Resize(w)
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
	all := []fyne.CanvasObject{r.back, r.mass}
	for i := range r.edges {
		all = append(all, r.edges[i], r.grips[i])
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
	return all
}

// Destroy has nothing to let go of.
func (r *spreadRenderer) Destroy() {}
