package widgets

import (
	"image"
	"math"
	"slices"
	"time"

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
	alt     bool          // Alt was held when the button went down
	unhold  func()        // stops the timer of a long press; nil: none runs
}

type doing uint8

const (
	idle     doing = iota
	pressed        // the button is down and hasn't moved enough for a drag
	gripped        // the same, on a mark
	dragging       // an area
	panning        // the picture, which is enlarged
	carrying       // a mark
	drawing        // with the pen
	dividing       // the line that divides the picture, by its grip
)

// dragDistance is how far the pointer may go and a press stay one, in Fyne units: a pen slips a little
// as it taps (our choice).
const dragDistance = 8

// longPress is how long a pen is held to add a spot, as a click with Shift does (our choice: long
// enough not to come by chance, short enough to be found).
const longPress = 500 * time.Millisecond

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

// Under returns the place of the source that the pointer lies over, if it does.
func (m *Mirror) Under() (at image.Point, over bool) { return m.at, m.over }

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
		if k.Fixed {
			continue
		}
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
	m.shift, m.alt = e.Modifier&fyne.KeyModifierShift != 0, e.Modifier&fyne.KeyModifierAlt != 0
	m.start, m.from, m.to = e.Position, at, at
	if m.onGrip(e.Position) {
		m.takeGrip(e.Position)
		return
	}
	m.doing, m.keyed, m.anchor = pressed, false, false
	if m.pen != nil {
		m.doing = drawing
		x, y := m.Fit().place(e.Position)
		m.pen.Down(x, y, m.shift)
		return
	}
	if i, ok := m.markAt(e.Position); ok && !m.shift && m.ask == "" {
		k := m.marks[i]
		m.doing, m.carried, m.grip = gripped, i, k.centre().Sub(at)
		m.acts.Select(i)
	}
	m.lookAt(e.Position)
	m.awaitLongPress()
}

// awaitLongPress adds a spot if the button stays down where it is.
func (m *Mirror) awaitLongPress() {
	m.endLongPress()
	if m.doing != pressed || m.ask != "" || m.acts.Later == nil {
		return
	}
	m.unhold = m.acts.Later(longPress, func() {
		if m.unhold != nil && m.doing == pressed {
			m.doing = idle
			m.acts.Click(m.from, true)
		}
		m.unhold = nil
	})
}

func (m *Mirror) endLongPress() {
	if m.unhold != nil {
		m.unhold()
		m.unhold = nil
	}
}

// enlarged reports whether only a part of the picture is shown.
func (m *Mirror) enlarged() bool { return m.part != m.bounds && !m.part.Empty() }

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
	if m.doing == dividing {
		m.dragGrip(e.Position)
		return
	}
	m.lookAt(e.Position)
	m.to, _ = m.Fit().source(e.Position)
	if d := e.Position.Subtract(m.start); d.X*d.X+d.Y*d.Y > dragDistance*dragDistance {
		m.doing = m.dragOf(m.doing)
	}
	switch m.doing {
	case carrying:
		m.acts.Carry(m.carried, nearestIn(m.to.Add(m.grip), m.bounds), false)
	case panning:
		x, y := m.Fit().place(e.Position)
		m.PanBy(m.from.Sub(image.Pt(int(math.Floor(x)), int(math.Floor(y)))))
	}
	m.redraw()
}

// dragOf is what becomes of a press that has moved far enough: while the picture is enlarged it is
// dragged, unless an area is asked for or Alt was held; while a line divides it nothing, since who
// misses the line's grip wants no spot.
func (m *Mirror) dragOf(was doing) doing {
	switch {
	case was == gripped:
		return carrying
	case was == pressed && m.enlarged() && m.ask == "" && !m.alt:
		return panning
	case was == pressed && m.divider.on && m.ask == "" && !m.alt:
		return idle
	case was == pressed:
		return dragging
	}
	return was
}

// MouseUp ends it.
func (m *Mirror) MouseUp(e *desktop.MouseEvent) { m.end() }

// DragEnd ends it too, where the button came up outside of the mirror.
func (m *Mirror) DragEnd() { m.end() }

func (m *Mirror) end() {
	m.endLongPress()
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
