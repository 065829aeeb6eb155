package gui

import "fyne.io/fyne/v2"

// below is where a menu of a button opens.
func below(b *button) fyne.Position {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b)
	return at.AddXY(0, b.Size().Height)
}
