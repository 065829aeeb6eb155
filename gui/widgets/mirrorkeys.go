package widgets

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// FocusGained shows the outline.
func (m *Mirror) FocusGained() { m.setFocused(true) }

// FocusLost takes it away.
func (m *Mirror) FocusLost() {
	m.hand.shift = false
	m.setFocused(false)
}

func (m *Mirror) setFocused(focused bool) {
	m.focused = focused
	if m.r != nil {
		m.r.colour()
		m.r.focus.Refresh()
		m.r.placeBand()
	}
}

// KeyDown and KeyUp watch the shift key, which Fyne leaves out of typed keys.
func (m *Mirror) KeyDown(e *fyne.KeyEvent) { m.watchShift(e, true) }

// KeyUp watches the shift key.
func (m *Mirror) KeyUp(e *fyne.KeyEvent) { m.watchShift(e, false) }

func (m *Mirror) watchShift(e *fyne.KeyEvent, down bool) {
	if e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight {
		m.hand.shift = down
	}
}

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
		if m.hand.shift {
			step = step.Mul(farStep)
		}
		if m.Flip {
			step.X = -step.X
		}
		m.nudge(step)
		return
	}
	if m.Acts.Key(e.Name, m.hand.shift) {
		return
	}
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		m.hand.press()
	}
}

// TypedRune goes to the owner's keys.
func (m *Mirror) TypedRune(r rune) { m.Acts.Rune(r) }

// TypedShortcut goes to the owner's keys.
func (m *Mirror) TypedShortcut(s fyne.Shortcut) { m.Acts.Short(s) }

// nudge moves the selected mark, or else the key cursor.
func (m *Mirror) nudge(step image.Point) {
	if m.Bounds.Empty() {
		return
	}
	if m.Pen != nil && !m.hand.keyed && m.Pen.Nudge(step) {
		return
	}
	for i, k := range m.Marks {
		if k.Selected && !m.hand.keyed && m.asks() == "" {
			centre := k.centre()
			m.Acts.Carry(i, nearestIn(centre.Add(step), m.Bounds), false)
			return
		}
	}
	m.hand.step(step)
}

// Step moves the key cursor, which begins in the middle, or at the pointer.
func (h *pointer) step(by image.Point) {
	bounds := h.owner.Fit.Bounds
	if !h.keyed {
		h.key = bounds.Min.Add(bounds.Size().Div(2))
		if h.over {
			h.key = h.at
		}
		h.keyed = true
	} else {
		h.key = nearestIn(h.key.Add(by), bounds)
	}
	h.owner.Acts.Look(h.key, true)
	h.redraw()
}

// press is a click at the key cursor, or the end of an area begun with the keys.
func (h *pointer) press() {
	if !h.keyed {
		h.step(image.Point{})
		return
	}
	if pen := h.owner.Pen; pen != nil {
		h.pressPen(pen)
		return
	}
	if h.anchor {
		h.anchor = false
		h.owner.Acts.Drag(between(h.from, h.key), h.shift)
		h.redraw()
		return
	}
	h.owner.Acts.Click(h.key, h.shift)
}

// pressPen draws from one press of the key to the next.
func (h *pointer) pressPen(pen MirrorPen) {
	x, y := float64(h.key.X)+0.5, float64(h.key.Y)+0.5
	if h.anchor {
		pen.Move(x, y, h.shift)
		pen.Up()
	} else {
		pen.Down(x, y, h.shift)
	}
	h.anchor = !h.anchor
	h.redraw()
}

// BeginArea begins an area at the key cursor: the next Space ends it.
func (m *Mirror) BeginArea() {
	if !m.hand.keyed {
		m.hand.step(image.Point{})
	}
	m.hand.from, m.hand.anchor = m.hand.key, true
	m.hand.redraw()
}

// EndKeys puts the key cursor away; it reports whether it was there.
func (m *Mirror) EndKeys() bool {
	was := m.hand.keyed
	m.hand.keyed, m.hand.anchor = false, false
	if was {
		m.Acts.Look(m.hand.at, m.hand.over)
	}
	m.hand.redraw()
	return was
}

// BeginAreaAt begins an area at a pixel; the next click or Space ends it.
func (m *Mirror) BeginAreaAt(at image.Point) {
	m.hand.key, m.hand.keyed = at, true
	m.BeginArea()
}
