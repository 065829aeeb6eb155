package widgets

import (
	"image"

	"fyne.io/fyne/v2"
)

// arrows are the steps of the arrow keys, as the painter sees them.
var arrows = map[fyne.KeyName]image.Point{
	fyne.KeyLeft:  {X: -1},
	fyne.KeyRight: {X: 1},
	fyne.KeyUp:    {Y: -1},
	fyne.KeyDown:  {Y: 1},
}

// farStep is how many pixels an arrow key goes with Shift held.
const farStep = 10

// TypedKey moves the selected spot or the key cursor; Space or Enter is a click there.
func (m *Mirror) TypedKey(e *fyne.KeyEvent) {
	if step, ok := arrows[e.Name]; ok {
		if m.shift {
			step = step.Mul(farStep)
		}
		if m.flipped {
			step.X = -step.X
		}
		m.nudge(step)
		return
	}
	if !m.keys.TypedKey(e.Name) && presses(e) {
		m.press()
	}
}

// nudge moves the selected mark, or else the key cursor.
func (m *Mirror) nudge(step image.Point) {
	if m.bounds.Empty() {
		return
	}
	if m.pen != nil && !m.keyed && m.pen.Nudge(step) {
		return
	}
	for i, k := range m.marks {
		if k.Selected && !k.Fixed && !m.keyed && m.ask == "" {
			centre := k.centre()
			m.acts.Carry(i, nearestIn(centre.Add(step), m.bounds), false)
			return
		}
	}
	m.step(step)
}

// step moves the key cursor, which begins in the middle, or at the pointer.
func (m *Mirror) step(by image.Point) {
	bounds := m.Fit().Bounds
	if !m.keyed {
		m.key = bounds.Min.Add(bounds.Size().Div(2))
		if m.over {
			m.key = m.at
		}
		m.keyed = true
	} else {
		m.key = nearestIn(m.key.Add(by), bounds)
	}
	m.acts.Look(m.key, true)
	m.redraw()
}

// press is a click at the key cursor, or the end of an area begun with the keys.
func (m *Mirror) press() {
	if !m.keyed {
		m.step(image.Point{})
		return
	}
	if pen := m.pen; pen != nil {
		m.pressPen(pen)
		return
	}
	if m.anchor {
		m.anchor = false
		m.acts.Drag(between(m.from, m.key), m.shift)
		m.redraw()
		return
	}
	m.acts.Click(m.key, m.shift)
}

// pressPen draws from one press of the key to the next.
func (m *Mirror) pressPen(pen MirrorPen) {
	x, y := float64(m.key.X)+0.5, float64(m.key.Y)+0.5
	if m.anchor {
		pen.Move(x, y, m.shift)
		pen.Up()
	} else {
		pen.Down(x, y, m.shift)
	}
	m.anchor = !m.anchor
	m.redraw()
}

// EndKeys puts the key cursor away; it reports whether it was there.
func (m *Mirror) EndKeys() bool {
	was := m.keyed
	m.keyed, m.anchor = false, false
	if was {
		m.acts.Look(m.at, m.over)
	}
	m.redraw()
	return was
}

// BeginAreaAt begins an area at a pixel; the next click or Space ends it.
func (m *Mirror) BeginAreaAt(at image.Point) {
	m.key, m.keyed = at, true
	m.from, m.anchor = at, true
	m.redraw()
}
