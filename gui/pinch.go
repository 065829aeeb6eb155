package gui

import (
	"context"
	"image"
	"math"

	"fyne.io/fyne/v2"

	"app.tonedesk/gui/native"
)

// pinch is what two fingers on a touchpad are doing to the mirror; the zero value: nothing.
type pinch struct {
	view image.Rectangle // the part that was wished for when the fingers were put down
	from image.Rectangle // and that was shown
	at   image.Point     // the pixel under the pointer then
	by   fyne.Position   // how far the fingers' middle has moved since
}

// watchPinches hands what two fingers do on a touchpad to the mirror below the pointer,
// until ctx ends. Where the system doesn't tell, wheel and keys are left.
func (d *Desk) watchPinches(ctx context.Context, handle uintptr) {
	_ = native.Pinches(ctx, handle, func(p native.Pinch) {
		d.onWindow(func() { d.pinched(p) })
	})
}

// pinched takes one event of a pinch.
func (d *Desk) pinched(p native.Pinch) {
	c, m := d.window.Canvas(), d.parts.mirror
	scale := m.scale()
	corner := d.app.Driver().AbsolutePositionForObject(m)
	at := fyne.NewPos(float32(p.X)/scale, float32(p.Y)/scale).Subtract(corner)
	switch inside := at.X >= 0 && at.Y >= 0 && at.X < m.Size().Width && at.Y < m.Size().Height; {
	case p.Begins && inside && m.Visible() && c.Overlays().Top() == nil:
		m.pinchBegins(at)
	case p.Begins || p.Ends:
		if p.Off && !m.pinch.from.Empty() {
			m.setView(m.pinch.view)
		}
		m.pinch = pinch{}
	default:
		m.pinchGoesOn(fyne.NewDelta(float32(p.DX)/scale, float32(p.DY)/scale), p.Scale)
	}
}

// pinchBegins takes hold of the picture at a point of the pane.
func (m *Mirror) pinchBegins(at fyne.Position) {
	m.pinch = pinch{view: m.view, from: partShown(m.view, m.bounds)}
	m.pinch.at, _ = m.fit.source(at)
}

// pinchGoesOn enlarges what was shown at the beginning by a factor, about the pixel that
// was under the pointer, and moves it with the fingers.
func (m *Mirror) pinchGoesOn(moved fyne.Delta, by float64) {
	p := &m.pinch
	if p.from.Empty() || !p.from.In(m.bounds) || m.fit.Size.Width <= 0 {
		return // it began elsewhere, or on another picture
	}
	p.by = p.by.Add(moved)
	view := zoomed(p.from, m.bounds, p.at, by)
	if !view.Empty() {
		pixels := float64(view.Dx()) / float64(m.fit.Size.Width)
		across := pixels
		if m.flip {
			across = -pixels
		}
		want := image.Pt(int(math.Round(float64(p.by.X)*across)), int(math.Round(float64(p.by.Y)*pixels)))
		kept := keptIn(view.Sub(want), m.bounds)
		if can := view.Min.Sub(kept.Min); can != want { // at a border: the way back begins at once
			p.by = fyne.NewPos(float32(float64(can.X)/across), float32(float64(can.Y)/pixels))
		}
		view = kept
	}
	m.setView(view)
}
