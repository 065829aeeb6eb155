package widgets

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// GroupBar shows a picture's groups as one bar: each as wide as its share, in the grey of
// its mean, from dark to light without a gap, its share on it where there is room. Use it
// on the Fyne goroutine only.
type GroupBar struct {
	widget.BaseWidget
	groups []analysis.Group
	r      *groupBarRenderer
}

// NewGroupBar returns an empty bar.
func NewGroupBar() *GroupBar {
	b := &GroupBar{}
	b.ExtendBaseWidget(b)
	return b
}

// Set shows groups from dark to light, of which it keeps a copy; the same once more costs
// nothing.
func (b *GroupBar) Set(groups []analysis.Group) {
	if sameGroups(groups, b.groups) {
		return
	}
	b.groups = slices.Clone(groups)
	if b.r != nil {
		b.r.write()
	}
}

// CreateRenderer makes the canvas objects.
func (b *GroupBar) CreateRenderer() fyne.WidgetRenderer {
	r := &groupBarRenderer{b: b}
	for i := range r.boxes {
		r.boxes[i] = canvas.NewRectangle(color.Transparent)
		r.shares[i] = sizedText(SmallSize, fyne.TextStyle{})
	}
	b.r = r
	return r
}

type groupBarRenderer struct {
	b      *GroupBar
	boxes  [4]*canvas.Rectangle
	shares [4]*canvas.Text
}

// write puts in what is shown now.
func (r *groupBarRenderer) write() {
	edges, shares := shareEdges(r.b.groups, r.b.Size().Width), wording.GroupShares(r.b.groups)
	for i := range r.boxes {
		there := i < len(r.b.groups)
		r.boxes[i].Hidden, r.shares[i].Hidden = !there, !there
		if !there {
			continue
		}
		group, width := r.b.groups[i], edges[i+1]-edges[i]
		v := colour.GreyOf(group.Mean)
		fill(r.boxes[i], color.NRGBA{v, v, v, 255})
		r.boxes[i].Move(fyne.NewPos(edges[i], 0))
		r.boxes[i].Resize(fyne.NewSize(width, SwatchHeight))
		inked(r.shares[i], legibleOn(group.Mean))
		put(r.shares[i], shares[i])
		size := r.shares[i].MinSize()
		r.shares[i].Hidden = size.Width > width-4
		placeText(r.shares[i], edges[i]+(width-size.Width)/2, (SwatchHeight-size.Height)/2)
	}
}

// legibleOn returns the grey, black or white, that stands out more on a lightness; its
// contrast is 4.5 to 1 at least (WCAG 2.2, success criterion 1.4.3).
func legibleOn(lightness float64) color.Color {
	if y := colour.LuminanceOf(lightness); (1+0.05)/(y+0.05) > (y+0.05)/0.05 {
		return color.White
	}
	return color.Black
}

// inked gives a text a colour; the same one costs nothing.
func inked(t *canvas.Text, c color.Color) {
	if t.Color != c {
		t.Color = c
		t.Refresh()
	}
}

// shareEdges returns the left edge of every group and the right one of the last, in whole
// units, so that they meet between pixels.
func shareEdges(groups []analysis.Group, width float32) []float32 {
	edges := make([]float32, len(groups)+1)
	sum := 0.0
	for i, g := range groups {
		sum += g.Share
		edges[i+1] = min(max(float32(int(float64(width)*sum+0.5)), edges[i]), width)
	}
	return edges
}

// Layout places everything.
func (r *groupBarRenderer) Layout(fyne.Size) { r.write() }

// MinSize has a fixed height.
func (r *groupBarRenderer) MinSize() fyne.Size { return fyne.NewSize(30*Step, SwatchHeight) }

// Refresh draws everything anew.
func (r *groupBarRenderer) Refresh() {
	r.write()
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

// Objects are all that is drawn.
func (r *groupBarRenderer) Objects() []fyne.CanvasObject {
	var all []fyne.CanvasObject
	for i := range r.boxes {
		all = append(all, r.boxes[i], r.shares[i])
	}
	return all
}

// Destroy has nothing to let go of.
func (r *groupBarRenderer) Destroy() {}
