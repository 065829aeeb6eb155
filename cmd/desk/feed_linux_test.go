package main

import (
	"image"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// Where our own window lies on the region that is watched, its repaint never feeds itself: once it
// shows an unchanged picture, it goes on to rest.
func TestOwnRepaintNeverFeedsItself(t *testing.T) {
	for _, rate := range []string{"0", "30"} {
		server := xvfbtest.Start(t, xvfbtest.Options{Width: 1280, Height: 900, WindowManager: true})
		painter := server.Painter()
		painter.Window(image.Rect(0, 0, 1280, 900), 0x808080)
		w := desktest.OpenOn(t, server, `{"version": 1, "page": "Watch", "per_second": `+rate+`, "region": {"x": 0, "y": 0, "width": 1280, "height": 900}, "place": {"x": 300, "y": 60, "width": 380, "height": 760}}`, nil)
		w.WaitFor("the region", func(l desktest.Shown) bool { return l.Event == "shown" && l.Bounds.Dx() == 1280 })
		w.Do("mousemove", "1200", "850")
		w.WaitFor("rest", func(l desktest.Shown) bool { return l.State == "unchanged" })
		count := func() (n int) {
			for _, l := range w.Lines() {
				if l.Event == "shown" {
					n++
				}
			}
			return n
		}
		before := count()
		const watched = 5 * time.Second
		time.Sleep(watched) // nothing is waited for: it is watched that nothing happens
		// The second's read of a source that is quiet, and the settling of figures, may show a few.
		if n := count() - before; n > 10 {
			t.Errorf("rate %s: shown %d times in %v in which nothing was painted", rate, n, watched)
		}
		w.Quit()
	}
}
