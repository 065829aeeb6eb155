package widgets

import "fyne.io/fyne/v2"

// Below is where a menu of a button opens.
func Below(b *Button) fyne.Position {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(b)
	return at.AddXY(0, b.Size().Height)
}
