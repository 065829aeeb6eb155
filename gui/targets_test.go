package gui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"app.tonedesk/analysis/lawtest"
	"app.tonedesk/gui/widgets"
)

// leastTarget is the least side of what a pen taps, in Fyne units (our choice: what a hand that doesn't
// look hits; WCAG 2.2, success criterion 2.5.8, asks for 24).
const leastTarget = 32

// smallTargets are those that are smaller, knowingly, by the names of their widgets or by their size.
var smallTargets = []struct {
	widget string
	size   fyne.Size // a swatch's; zero for any
	why    string
}{
	{"HueStrip", fyne.Size{}, "cells of every hue, 14 wide: a drag along the strip picks too, and a press shows the cell enlarged"},
	{"SwatchRow", fyne.NewSize(19, 40), "the palette: as many colours as a picture has stand in one row"},
	{"SwatchRow", fyne.NewSize(0, 14), "the row straight toward black: the same steps as in the ramp over it"},
	{"scrollBarArea", fyne.Size{}, "the toolkit's bar at a page's edge: wheel, keys and a drag of the page scroll too"},
}

// knowingly reports whether a target may be small.
func knowingly(p part, size fyne.Size) bool {
	for _, small := range smallTargets {
		if strings.HasSuffix(fmt.Sprintf("%T", p.object), "."+small.widget) &&
			(small.size.Width == 0 || size.Width >= small.size.Width) && (small.size.Height == 0 || size.Height == small.size.Height) {
			return true
		}
	}
	return false
}

// targetsOf are the targets of a part: several where the widget has several; none for what can't be
// pressed.
func targetsOf(p part) map[string]fyne.Size {
	switch w := p.object.(type) {
	case *widgets.SwatchRow:
		sizes := map[string]fyne.Size{}
		for i := range w.Swatches() {
			_, size := w.Target(i)
			sizes[fmt.Sprint("swatch ", i)] = size
		}
		return sizes
	case *widgets.HueStrip:
		_, size := w.Box(0)
		return map[string]fyne.Size{"cell": size}
	case *widgets.Chooser:
		sizes := map[string]fyne.Size{}
		for i := range w.Count() {
			_, size := w.Target(i)
			sizes[fmt.Sprint("choice ", i)] = size
		}
		return sizes
	case fyne.Tappable, desktop.Mouseable:
		return map[string]fyne.Size{"all of it": p.object.Size()}
	}
	return nil
}

// All that can be pressed is large enough for a pen, or stands on the list.
func TestTargetsAreLargeEnough(t *testing.T) {
	lawtest.SkipRaced(t)
	for _, s := range windows() {
		for _, of := range scenes() {
			t.Run(fmt.Sprintf("%g x %g, text %d %%, %s", s.Width, s.Height, s.TextPercent, of.name), func(t *testing.T) {
				d := inScene(t, s, of)
				seen := 0
				for _, p := range d.drawnParts() {
					for which, size := range targetsOf(p) {
						seen++
						if !size.IsZero() && !knowingly(p, size) && min(size.Width, size.Height) < leastTarget-0.01 {
							t.Errorf("%s: %s is %g × %g", p.named(), which, size.Width, size.Height)
						}
					}
				}
				if seen < 5 {
					t.Errorf("only %d targets are seen", seen)
				}
			})
		}
	}
}
