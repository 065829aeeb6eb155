package main

import (
	"fmt"
	"image"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// At every scale the window starts with all of its inside on the screen, whatever place and size it had
// last: none, beyond any edge, larger than the screen, on a screen that is gone, or in another scale.
func TestWindowStartsInside(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1280, Height: 800, WindowManager: true})
	screen := image.Rect(0, 0, 1280, 800)
	for _, last := range []string{
		``,
		`, "place": {"x": 5000, "y": 3000, "width": 380, "height": 760}, "width": 380, "height": 760`,
		`, "place": {"x": -900, "y": -700, "width": 380, "height": 760}, "width": 380, "height": 760`,
		`, "place": {"x": 1000, "y": 600, "width": 1140, "height": 2280}, "width": 380, "height": 760`,
		`, "place": {"x": 0, "y": 0, "width": 3000, "height": 2000}, "width": 3000, "height": 2000`,
	} {
		for scale, unit := range map[string]int{"1": 1, "1.5": 2, "2": 2, "3": 3} { // and a unit's pixels, whole ones
			w := desktest.OpenOn(t, server, `{"version": 1`+last+`}`, []string{"FYNE_SCALE=" + scale})
			w.WaitFor("the first start", func(l desktest.Shown) bool { return len(l.Menu) > 0 && l.Tabs[2] > 0 })
			var at image.Rectangle
			server.WaitFor(fmt.Sprintf("at scale %s after%s all of it on the screen", scale, last), func() bool {
				at = insideOf(w)
				return !at.Empty() && at.In(screen)
			})
			tabs := w.WaitFor("the tabs", func(l desktest.Shown) bool { return l.Tabs[3] > 0 }).Tabs
			// The toolkit lays a window out in whole units, rounded up.
			if foot := int(tabs[1] + tabs[3]); foot >= at.Dy()+unit {
				t.Errorf("at scale %s after%s the tabs end at %d, the window at %d", scale, last, foot, at.Dy())
			}
			w.Quit()
		}
	}
}
