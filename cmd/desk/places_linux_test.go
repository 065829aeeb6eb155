package main

import (
	"encoding/json"
	"fmt"
	"image"
	"os"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// insideOf returns where the window's inside is on the screen.
func insideOf(w *desktest.Window) image.Rectangle {
	out, _ := w.Tool("xwininfo", "-id", w.ID)
	var width, height int
	for line := range strings.Lines(out) {
		name, value, _ := strings.Cut(strings.TrimSpace(line), ":")
		if to := map[string]*int{"Width": &width, "Height": &height}[name]; to != nil {
			_, _ = fmt.Sscan(value, to)
		}
	}
	return image.Rectangle{Max: image.Pt(width, height)}.Add(w.InsideAt())
}

// keptPlace is where the settings say that the window was on an arrangement of screens.
type keptPlace struct {
	Screens []image.Point
	Inside  image.Point
}

// Each arrangement of screens has its place of the window: where it was put with two screens it is
// again once there are two again, and at the next start; with one it is where it was with one, and
// all of it is on the screen.
func TestWindowPlaceByScreens(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1600, Height: 900, WindowManager: true})
	two := func() {
		server.Run("xrandr", "--setmonitor", "left", "900/240x900/240+0+0", "screen")
		server.Run("xrandr", "--setmonitor", "right", "700/190x900/240+900+0", "none")
	}
	home := t.TempDir()
	w := desktest.OpenIn(t, server, home, `{"version": 1, "place": {"x": 300, "y": 60, "width": 400, "height": 700}, "width": 400, "height": 700}`, nil)
	at := func(name string, in image.Rectangle, like func(image.Rectangle) bool) (there image.Rectangle) {
		t.Helper()
		server.WaitFor(name, func() bool {
			there = insideOf(w)
			return there.In(in) && like(there)
		})
		return there
	}
	one, right := image.Rect(0, 0, 1600, 900), image.Rect(900, 0, 1600, 900)
	first := image.Rect(300, 60, 700, 760)
	same := func(as image.Rectangle) func(image.Rectangle) bool {
		return func(r image.Rectangle) bool { return r == as }
	}
	at("where it was with one screen", one, same(first))
	kept := func(name string, r image.Rectangle, screens int) {
		t.Helper()
		server.WaitFor(name, func() bool { // among the arrangements: one of the left screen alone may have been seen between
			data, _ := os.ReadFile(w.SettingsPath())
			var said struct{ Places []keptPlace }
			return json.Unmarshal(data, &said) == nil && slices.ContainsFunc(said.Places, func(p keptPlace) bool {
				return len(p.Screens) == screens && p.Inside == r.Min
			})
		})
	}
	kept("that kept", first, 1)

	two()
	kept("the same with two screens", first, 2)
	w.Do("windowmove", w.ID, "1100", "90")
	moved := at("it moved to the right", right, func(r image.Rectangle) bool { return r.Min.X > 1050 })
	kept("that kept", moved, 2)

	server.Run("xrandr", "--delmonitor", "right")
	server.Run("xrandr", "--delmonitor", "left")
	at("where it was with one screen, again", one, same(first))
	two()
	at("where it was with two, again", right, same(moved))
	w.Quit()

	w = desktest.OpenIn(t, server, home, "", nil)
	at("the same at the next start", right, same(moved))
	w.Quit()

	server.Run("xrandr", "--delmonitor", "right")
	server.Run("xrandr", "--delmonitor", "left")
	server.Run("xrandr", "--setmonitor", "left", "800/210x700/190+0+0", "screen")
	w = desktest.OpenIn(t, server, home, "", nil)
	at("all of it on a screen that it was never on", image.Rect(0, 0, 800, 700), func(r image.Rectangle) bool { return !r.Empty() })
	w.Quit()
}
