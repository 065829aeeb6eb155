package gui

import (
	"fyne.io/fyne/v2"

	"app.tonedesk/gui/widgets"
)

// Reveal scrolls the page so that a part that was given the focus by the keyboard is seen:
// the toolkit gives none of our parts the focus by a click.
func (d *Desk) Reveal(part fyne.CanvasObject) {
	if d.Window.Canvas().Overlays().Top() != nil {
		return // it lies in a dialog
	}
	lower := d.parts.lower
	driver := d.App.Driver()
	top := driver.AbsolutePositionForObject(part).Y - driver.AbsolutePositionForObject(lower).Y
	by := widgets.ScrollToShow(top, part.Size().Height, lower.Size().Height)
	if by != 0 {
		lower.ScrollToOffset(lower.Offset.AddXY(0, by))
	}
}

// pageTurn is how much of what is seen a key scrolls by.
const pageTurn = 0.8

// scrollPage scrolls the page by a part of what is seen of it.
func (d *Desk) scrollPage(by float32) {
	lower := d.parts.lower
	lower.ScrollToOffset(lower.Offset.AddXY(0, by*lower.Size().Height))
}

// alwaysSeen are the window's keys for parts that are no part of the page: they are always
// seen.
type alwaysSeen struct{ widgets.Keys }

// Reveal has nothing to do.
func (alwaysSeen) Reveal(fyne.CanvasObject) {}
