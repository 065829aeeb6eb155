package main

import (
	"image"
	"testing"

	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// The menus by a real pointer and real keys, with as many taps as were promised: another view two
// taps or one key, a region two taps and a drag, settings closed by Esc; and what was watched is
// remembered.
func TestWindowMenus(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	w.WaitFor("the region", func(l desktest.Shown) bool { return !l.Bounds.Empty() })
	w.Press("View")
	w.Choose("Two-tone")
	w.WaitFor("another view", func(l desktest.Shown) bool { return l.View == "two-tone" && l.Menu == nil })
	w.Key("2")
	w.WaitFor("greys by a key", func(l desktest.Shown) bool { return l.View == "grey" })
	w.Press("Menu")
	w.Choose("Settings")
	w.WaitFor("the settings", func(l desktest.Shown) bool { _, open := desktest.Named(l.Bar, "Done"); return open })
	w.Key("Escape")
	w.WaitFor("the page", func(l desktest.Shown) bool { _, open := desktest.Named(l.Bar, "Done"); return !open })
	w.Click(desktest.Corner(desktest.LeftPatch))
	w.WaitFor("spot A", func(l desktest.Shown) bool { return len(l.Spots) == 1 })
	w.Key("shift+Delete")
	w.WaitFor("no spots", func(l desktest.Shown) bool { return len(l.Spots) == 0 })
	w.Key("ctrl+z")
	w.WaitFor("the spot again", func(l desktest.Shown) bool { return len(l.Spots) == 1 })
	w.Press("Source")
	w.Choose("The demo painting")
	w.WaitFor("the demo painting", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 1200, 900) })
	w.Press("Source")
	w.WaitFor("the menu", func(l desktest.Shown) bool {
		demo, open := desktest.Named(l.Menu, "The demo painting")
		return open && demo.On
	})
	w.Choose(wording.SayRegion(480, 320))
	w.WaitFor("the region again", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	w.Quit()
}
