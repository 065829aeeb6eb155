package main

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"os"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// laidOnPot reports whether the spots lie in light and shadow of the pot, and an area is left out.
func laidOnPot(l desktest.Shown) bool {
	return len(l.Spots) == 2 && l.Spots[0].Colour == "#e2ab85" && l.Spots[1].Colour == "#b26a5c" && l.Counted < 480*320 && l.Counted > 0
}

// bare reports whether nothing lies on what is watched.
func bare(l desktest.Shown) bool {
	return len(l.Spots) == 0 && l.Counted > 0 && l.Counted == l.Bounds.Dx()*l.Bounds.Dy()
}

// Spots, a left-out area and a local colour that was kept come back with their region, after the
// program was ended and after another region; cleared from the menu they are gone, also at the next
// start, and undo puts them back.
func TestWindowRemembers(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 900, WindowManager: true})
	painter := server.Painter()
	id := painter.Picture(image.Pt(desktest.CornerX, desktest.CornerY), pot(desktest.ShadowSkin), "A painting")
	painter.Move(id, image.Pt(desktest.CornerX, desktest.CornerY))
	home := t.TempDir()
	h := &hands{Window: desktest.OpenIn(t, server, home, `{"version": 1, "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 800}}`, nil)}
	h.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	h.two()
	h.Key("o")
	h.drag(desktest.Corner(image.Pt(5, 5)), desktest.Corner(image.Pt(60, 100)))
	h.WaitFor("an area left out", laidOnPot)
	h.OpenPage(structureTab, tabCount)
	l := h.WaitFor("a local colour", func(l desktest.Shown) bool {
		return l.Page == "Structure" && len(l.Families) == 1 && l.Families[0].Box[1] > 100
	})
	box, clicked := l.Families[0].Box, time.Time{}
	h.Do("mousemove", "--window", h.ID, fmt.Sprint(int(box[0]+box[2]-48)), fmt.Sprint(int(box[1]+30)))
	server.WaitFor("it kept", func() bool { // by the button left of the cross, once that has stood there for a while
		data, _ := os.ReadFile(h.SettingsPath())
		if strings.Contains(string(data), `"kept": true`) {
			return true
		}
		if time.Since(clicked) > 6*time.Second { // a second click takes it back: the first is in the file by then
			clicked = time.Now()
			h.ClickIn(box[0]+box[2]-48, box[1]+30)
		}
		return false
	})
	h.Quit()

	h.Window = desktest.OpenIn(t, server, home, "", nil)
	h.WaitFor("all of it at the next start", laidOnPot)
	h.WaitFor("the local colour", func(l desktest.Shown) bool { return len(l.Families) == 1 })

	h.Key("r")
	server.WaitFor("the desktop's picture", func() bool {
		out, _ := h.Tool("xdotool", "getactivewindow", "getwindowgeometry")
		return strings.Contains(out, "1024x900")
	})
	h.Do("mousemove", "100", "500", "mousedown", "1", "mousemove", "150", "550", "mousemove", "300", "700", "mouseup", "1")
	h.Key("Return")
	server.WaitFor("the window again", func() bool {
		out, _ := h.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
		return strings.TrimSpace(out) == h.ID
	})
	h.Do("windowactivate", "--sync", h.ID)
	h.WaitFor("another region, with nothing on it", func(l desktest.Shown) bool { return bare(l) && l.Bounds.Min.Y >= 490 })
	h.Press("Source")
	h.Choose(wording.SayRegion(480, 320))
	h.WaitFor("the first one with all of it", laidOnPot)

	h.Press("Menu")
	h.Choose("Forget all on this picture")
	h.WaitFor("nothing on it", func(l desktest.Shown) bool { return bare(l) && strings.Contains(l.Message, "forgotten") })
	h.Key("ctrl+z")
	h.WaitFor("all of it, undone", laidOnPot)
	flat := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	draw.Draw(flat, flat.Rect, image.NewUniform(color.NRGBA{0xc9, 0x8a, 0x70, 255}), image.Point{}, draw.Src)
	painter.Repaint(id, flat) // in which nothing is found: what is kept is read where it was
	h.WaitFor("the local colour that was kept", func(l desktest.Shown) bool {
		return len(l.Families) == 1 && l.Families[0].Light == "#c98a70" && l.Families[0].Shadow == "#c98a70"
	})
	h.Key("ctrl+y")
	h.WaitFor("nothing again", bare)
	h.Quit()

	h.Window = desktest.OpenIn(t, server, home, "", nil)
	h.WaitFor("nothing at the next start", func(l desktest.Shown) bool { return bare(l) && l.Bounds.Dx() == 480 })
	h.Quit()
}
