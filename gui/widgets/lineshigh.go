package widgets

import "fyne.io/fyne/v2"

// LinesHigh gives a text the height of at least so many lines, while it is shown.
type LinesHigh int

// Layout gives it all there is.
func (LinesHigh) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// MinSize is the text's, or that of the lines.
func (n LinesHigh) MinSize(o []fyne.CanvasObject) (size fyne.Size) {
	if !o[0].Visible() {
		return size
	}
	size = o[0].MinSize()
	line := fyne.MeasureText("M", SmallSize, fyne.TextStyle{}).Height
	return fyne.NewSize(size.Width, max(size.Height, float32(n)*line+2*Step))
}
