package widgets

import "fyne.io/fyne/v2"

// FocusGained has nothing to show: what is at hand is raised.
func (m *Menu) FocusGained() {}

// FocusLost has nothing to hide.
func (m *Menu) FocusLost() {}

// TypedRune closes the menu, and is the window's key then.
func (m *Menu) TypedRune(r rune) {
	if r != ' ' {
		m.Hide()
		m.keys.TypedRune(r)
	}
}

// TypedShortcut closes the menu, and is the window's key then.
func (m *Menu) TypedShortcut(s fyne.Shortcut) {
	m.Hide()
	m.keys.TypedShortcut(s)
}

// TypedKey goes through the menu with the arrows, chooses with Enter, and closes it with Esc.
func (m *Menu) TypedKey(e *fyne.KeyEvent) {
	switch {
	case e.Name == fyne.KeyEscape:
		m.Hide()
	case presses(e):
		m.choose(m.pointed)
	case arrows[e.Name].X != 0 || arrows[e.Name].Y != 0:
		m.step(float32(arrows[e.Name].X), float32(arrows[e.Name].Y))
	default:
		m.keys.TypedKey(e.Name)
	}
}

// step goes to the nearest in a direction; from none to the one that is on, or else the first.
func (m *Menu) step(dx, dy float32) {
	if m.pointed < 0 {
		m.reach(m.first())
		return
	}
	from := m.cells[m.pointed].Position()
	best, at := float32(0), -1
	for i, c := range m.cells {
		to := c.Position().Subtract(from) // of left tops: a row of one is above the first of two
		ahead, aside := to.X*dx+to.Y*dy, max(to.X*dy, -to.X*dy)+max(to.Y*dx, -to.Y*dx)
		if ahead <= 0 || dx != 0 && aside > 0 { // sideways only within the row
			continue
		}
		if far := 8*ahead + aside; at < 0 || far < best { // rows before columns
			best, at = far, i
		}
	}
	if at >= 0 {
		m.reach(at)
	}
}

// first is the one that is on, or else the first of all.
func (m *Menu) first() int {
	for i, c := range m.cells {
		if c.item().On {
			return i
		}
	}
	return 0
}

// reach raises what is at hand, and scrolls so that it is seen.
func (m *Menu) reach(i int) {
	if i >= len(m.cells) {
		return
	}
	m.point(i)
	c := m.cells[i]
	if by := ScrollToShow(c.Position().Y-m.scroll.Offset.Y, c.Size().Height, m.scroll.Size().Height); by != 0 {
		m.scroll.ScrollToOffset(m.scroll.Offset.AddXY(0, by))
	}
}
