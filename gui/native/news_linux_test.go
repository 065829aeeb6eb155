package native

import (
	"fmt"
	"image"
	"sync/atomic"
	"testing"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"

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
				server.WaitFor("the window", func() bool {
					painter.Show(ours) // in vain as long as its manager is still taking it down
					hidden, err := Hidden(uintptr(ours))
					return err == nil && !hidden
				})
				server.WaitFor("nothing more", func() bool { return !n.Any(uintptr(ours)) })
			}
			var at atomic.Int32 // where the connection that brings news has told that the other window is
			if err := chooseNews(n.conn, xproto.Window(other)); err != nil {
				t.Fatal(err)
			}
			defer n.conn.Subscribe(func(event xgb.Event) {
				if e, ok := event.(xproto.ConfigureNotifyEvent); ok && e.Window == xproto.Window(other) {
					at.Store(int32(e.X))
				}
			})()
			painter.Paint(other, image.Rect(0, 0, 50, 50), red)
			to := int32(400)
			server.WaitFor("a move of another window that is no news", func() bool { // a manager may still tell of ours meanwhile
				n.Any(uintptr(ours))
				to++
				painter.Move(other, image.Pt(int(to), 120))
				server.WaitFor("the other window to be moved", func() bool { return at.Load() == to })
				return !n.Any(uintptr(ours))
			})
			n.End()
			if !n.Any(uintptr(ours)) {
				t.Error("begun anew there is no news")
			}
		})
	}
}
