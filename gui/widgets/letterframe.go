package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// frameAround is the room between a letter and the frame that says that its spot is fixed.
const frameAround = 2.5

func newLetterFrame() *canvas.Rectangle {
	box := canvas.NewRectangle(color.Transparent)
	box.StrokeWidth, box.CornerRadius = 1, 2
	return box
}

// showLetterFrame shows the frame, or hides it.
func showLetterFrame(box *canvas.Rectangle, there bool, of colours) {
	show(box, there)
	if ink := of(ColorNameQuiet); box.StrokeColor != ink {
		box.StrokeColor = ink
		refresh(box)
	}
}

// placeLetterFrame puts the frame around a letter whose baseline begins at a place.
func placeLetterFrame(box *canvas.Rectangle, letter *canvas.Text, at fyne.Position) {
	high := 2 * halfCapital * letter.TextSize / TextSize() * textScale()
	put(box, at.SubtractXY(frameAround, high+frameAround), fyne.NewSize(letter.MinSize().Width+2*frameAround, high+2*frameAround))
}

// wordIf is a word, or none.
func wordIf(there bool, word string) string {
	if there {
		return word
	}
	return ""
}
