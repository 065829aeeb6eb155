package widgets

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/colour"
	"app.tonedesk/gui/wording"
)

// GroupBar shows a picture's groups as one bar: each as wide as its share, in the grey of
// its mean, from dark to light without a gap, its share on it where there is room.
type GroupBar struct {
	drawn
	groups []analysis.Group
	boxes  [4]*canvas.Rectangle
	shares [4]*canvas.Text
}

// NewGroupBar returns an empty bar.
func NewGroupBar() *GroupBar {
	b := &GroupBar{}
	for i := range b.boxes {
		b.boxes[i], b.shares[i] = b.addBox(), b.addText(SmallSize, fyne.TextStyle{})
	}
	b.least = fyne.NewSize(30*Step, SwatchHeight)
	b.draw(b)
	return b
}

// Set shows groups from dark to light, of which it keeps a copy; the same once more costs
// nothing.
func (b *GroupBar) Set(groups []analysis.Group) {
	if !sameGroups(groups, b.groups) {
		b.groups = slices.Clone(groups)
		b.redraw()
	}
}

// write puts in the greys, and the shares that fit.
func (b *GroupBar) write(size fyne.Size, _ colours) {
	edges, shares := shareEdges(b.groups, size.Width), wording.GroupShares(b.groups)
	for i := range b.boxes {
		there := i < len(b.groups)
		show(b.boxes[i], there)
		if there {
			fill(b.boxes[i], greyFill(colour.GreyOf(b.groups[i].Mean)))
			say(b.shares[i], shares[i], legibleOn(b.groups[i].Mean))
		}
		show(b.shares[i], there && b.shares[i].MinSize().Width <= edges[i+1]-edges[i]-4)
	}
}

// place stands the groups beside each other, their shares in their middles.
func (b *GroupBar) place(size fyne.Size) {
	edges := shareEdges(b.groups, size.Width)
	for i := range min(len(b.groups), len(b.boxes)) {
		x, width, text := edges[i], edges[i+1]-edges[i], b.shares[i].MinSize()
		put(b.boxes[i], fyne.NewPos(x, 0), fyne.NewSize(width, SwatchHeight))
		placeText(b.shares[i], x+(width-text.Width)/2, (SwatchHeight-text.Height)/2)
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
