package native

import (
	"fmt"
	"image"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// Whatever happens to our own window, and to the screen, is news once; nothing is none. With a window
// manager and without one.
func TestNews(t *testing.T) {
	for _, managed := range []bool{true, false} {
		t.Run(fmt.Sprint("managed ", managed), func(t *testing.T) {
			server, painter := onScreen(t, xvfbtest.Options{Width: 800, Height: 600, WindowManager: managed})
			ours := painter.Window(image.Rect(100, 100, 300, 300), red)
			other := painter.Window(image.Rect(400, 100, 500, 300), blue)
			var n News
			defer n.End()
			if !n.Any(uintptr(ours)) {
				t.Error("at first there is no news")
			}
			server.WaitFor("nothing more", func() bool { return !n.Any(uintptr(ours)) }) // of its beginnings
			deeds := map[string]func(){
				"moved":   func() { painter.Move(ours, image.Pt(120, 140)) },
				"resized": func() { painter.Resize(ours, image.Pt(180, 160)) },
				"hidden":  func() { painter.Hide(ours) },
				"renamed": func() { painter.Rename(ours, "Heron", "Painter") },
			}
			if managed {
				deeds["minimised"] = func() { painter.Iconify(ours) }
			}
			for what, do := range deeds {
				do()
				server.WaitFor("that it was "+what, func() bool { return n.Any(uintptr(ours)) })
				painter.Show(ours)
				server.WaitFor("the window", func() bool {
					hidden, err := Hidden(uintptr(ours))
					return err == nil && !hidden
				})
				server.WaitFor("nothing more", func() bool { return !n.Any(uintptr(ours)) })
			}
			painter.Paint(other, image.Rect(0, 0, 50, 50), red)
			painter.Move(other, image.Pt(420, 140))
			if _, err := Hidden(uintptr(ours)); err != nil || n.Any(uintptr(ours)) { // its answer came after what was told
				t.Error("what another window does is news")
			}
			n.End()
			if !n.Any(uintptr(ours)) {
				t.Error("begun anew there is no news")
			}
		})
	}
}
