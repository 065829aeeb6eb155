package gui

import (
	"image"
	"image/color"
	"image/draw"
	"time"

	"fyne.io/fyne/v2/theme"
	xdraw "golang.org/x/image/draw"

	"app.tonedesk/analysis"
	"app.tonedesk/analysis/reduce"
	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/live"
	"app.tonedesk/gui/stills/ink"
	"app.tonedesk/gui/widgets"
)

// drawCompare lays the picture before over the mirror's, as it is wanted now.
func (d *Desk) drawCompare() {
	m := d.parts.mirror
	c := &d.comparison
	m.SetHalves(d.comparing == compareSides && c.found != nil)
	if d.comparing < compareWipe || c.found == nil || m.Picture() == nil || m.Fit().Bounds.Empty() {
		m.SetOverlay(widgets.OverlayBefore, nil)
		return
	}
	size := m.Pixels()
	if d.comparing == compareMap {
		m.SetOverlay(widgets.OverlayBefore, d.mapOver(size))
		return
	}
	before := d.beforeOver(size)
	switch d.comparing {
	case compareWipe:
		x := int(c.at*float32(size.X) + 0.5)
		if c.wipe.img == nil || c.wipe.of != before || c.wipe.x != x {
			c.wipe = wipedBefore{before, x, wiped(before, x)}
			d.nameSide(c.wipe.img, "before", false)
			d.nameSide(c.wipe.img, "now", true)
			m.SetOverlay(widgets.OverlayBefore, c.wipe.img)
		}
	case compareSides:
		d.drawSides(before)
	case compareTurns:
		d.drawTurn(before)
	}
}

// drawTurn shows the picture whose turn it is, and comes back for the next.
func (d *Desk) drawTurn(before *image.RGBA) {
	now, shown, again := time.Now(), d.turns.Shown(), time.Duration(0)
	if d.turns.Due(now) { // no sooner after another change than that
		again = d.calm.wait(now)
	}
	if again == 0 {
		shown, again = d.turns.At(now)
	}
	img := image.NewRGBA(before.Rect)
	if shown == 0 {
		copy(img.Pix, before.Pix)
		d.nameSide(img, "before", false)
	} else {
		d.nameSide(img, "now", false)
	}
	d.parts.mirror.SetOverlay(widgets.OverlayBefore, img)
	if again > 0 {
		d.later(again, func() {
			if d.comparing == compareTurns {
				d.drawCompare()
			}
		})
	}
}

// beforeOver returns the picture before in the view of the mirror, where it lies over the
// picture after; clear elsewhere.
func (d *Desk) beforeOver(size image.Point) *image.RGBA {
	c, m := &d.comparison, d.parts.mirror
	view := live.ViewOf(live.Wanted{Settings: d.settings})
	look := beforeLook{c.found, view.Key, d.settings.Knob(view), m.Fit().Bounds, size, m.Flipped()}
	if c.drawn.img != nil && c.drawn.look == look {
		return c.drawn.img
	}
	img := image.NewRGBA(image.Rectangle{Max: size})
	place, part := c.found.place, m.Fit().Bounds
	met := place.Intersect(part)
	p := c.found.aligned.Before
	crop := image.Rectangle{
		Min: scaledPoint(met.Min.Sub(place.Min), place.Size(), image.Pt(p.Width, p.Height)),
		Max: scaledPoint(met.Max.Sub(place.Min), place.Size(), image.Pt(p.Width, p.Height)),
	}
	to := image.Rectangle{
		Min: scaledPoint(met.Min.Sub(part.Min), part.Size(), size),
		Max: scaledPoint(met.Max.Sub(part.Min), part.Size(), size),
	}
	if !crop.Empty() && !to.Empty() {
		small := paintSmall(p.Crop(crop), view, to.Size(), views.Look{Reading: c.found.before, Knob: look.knob})
		xdraw.NearestNeighbor.Scale(img, to, small, small.Rect, xdraw.Src, nil)
	}
	if m.Flipped() {
		views.FlipLeftRight(img.Pix, size.X, size.Y)
	}
	c.drawn = drawnBefore{img, look}
	return img
}

// paintSmall paints a picture in a view, reduced to size where it is larger.
func paintSmall(p analysis.Pixels, view views.View, size image.Point, look views.Look) *image.RGBA {
	r := reduce.New()
	defer r.Close()
	small := r.Reduce(p, size.X, size.Y, nil)
	img := image.NewRGBA(image.Rect(0, 0, small.Width, small.Height))
	view.Paint(img.Pix, small, look)
	return img
}

// scaledPoint brings a point of a picture of one size to the same place in another size.
func scaledPoint(p, from, to image.Point) image.Point {
	return image.Pt((p.X*to.X+from.X/2)/max(from.X, 1), (p.Y*to.Y+from.Y/2)/max(from.Y, 1))
}

// mapOver returns the map of what changed, where it lies over the picture after.
func (d *Desk) mapOver(size image.Point) *image.RGBA {
	c, m := &d.comparison, d.parts.mirror
	whole := image.NewRGBA(image.Rect(0, 0, c.found.change.Width, c.found.change.Height))
	c.found.change.Paint(whole.Pix, c.found.change.Span())
	img := image.NewRGBA(image.Rectangle{Max: size})
	place, part := c.found.place, m.Fit().Bounds
	to := image.Rectangle{
		Min: scaledPoint(place.Min.Sub(part.Min), part.Size(), size),
		Max: scaledPoint(place.Max.Sub(part.Min), part.Size(), size),
	}
	xdraw.ApproxBiLinear.Scale(img, to, whole, whole.Rect, xdraw.Src, nil)
	if m.Flipped() {
		views.FlipLeftRight(img.Pix, size.X, size.Y)
	}
	d.drawMapScale(img, c.found.change.Span())
	return img
}

// wiped returns the part of the picture before that lies left of x, with a line where the
// two meet.
func wiped(before *image.RGBA, x int) *image.RGBA {
	img := image.NewRGBA(before.Rect)
	x = min(max(x, 0), before.Rect.Dx())
	draw.Draw(img, image.Rect(0, 0, x, before.Rect.Dy()), before, image.Point{}, draw.Src)
	line(img, x)
	return img
}

// drawSides shows the picture before in the other half of the mirror. Notes and spots lie on
// the picture of now, in its half.
func (d *Desk) drawSides(before *image.RGBA) {
	if d.comparison.wipe.of == before {
		return
	}
	left, right := image.NewRGBA(before.Rect), image.NewRGBA(before.Rect)
	ground := d.app.Settings().Theme().Color(theme.ColorNameBackground, d.app.Settings().ThemeVariant())
	draw.Draw(left, left.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
	draw.Draw(left, left.Rect, before, image.Point{}, draw.Over)
	d.nameSide(left, "before", false)
	d.nameSide(right, "now", false)
	d.comparison.wipe = wipedBefore{of: before, img: right}
	d.parts.mirror.SetBefore(left)
	d.parts.mirror.SetOverlay(widgets.OverlayBefore, right)
}

// nameSide writes at the upper left, or the upper right, which picture is shown there.
func (d *Desk) nameSide(img *image.RGBA, name string, right bool) {
	unit := float64(d.parts.mirror.Scale())
	size := float64(widgets.TextSize) * unit
	at := ink.Pt(float64(widgets.Step)*unit, float64(widgets.Step)*unit+size)
	if right {
		at.X = float64(img.Rect.Dx()) - float64(widgets.Step)*unit - ink.Width(ink.Bold, name, size)
	}
	var pen ink.Drawer
	pen.Draw(img, img.Rect, []ink.Mark{{Shapes: ink.Letters(ink.Bold, name, at, size), Grey: ink.LightGrey, Rim: 1.5 * unit, RimGrey: ink.DarkGrey}})
}

// Line draws the upright line between two pictures, light on dark.
func line(img *image.RGBA, x int) {
	for dx, c := range map[int]color.NRGBA{-1: widgets.MarkDark, 0: widgets.MarkLight, 1: widgets.MarkDark} {
		for y := range img.Rect.Dy() {
			if p := image.Pt(x+dx, y); p.In(img.Rect) {
				img.Set(p.X, p.Y, c)
			}
		}
	}
}
