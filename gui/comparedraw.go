package gui

import (
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
	knob  float64
	lay   overlay.Lay
}

// wipedBefore is the part of the picture before that the wipe shows.
type wipedBefore struct {
	of  *image.RGBA
	x   int
	img *image.RGBA
}

// draw lays the picture before over the mirror's, as it is wanted now.
func (c *comparer) draw() {
	m := c.mirror
	m.SetHalves(c.how == compareSides && c.with.found != nil)
	if !c.on() || c.with.found == nil || m.Picture() == nil || m.Fit().Bounds.Empty() {
		c.with.wiped = wipedBefore{}
		m.SetOverlay(widgets.OverlayBefore, nil)
		return
	}
	drawn := c.drawn(c.lay())
	switch c.how {
	case compareWipe:
		c.drawWipe(drawn)
	case compareSides:
		c.drawSides(drawn)
	case compareTurns:
		c.drawTurn(drawn)
	case compareMap:
		m.SetOverlay(widgets.OverlayBefore, drawn)
	}
}

// drawn returns the picture before in the view of the mirror, or the map of changes, where it
// lies over the picture after.
func (c *comparer) drawn(lay overlay.Lay) *image.RGBA {
	view, knob := c.view()
	w := &c.with
	of := overLook{w.found, c.how == compareMap, view.Key, knob, lay}
	if w.drawn.img != nil && w.drawn.of == of {
		return w.drawn.img
	}
	w.drawn.of = of
	if found := w.found; of.asMap {
		span := found.change.Span()
		w.drawn.img = overlay.Map(found.change, span, found.place, lay)
		overlay.Scale(w.drawn.img, wording.MapFigures(span), lay.Unit)
	} else {
		before := overlay.Before{Picture: found.aligned.Before, Place: found.place, View: view, Look: views.Look{Reading: found.before, Knob: knob}}
		w.drawn.img = before.Draw(lay)
	}
	return w.drawn.img
}

// name writes on an image which picture it shows.
func (c *comparer) name(img *image.RGBA, name string, right bool) {
	overlay.Name(img, name, right, float64(c.mirror.Scale()))
}

// drawWipe shows the picture before left of the line.
func (c *comparer) drawWipe(before *image.RGBA) {
	w := &c.with
	x := int(w.line*float32(before.Rect.Dx()) + 0.5)
	if w.wiped.img != nil && w.wiped.of == before && w.wiped.x == x {
		return
	}
	w.wiped = wipedBefore{before, x, overlay.Wiped(before, x)}
	c.name(w.wiped.img, wording.PictureBefore, false)
	c.name(w.wiped.img, wording.PictureNow, true)
	c.mirror.SetOverlay(widgets.OverlayBefore, w.wiped.img)
}

// drawSides shows the picture before in the other half of the mirror. Notes and spots lie on
// the picture of now, in its half.
func (c *comparer) drawSides(before *image.RGBA) {
	if c.with.wiped.of == before {
		return
	}
	left, right := image.NewRGBA(before.Rect), image.NewRGBA(before.Rect)
	ground := c.app.Settings().Theme().Color(theme.ColorNameBackground, c.app.Settings().ThemeVariant())
	draw.Draw(left, left.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
	draw.Draw(left, left.Rect, before, image.Point{}, draw.Over)
	c.name(left, wording.PictureBefore, false)
	c.name(right, wording.PictureNow, false)
	c.with.wiped = wipedBefore{of: before, img: right}
	c.mirror.SetBefore(left)
	c.mirror.SetOverlay(widgets.OverlayBefore, right)
}

// drawTurn shows the picture whose turn it is, and comes back for the next.
func (c *comparer) drawTurn(before *image.RGBA) {
	now, shown, again := time.Now(), c.turns.Shown(), time.Duration(0)
	if c.turns.Due(now) { // no sooner after another change than that
		again = c.wait(now)
	}
	if again == 0 {
		shown, again = c.turns.At(now)
	}
	img := image.NewRGBA(before.Rect)
	if shown == 0 {
		copy(img.Pix, before.Pix)
		c.name(img, wording.PictureBefore, false)
	} else {
		c.name(img, wording.PictureNow, false)
	}
	c.mirror.SetOverlay(widgets.OverlayBefore, img)
	if again > 0 {
		c.later(again, func() {
			if c.how == compareTurns {
				c.draw()
			}
		})
	}
}
