package comparing

import (
	"cmp"
	"image"
	"image/draw"
	"time"

	"fyne.io/fyne/v2/theme"

	"app.tonedesk/analysis/views"
	"app.tonedesk/gui/overlay"
	"app.tonedesk/gui/widgets"
	"app.tonedesk/gui/wording"
)

// drawnOver is what lies over the whole of the picture that is watched, the picture before or
// the map of changes, and for what it was drawn.
type drawnOver struct {
	img *image.RGBA
	of  overLook
}

// overLook is what such a drawing depends on.
type overLook struct {
	found *compared
	asMap bool
	view  string
	look  views.Look // without a reading
	lay   overlay.Lay
}

// partedBefore is the part of the picture before that is shown.
type partedBefore struct {
	of  *image.RGBA
	x   int
	img *image.RGBA
}

// draw lays the picture before over the mirror's, as it is wanted now.
func (c *Comparer) draw() {
	m := c.Mirror
	m.SetHalves(c.How == Sides && c.With.Found != nil)
	if c.How == Divided && c.With.Found != nil {
		m.SetDivider(c.line, c.MoveLine)
	} else {
		m.SetDivider(0, nil)
	}
	if !c.On() || c.With.Found == nil || m.NextFit().Bounds.Empty() {
		c.With.parted = partedBefore{}
		m.SetOverlay(widgets.OverlayBefore, nil)
		m.SetOverlay(widgets.OverlayNames, nil)
		return
	}
	drawn := c.drawn(c.Lay())
	switch c.How {
	case Divided:
		c.drawDivided(drawn)
	case Sides:
		c.drawSides(drawn)
	case Turns:
		c.drawTurn(drawn)
	case Map:
		m.SetOverlay(widgets.OverlayBefore, drawn)
		m.SetOverlay(widgets.OverlayNames, nil)
	}
}

// drawn returns the picture before in the view of the mirror, or the map of changes, where it
// lies over the picture after.
func (c *Comparer) drawn(lay overlay.Lay) *image.RGBA {
	view, look := c.View()
	w := &c.With
	of := overLook{w.Found, c.How == Map, view.Key, look, lay}
	if w.drawn.img != nil && w.drawn.of == of {
		return w.drawn.img
	}
	w.drawn.of = of
	if found := w.Found; of.asMap {
		span := found.change.Span()
		w.drawn.img = overlay.Map(found.change, span, found.place, lay)
		overlay.Scale(w.drawn.img, wording.MapFigures(span), lay.Unit)
	} else {
		look.Reading = found.before
		before := overlay.Before{Picture: found.aligned.Before, Place: found.place, View: view, Look: look}
		w.drawn.img = before.Draw(lay)
	}
	return w.drawn.img
}

// mostOfName is how many letters of a picture's name are shown on it; plainText is the size of
// type at 100 percent.
const mostOfName, plainText = 24, 13

// names are what writes on an image of this size that it shows the picture before, and that of now.
// Both are of one size; alone they have all of the width, else they share it.
func (c *Comparer) names(img *image.RGBA, alone bool) (nameBefore, nameNow func(img *image.RGBA, right bool)) {
	room, unit := overlay.NameRoom(img, alone), float64(c.Mirror.Scale()*widgets.TextSize()/plainText)
	before, now := wording.PictureBefore.String(), wording.PictureNow.String()
	was, fitted := overlay.FitName(room, unit, widgets.Shortened(c.With.name, mostOfName), before)
	is, fitted := overlay.FitName(room, fitted, cmp.Or(widgets.Shortened(c.Now(), mostOfName), now), now)
	with := func(name string) func(*image.RGBA, bool) {
		return func(img *image.RGBA, right bool) { overlay.Name(img, name, right, fitted) }
	}
	return with(was), with(is)
}

// drawDivided shows the picture before left of the line.
func (c *Comparer) drawDivided(before *image.RGBA) {
	w := &c.With
	x := int(c.line*float32(before.Rect.Dx()) + 0.5)
	if w.parted.img != nil && w.parted.of == before && w.parted.x == x {
		return
	}
	unit := float64(c.Mirror.Scale())
	grip := overlay.Grip{At: image.Pt(x, int(widgets.GripAt*float64(before.Rect.Dy())+0.5)), Wide: widgets.GripWide, High: widgets.GripHigh}
	w.parted = partedBefore{before, x, overlay.Divided(before, grip, unit)}
	was, is := c.names(before, false)
	names := image.NewRGBA(before.Rect)
	was(names, false)
	is(names, true)
	c.Mirror.SetOverlay(widgets.OverlayNames, names)
	c.Mirror.SetOverlay(widgets.OverlayBefore, w.parted.img)
}

// drawSides shows the picture before in the other half of the mirror. Notes and spots lie on
// the picture of now, in its half.
func (c *Comparer) drawSides(before *image.RGBA) {
	if c.With.parted.of == before {
		return
	}
	left, right := image.NewRGBA(before.Rect), image.NewRGBA(before.Rect)
	ground := c.App.Settings().Theme().Color(theme.ColorNameBackground, c.App.Settings().ThemeVariant())
	draw.Draw(left, left.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
	draw.Draw(left, left.Rect, before, image.Point{}, draw.Over)
	was, is := c.names(before, true)
	was(left, false)
	names := image.NewRGBA(before.Rect)
	is(names, false)
	c.Mirror.SetOverlay(widgets.OverlayNames, names)
	c.With.parted = partedBefore{of: before, img: right}
	c.Mirror.SetBefore(left)
	c.Mirror.SetOverlay(widgets.OverlayBefore, right)
}

// drawTurn shows the picture whose turn it is, and comes back for the next.
func (c *Comparer) drawTurn(before *image.RGBA) {
	now, shown, again := time.Now(), c.turns.Shown(), time.Duration(0)
	if c.turns.Due(now) { // no sooner after another change than that
		again = c.Wait(now)
	}
	if again == 0 {
		shown, again = c.turns.At(now)
	}
	img, names := image.NewRGBA(before.Rect), image.NewRGBA(before.Rect)
	was, is := c.names(img, true)
	if shown == 0 {
		copy(img.Pix, before.Pix)
		was(names, false)
	} else {
		is(names, false)
	}
	c.Mirror.SetOverlay(widgets.OverlayNames, names)
	c.Mirror.SetOverlay(widgets.OverlayBefore, img)
	if again > 0 {
		c.Later(again, func() {
			if c.How == Turns {
				c.draw()
			}
		})
	}
}
