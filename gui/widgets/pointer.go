package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// pointer is what the painter is doing with the mirror, by pointer or by keys.
type pointer struct {
	owner *Mirror

	doing  doing
	from   image.Point // where a press or an area began, source pixel
	to     image.Point
	start  fyne.Position // of the press, in the mirror
	mark   int           // carried
	grip   image.Point   // from the pointer to the carried mark's middle
	over   bool          // the pointer is over the picture
	at     image.Point   // pixel under the pointer
	key    image.Point   // key cursor
	keyed  bool          // the key cursor is in use
	anchor bool          // the keys have begun an area at from
}

type doing uint8

const (
	idle     doing = iota
	pressed        // the button is down and hasn't moved enough for a drag
	dragging       // an area
	carrying       // a mark
	drawing        // with the pen
)

// dragDistance is how far the pointer goes before a press becomes a drag, in Fyne units.
const dragDistance = 4

// drop forgets whatever was begun.
func (h *pointer) drop() {
	if h.doing == drawing && h.owner.pen != nil {
		h.owner.pen.Up()
	}
	h.doing, h.anchor = idle, false
	h.owner.redraw()
}

// keepIn keeps the key cursor inside the picture.
func (h *pointer) keepIn(bounds image.Rectangle) {
	if bounds.Empty() {
		h.keyed = false
		return
	}
	h.key = nearestIn(h.key, bounds)
}

// band returns the area being dragged over.
func (h *pointer) band() (image.Rectangle, bool) {
	switch {
	case h.doing == dragging:
		return between(h.from, h.to), true
	case h.anchor && h.owner.pen == nil:
		return between(h.from, h.key), true
	}
	return image.Rectangle{}, false
}

// cursor returns the key cursor, if it is in use.
func (h *pointer) cursor() (image.Point, bool) { return h.key, h.keyed }

// looking returns the pixel to show in the loupe.
func (h *pointer) looking() (image.Point, bool) {
	if h.keyed {
		return h.key, true
	}
	return h.at, h.over
}

// look notes the pixel under the pointer.
func (h *pointer) look(pos fyne.Position) {
	at, in := h.owner.Fit().source(pos)
	if at == h.at && in == h.over && !h.keyed {
		return
	}
	h.at, h.over, h.keyed = at, in, false
	h.owner.acts.Look(at, in)
	h.owner.redraw()
}

// markAt returns the topmost mark within reach of a point of the mirror.
func (m *Mirror) markAt(pos fyne.Position) (int, bool) {
	f := m.Fit()
	for i := len(m.marks) - 1; i >= 0; i-- {
		k := m.marks[i]
		if !k.Area.Empty() {
			if pos, size := f.box(k.Area); !nearEdge(m.hand.start, pos, size) {
				continue
			}
			return i, true
		}
		if d := pos.Subtract(f.Pane(k.At)); d.X*d.X+d.Y*d.Y <= (ringRadius(k.Selected)+2)*(ringRadius(k.Selected)+2) {
			return i, true
		}
	}
	return 0, false
}

// nearEdge reports whether p lies on the edge of a box, by four units.
func nearEdge(p, pos fyne.Position, size fyne.Size) bool {
	const reach = 4
	in := func(by float32) bool {
		return p.X >= pos.X-by && p.Y >= pos.Y-by && p.X <= pos.X+size.Width+by && p.Y <= pos.Y+size.Height+by
	}
	return in(reach) && !in(-reach)
}

// MouseDown begins a click, a drag, or the carrying of a mark.
func (m *Mirror) MouseDown(e *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(m); c != nil {
		c.Focus(m)
	}
	if e.Button == desktop.MouseButtonSecondary {
		m.acts.Menu(e.AbsolutePosition)
		return
	}
	h := &m.hand
	at, in := m.Fit().source(e.Position)
	if !in || e.Button != desktop.MouseButtonPrimary {
		return
	}
	m.shift = e.Modifier&fyne.KeyModifierShift != 0
	h.start, h.from, h.to = e.Position, at, at
	h.doing, h.keyed, h.anchor = pressed, false, false
	if m.pen != nil {
		h.doing = drawing
		x, y := m.Fit().place(e.Position)
		m.pen.Down(x, y, h.owner.shift)
		return
	}
	if i, ok := m.markAt(e.Position); ok && !h.owner.shift && m.ask == "" {
		k := m.marks[i]
		h.doing, h.mark, h.grip = carrying, i, k.centre().Sub(at)
		m.acts.Select(i)
	}
	h.look(e.Position)
}

// Dragged goes on with what MouseDown began.
func (m *Mirror) Dragged(e *fyne.DragEvent) {
	h := &m.hand
	if h.doing == idle {
		return
	}
	if h.doing == drawing {
		x, y := m.Fit().place(e.Position)
		m.pen.Move(x, y, h.owner.shift)
		return
	}
	h.look(e.Position)
	h.to, _ = m.Fit().source(e.Position)
	switch h.doing {
	case carrying:
		m.acts.Carry(h.mark, nearestIn(h.to.Add(h.grip), m.bounds), false)
	case pressed:
		if d := e.Position.Subtract(h.start); d.X*d.X+d.Y*d.Y >= dragDistance*dragDistance {
			h.doing = dragging
		}
	}
	h.owner.redraw()
}

// MouseUp ends it.
func (m *Mirror) MouseUp(e *desktop.MouseEvent) { m.hand.end() }

// DragEnd ends it too, where the button came up outside of the mirror.
func (m *Mirror) DragEnd() { m.hand.end() }

func (h *pointer) end() {
	was := h.doing
	h.doing = idle
	switch was {
	case drawing:
		if h.owner.pen != nil {
			h.owner.pen.Up()
		}
	case pressed:
		h.owner.acts.Click(h.from, h.owner.shift)
	case dragging:
		h.owner.acts.Drag(between(h.from, h.to), h.owner.shift)
	case carrying:
		if h.to != h.from {
			h.owner.acts.Carry(h.mark, nearestIn(h.to.Add(h.grip), h.owner.bounds), true)
		}
	}
	h.owner.redraw()
}

// MouseIn, MouseMoved and MouseOut follow the pointer for the loupe.
func (m *Mirror) MouseIn(e *desktop.MouseEvent) { m.hand.look(e.Position) }

// MouseMoved follows the pointer.
func (m *Mirror) MouseMoved(e *desktop.MouseEvent) { m.hand.look(e.Position) }

// MouseOut ends the looking.
func (m *Mirror) MouseOut() {
	m.hand.over = false
	if !m.hand.keyed {
		m.acts.Look(m.hand.at, false)
	}
}
