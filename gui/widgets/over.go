package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Over lays a part over others that are laid out elsewhere in the window's content: over the last, and
// those that stand in its column above it. Its owner refreshes it when they may lie elsewhere.
func Over(part fyne.CanvasObject, others ...fyne.CanvasObject) *fyne.Container {
	return container.New(over(others), part)
}

type over []fyne.CanvasObject

// Layout gives the part the height of all in the column, and the width of the narrowest.
func (o over) Layout(parts []fyne.CanvasObject, _ fyne.Size) {
	last := o[len(o)-1]
	from, width := last.Position(), last.Size().Width
	foot := from.Y + last.Size().Height
	for _, other := range o {
		if other.Position().X == from.X {
			from.Y, width = min(from.Y, other.Position().Y), min(width, other.Size().Width)
		}
	}
	for _, p := range parts {
		put(p, from, fyne.NewSize(width, foot-from.Y))
	}
}

// MinSize asks for nothing.
func (o over) MinSize([]fyne.CanvasObject) (none fyne.Size) { return none }
