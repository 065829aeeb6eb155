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
		m.hand.press()
	}
}

// nudge moves the selected mark, or else the key cursor.
func (m *Mirror) nudge(step image.Point) {
	if m.bounds.Empty() {
		return
	}
	if m.pen != nil && !m.hand.keyed && m.pen.Nudge(step) {
		return
	}
	for i, k := range m.marks {
		if k.Selected && !m.hand.keyed && m.ask == "" {
			centre := k.centre()
			m.acts.Carry(i, nearestIn(centre.Add(step), m.bounds), false)
			return
		}
	}
	m.hand.step(step)
}

// step moves the key cursor, which begins in the middle, or at the pointer.
func (h *pointer) step(by image.Point) {
	bounds := h.owner.Fit().Bounds
	if !h.keyed {
		h.key = bounds.Min.Add(bounds.Size().Div(2))
		if h.over {
			h.key = h.at
		}
		h.keyed = true
	} else {
		h.key = nearestIn(h.key.Add(by), bounds)
	}
	h.owner.acts.Look(h.key, true)
	h.owner.redraw()
}

// press is a click at the key cursor, or the end of an area begun with the keys.
func (h *pointer) press() {
	if !h.keyed {
		h.step(image.Point{})
		return
	}
	if pen := h.owner.pen; pen != nil {
		h.pressPen(pen)
		return
	}
	if h.anchor {
		h.anchor = false
		h.owner.acts.Drag(between(h.from, h.key), h.owner.shift)
		h.owner.redraw()
		return
	}
	h.owner.acts.Click(h.key, h.owner.shift)
}

// pressPen draws from one press of the key to the next.
func (h *pointer) pressPen(pen MirrorPen) {
	x, y := float64(h.key.X)+0.5, float64(h.key.Y)+0.5
	if h.anchor {
		pen.Move(x, y, h.owner.shift)
		pen.Up()
	} else {
		pen.Down(x, y, h.owner.shift)
	}
	h.anchor = !h.anchor
	h.owner.redraw()
}

// BeginArea begins an area at the key cursor: the next Space ends it.
func (m *Mirror) BeginArea() {
	if !m.hand.keyed {
		m.hand.step(image.Point{})
	}
	m.hand.from, m.hand.anchor = m.hand.key, true
	m.redraw()
}

// EndKeys puts the key cursor away; it reports whether it was there.
func (m *Mirror) EndKeys() bool {
	was := m.hand.keyed
	m.hand.keyed, m.hand.anchor = false, false
	if was {
		m.acts.Look(m.hand.at, m.hand.over)
	}
	m.redraw()
	return was
}

// BeginAreaAt begins an area at a pixel; the next click or Space ends it.
func (m *Mirror) BeginAreaAt(at image.Point) {
	m.hand.key, m.hand.keyed = at, true
	m.BeginArea()
}
