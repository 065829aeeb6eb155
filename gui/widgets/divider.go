package widgets

import "fyne.io/fyne/v2"

// The grip of the line that divides the mirror's picture: drawn GripWide x GripHigh, GripAt of the
// picture's height from its top, and taken hold of within a square of gripTarget (WCAG 2.2, 2.5.5).
const (
	GripWide, GripHigh = 28, 32
	GripAt             = 0.72
	gripTarget         = 44
)

// divider is the line that divides the picture, moved by its grip alone.
type divider struct {
	on     bool
	share  float32 // of the picture's width, from the left of what is seen
	grab   float32 // from the pointer to the line, while it is dragged
	divide func(share float32)
}

// SetDivider lets the painter drag a line at a share of the picture's width by its grip; the line
// is drawn by whoever has the picture divided. nil takes it away.
func (m *Mirror) SetDivider(share float32, divide func(share float32)) {
	m.divider.on, m.divider.share, m.divider.divide = divide != nil, share, divide
	if !m.divider.on && m.doing == dividing {
		m.doing = idle
	}
}

// onGrip reports whether a point of the mirror is on the grip, or close enough for a pen.
func (m *Mirror) onGrip(pos fyne.Position) bool {
	f := m.Fit()
	if !m.divider.on || f.Bounds.Empty() {
		return false
	}
	const half = gripTarget / 2
	x, y := f.Pos.X+m.divider.share*f.Size.Width, f.Pos.Y+GripAt*f.Size.Height
	return pos.X >= x-half && pos.X <= x+half && pos.Y >= y-half && pos.Y <= y+half
}

// takeGrip begins to drag the line.
func (m *Mirror) takeGrip(pos fyne.Position) {
	f := m.Fit()
	m.doing, m.divider.grab = dividing, f.Pos.X+m.divider.share*f.Size.Width-pos.X
}

// dragGrip moves the line with the pointer.
func (m *Mirror) dragGrip(pos fyne.Position) {
	if f := m.Fit(); f.Size.Width > 0 {
		m.divider.divide(max(0, min((pos.X+m.divider.grab-f.Pos.X)/f.Size.Width, 1)))
	}
}
