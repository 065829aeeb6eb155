package widgets

import "fyne.io/fyne/v2"

// KeyRow stands the keys in a column of their own.
type KeyRow struct{}

const keyColumn = 13 * Step

// Layout puts the keys left and what they do right of them.
func (KeyRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(keyColumn, size.Height))
	o[1].Move(fyne.NewPos(keyColumn, 0))
	o[1].Resize(fyne.NewSize(size.Width-keyColumn, size.Height))
}

// MinSize is as high as the words, wrapped.
func (KeyRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(keyColumn+8*Step, max(o[0].MinSize().Height, o[1].MinSize().Height)-Step)
}
