package widgets

import (
	"image"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// pointer is what the painter is doing with the mirror, by pointer or by keys.
type pointer struct {
	doing   doing
	from    image.Point // where a press or an area began, source pixel
	to      image.Point
	start   fyne.Position // of the press, in the mirror
	carried int           // mark
	grip    image.Point   // from the pointer to the carried mark's middle
	over    bool          // the pointer is over the picture
	at      image.Point   // pixel under the pointer
	key     image.Point   // key cursor
	keyed   bool          // the key cursor is in use
	anchor  bool          // the keys have begun an area at from
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
func (m *Mirror) drop() {
	if m.doing == drawing {
		m.pen.Up()
	}
	m.doing, m.anchor = idle, false
	m.redraw()
}

// band returns the area being dragged over.
func (m *Mirror) band() (image.Rectangle, bool) {
	switch {
	case m.doing == dragging:
		return between(m.from, m.to), true
	case m.anchor && m.pen == nil:
		return between(m.from, m.key), true
	}
	return image.Rectangle{}, false
}

// looking returns the pixel to show in the loupe.
func (m *Mirror) looking() (image.Point, bool) {
	if m.keyed {
		return m.key, true
	}
	return m.at, m.over
}

// lookAt notes the pixel under the pointer.
func (m *Mirror) lookAt(pos fyne.Position) {
	at, in := m.Fit().source(pos)
	if at == m.at && in == m.over && !m.keyed {
		return
	}
	m.at, m.over, m.keyed = at, in, false
	m.acts.Look(at, in)
	m.redraw()
}

// markAt returns the topmost mark within reach of a point of the mirror.
func (m *Mirror) markAt(pos fyne.Position) (int, bool) {
	f := m.Fit()
	for i, k := range slices.Backward(m.marks) {
		if !k.Area.Empty() {
			if at, size := f.box(k.Area); within(pos, at, size, reach) && !within(pos, at, size, -reach) {
				return i, true
			}
			continue
		}
		d, radius := pos.Subtract(f.Pane(k.At)), ringRadius(k.Selected)+2
		if d.X*d.X+d.Y*d.Y <= radius*radius {
			return i, true
		}
	}
	return 0, false
}

// reach is how far from a small thing a press still means it, in Fyne units.
const reach = 4

// within reports whether p lies in a box that is larger by so much on each side.
func within(p, pos fyne.Position, size fyne.Size, by float32) bool {
	return p.X >= pos.X-by && p.Y >= pos.Y-by && p.X <= pos.X+size.Width+by && p.Y <= pos.Y+size.Height+by
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
	at, in := m.Fit().source(e.Position)
	if !in || e.Button != desktop.MouseButtonPrimary {
		return
	}
	m.shift = e.Modifier&fyne.KeyModifierShift != 0
	m.start, m.from, m.to = e.Position, at, at
	m.doing, m.keyed, m.anchor = pressed, false, false
	if m.pen != nil {
		m.doing = drawing
		x, y := m.Fit().place(e.Position)
		m.pen.Down(x, y, m.shift)
		return
	}
	if i, ok := m.markAt(e.Position); ok && !m.shift && m.ask == "" {
		k := m.marks[i]
		m.doing, m.carried, m.grip = carrying, i, k.centre().Sub(at)
		m.acts.Select(i)
	}
	m.lookAt(e.Position)
}

// Dragged goes on with what MouseDown began.
func (m *Mirror) Dragged(e *fyne.DragEvent) {
	if m.doing == idle {
		return
	}
	if m.doing == drawing {
		x, y := m.Fit().place(e.Position)
		m.pen.Move(x, y, m.shift)
		return
	}
	m.lookAt(e.Position)
	m.to, _ = m.Fit().source(e.Position)
	switch m.doing {
	case carrying:
		m.acts.Carry(m.carried, nearestIn(m.to.Add(m.grip), m.bounds), false)
	case pressed:
		if d := e.Position.Subtract(m.start); d.X*d.X+d.Y*d.Y >= dragDistance*dragDistance {
			m.doing = dragging
		}
	}
	m.redraw()
}

// MouseUp ends it.
func (m *Mirror) MouseUp(e *desktop.MouseEvent) { m.end() }

// DragEnd ends it too, where the button came up outside of the mirror.
func (m *Mirror) DragEnd() { m.end() }

func (m *Mirror) end() {
	was := m.doing
	m.doing = idle
	switch was {
	case drawing:
		m.pen.Up()
	case pressed:
		m.acts.Click(m.from, m.shift)
	case dragging:
		m.acts.Drag(between(m.from, m.to), m.shift)
	case carrying:
		if m.to != m.from {
			m.acts.Carry(m.carried, nearestIn(m.to.Add(m.grip), m.bounds), true)
		}
	}
	m.redraw()
}

// MouseIn is MouseMoved.
func (m *Mirror) MouseIn(e *desktop.MouseEvent) { m.lookAt(e.Position) }

// MouseMoved follows the pointer for the loupe.
func (m *Mirror) MouseMoved(e *desktop.MouseEvent) { m.lookAt(e.Position) }

// MouseOut ends the looking.
func (m *Mirror) MouseOut() {
	m.over = false
	if !m.keyed {
		m.acts.Look(m.at, false)
	}
}
