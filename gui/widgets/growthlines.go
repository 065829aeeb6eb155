package widgets

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2/theme"

	"app.tonedesk/gui/wording"
)

// Widths of what is drawn of a line, in the window's units.
const (
	growthThin   = 1.0 // before it turned
	growthStrong = 2.0 // and after
	growthDisc   = 3.5 // radius, where it turned
	growthDot    = 1.5 // of the last figure
)

// paintCharts draws the lines of all rows, at the display's own pixels.
func (c *GrowthCard) paintCharts(w, h int) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	size := c.charts.Size()
	if size.Width <= 0 || size.Height <= 0 {
		return img
	}
	of := coloursOf(c)
	d := growthDrawing{img: img, k: float64(w) / float64(size.Width)}
	for i, r := range c.plan.rows {
		if i < len(c.text.Lines) {
			d.line(&c.text.Lines[i], r.line, [3]color.Color{of(ColorNameHairline), of(ColorNameQuiet), of(theme.ColorNameForeground)})
		}
	}
	return img
}

// growthDrawing draws on a picture with so many pixels a unit.
type growthDrawing struct {
	img *image.NRGBA
	k   float64
}

// line draws a line in its box: the colours are those of its foot, of what was before it turned, and
// of what came after.
func (d *growthDrawing) line(l *wording.GrowthLine, box rect, inks [3]color.Color) {
	const inside = growthDisc // so that no disc is cut off
	at := func(p wording.GrowthPoint) (x, y float64) {
		x = float64(box.x) + inside + p.X*(float64(box.w)-2*inside)
		return x, float64(box.y) + float64(box.h) - inside - p.Y*(float64(box.h)-2*inside)
	}
	foot := float64(box.y + box.h)
	d.stroke(float64(box.x), foot, float64(box.x+box.w), foot, 1, inks[0])
	for i := 1; i < len(l.Points); i++ {
		if l.Points[i].Gap {
			continue
		}
		x0, y0 := at(l.Points[i-1])
		x1, y1 := at(l.Points[i])
		ink, wide := inks[2], growthStrong
		if i <= l.Turn {
			ink, wide = inks[1], growthThin
		}
		d.stroke(x0, y0, x1, y1, wide, ink)
	}
	if n := len(l.Points); n > 0 {
		x, y := at(l.Points[n-1])
		d.stroke(x, y, x, y, 2*growthDot, inks[2])
	}
	if l.Turn >= 0 && l.Turn < len(l.Points) {
		x, y := at(l.Points[l.Turn])
		d.stroke(x, y, x, y, 2*growthDisc, inks[2])
	}
}

// stroke draws a straight line with round ends, in units; one without length is a disc. Pixels are
// covered as far as they lie within half of its width.
func (d *growthDrawing) stroke(x0, y0, x1, y1, width float64, ink color.Color) {
	x0, y0, x1, y1, width = d.k*x0, d.k*y0, d.k*x1, d.k*y1, d.k*width
	half := width/2 + 0.5
	box := image.Rect(int(min(x0, x1)-half), int(min(y0, y1)-half), int(max(x0, x1)+half)+1, int(max(y0, y1)+half)+1).Intersect(d.img.Rect)
	of := color.NRGBAModel.Convert(ink).(color.NRGBA)
	dx, dy := x1-x0, y1-y0
	long := dx*dx + dy*dy
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			px, py := float64(x)+0.5-x0, float64(y)+0.5-y0
			part := 0.0
			if long > 0 {
				part = min(max((px*dx+py*dy)/long, 0), 1)
			}
			cover := min(max(half-math.Hypot(px-part*dx, py-part*dy), 0), 1)
			d.cover(x, y, of, cover)
		}
	}
}

// cover lays a colour over a pixel, as far as it covers it.
func (d *growthDrawing) cover(x, y int, ink color.NRGBA, part float64) {
	pix := d.img.Pix[d.img.PixOffset(x, y):][:4]
	under := float64(pix[3]) / 255
	alpha := part + under*(1-part)
	if alpha == 0 {
		return
	}
	for i, v := range []uint8{ink.R, ink.G, ink.B} {
		pix[i] = uint8(math.Round((float64(v)*part + float64(pix[i])*under*(1-part)) / alpha))
	}
	pix[3] = uint8(math.Round(255 * alpha))
}
