package main

import (
	"fmt"
	"image"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// Two fingers on a touchpad enlarge the picture under the pointer, and bring it back.
func TestWindowPinch(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Touchpad: true, WindowManager: true})
	w := openOn(t, server, `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`, nil)
	l := w.waitFor("the demo", func(l shownLine) bool { return l.Event == "shown" && !l.Part.Empty() })
	whole := l.Part
	w.do("mousemove", "--window", w.id, fmt.Sprint(int(l.Mirror[0]+l.Mirror[2]/2)), fmt.Sprint(int(l.Mirror[1]+l.Mirror[3]/2)))
	pad := server.Touchpad()
	var part image.Rectangle
	server.WaitFor("the picture to be enlarged", func() bool { // the window may not listen yet
		pad.Pinch(0, 0, 1.2, 1.5, 2)
		lines := w.lines()
		part = lines[len(lines)-1].Part
		return part.Dx() < whole.Dx()
	})
	if !part.In(whole) {
		t.Errorf("shown is %v of %v", part, whole)
	}
	pad.Pinch(0, 0, 0.5, 0.1, 0.01)
	w.waitFor("all of the picture", func(l shownLine) bool { return l.Part == whole })
	w.quit()
}
