package main

import (
	"image"
	"image/color"
	"image/draw"
	"os"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// patchesAs shows the picture of patches in a window of a title and class.
func patchesAs(server *xvfbtest.Server, painter *xvfbtest.Painter, title string) uint32 {
	img := image.NewRGBA(image.Rect(0, 0, 480, 320))
	draw.Draw(img, img.Rect, desktest.Patches(desktest.LightSkin, desktest.ShadowSkin), image.Point{}, draw.Src)
	return painter.Open(xvfbtest.Order{Box: img.Rect.Add(desktest.Corner(image.Point{})), Picture: img, Title: title, Class: "Painter"})
}

// lightSpot reports whether spot A reads the left patch.
func lightSpot(l desktest.Shown) bool {
	return len(l.Spots) == 1 && l.Spots[0].Colour == "#e2ab85"
}

// A window is chosen in the menu by its title and followed: moved, covered, minimised, closed and
// opened again, with the spot where it was put and the state in words; and the next start follows it
// again.
func TestWindowFollows(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter := server.Painter()
	id := patchesAs(server, painter, "A painting")
	w := desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`, nil)
	w.Choose("A window")
	w.Choose("A painting")
	w.WaitFor("the window's inside", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) && l.Menu == nil })
	w.Click(desktest.LeftPatch)
	w.WaitFor("spot A on the light patch", lightSpot)

	painter.Move(id, image.Pt(300, 400))
	painter.Raise(painter.Window(image.Rect(0, 0, 1000, 780), 0x000000))
	painter.Repaint(id, desktest.Patches(color.NRGBA{0x20, 0x80, 0xd0, 255}, desktest.ShadowSkin))
	w.WaitFor("what is painted beneath another window", func(l desktest.Shown) bool {
		return len(l.Spots) == 1 && l.Spots[0].Colour == "#2080d0" && l.Bounds == image.Rect(0, 0, 480, 320)
	})

	painter.Rename(id, "A painting, changed", "Painter")
	server.WaitFor("its new title kept", func() bool {
		kept, _ := os.ReadFile(w.SettingsPath())
		return strings.Count(string(kept), `"title": "A painting, changed"`) == 3 && !strings.Contains(string(kept), `"title": "A painting"`)
	})
	painter.Iconify(id)
	w.WaitFor("it minimised", func(l desktest.Shown) bool {
		return strings.Contains(l.Line, "minimised") && strings.Contains(l.Message, "Window minimised")
	})
	painter.Show(id)
	w.WaitFor("it live again", func(l desktest.Shown) bool {
		return (strings.Contains(l.Line, "live") || strings.Contains(l.Line, "unchanged")) && !strings.Contains(l.Message, "Window")
	})
	painter.Destroy(id)
	w.WaitFor("it closed", func(l desktest.Shown) bool {
		return strings.Contains(l.Line, "lost") && strings.Contains(l.Message, "Window closed") && l.Sentence == "Nothing to watch"
	})
	patchesAs(server, painter, "A painting")
	patchesAs(server, painter, "A painting, changed")
	w.WaitFor("it opened again", lightSpot)
	w.Quit()
	kept, err := os.ReadFile(w.SettingsPath())
	if err != nil {
		t.Fatal(err)
	}

	again := desktest.OpenOn(t, server, string(kept), nil)
	again.WaitFor("the window at the next start", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) })
	again.Quit()
}

// Of two windows of one title and class the next start takes the topmost, says so, and follows the
// other one when it is chosen in the list.
func TestWindowOfTwoAlike(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter := server.Painter()
	patchesAs(server, painter, "A painting")
	top := patchesAs(server, painter, "A painting")
	painter.Repaint(top, desktest.Patches(color.NRGBA{0x20, 0x80, 0xd0, 255}, desktest.ShadowSkin))
	w := desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 700}, "window": {"title": "A painting", "class": "Painter"}}`, nil)
	says := wording.SayAlike(2)
	w.WaitFor("which it is", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 && strings.Contains(l.Message, says) })
	w.Click(desktest.LeftPatch)
	w.WaitFor("the topmost", func(l desktest.Shown) bool { return len(l.Spots) == 1 && l.Spots[0].Colour == "#2080d0" })
	w.Key("shift+r")
	var other desktest.Place
	w.WaitFor("the list", func(l desktest.Shown) bool {
		on := 0
		for _, p := range l.Menu {
			if p.Words == "A painting" && p.On {
				on++
			} else if p.Words == "A painting" {
				other = p
			}
		}
		return on == 1 && other.Box[2] > 0
	})
	w.ClickIn(other.Box[0]+other.Box[2]/2, other.Box[1]+other.Box[3]/2)
	w.WaitFor("the other one", func(l desktest.Shown) bool { return lightSpot(l) && !strings.Contains(l.Message, says) })
	w.Quit()
}

// A part of a followed window lies inside it, and goes along with it; the region from before stays
// on offer.
func TestWindowFollowsPart(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter := server.Painter()
	id := patchesAs(server, painter, "A painting")
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	w.WaitFor("the region", func(l desktest.Shown) bool {
		return l.Bounds == image.Rect(0, 0, 480, 320).Add(desktest.Corner(image.Point{}))
	})
	w.Key("shift+r")
	w.Choose("A painting")
	w.WaitFor("the window's inside", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) })
	w.Click(desktest.LeftPatch)
	w.WaitFor("spot A on the light patch", lightSpot)
	w.Key("w")
	h := &hands{Window: w}
	h.drag(image.Pt(100, 40), image.Pt(300, 240))
	part := w.WaitFor("a part", func(l desktest.Shown) bool { return lightSpot(l) && l.Bounds.Dx() < 250 }).Bounds
	if !part.In(image.Rect(90, 30, 310, 250)) || part.Dx() < 190 {
		t.Errorf("the part is %v", part)
	}
	painter.Move(id, image.Pt(200, 300))
	painter.Repaint(id, desktest.Patches(color.NRGBA{0x20, 0x80, 0xd0, 255}, desktest.ShadowSkin))
	w.WaitFor("the part where the window went", func(l desktest.Shown) bool {
		return len(l.Spots) == 1 && l.Spots[0].Colour == "#2080d0" && l.Bounds == part
	})
	w.Key("e")
	w.WaitFor("all of it", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) && len(l.Spots) == 1 })
	w.Press("Source")
	w.WaitFor("the region on offer", func(l desktest.Shown) bool {
		_, is := desktest.Named(l.Menu, wording.SayRegion(480, 320))
		followed, on := desktest.Named(l.Menu, "A painting")
		return is && on && followed.On
	})
	w.Quit()
}
