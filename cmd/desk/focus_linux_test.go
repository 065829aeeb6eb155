package main

import (
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// J and a click mark where the eye should go: the card says whether the strongest contrast lies there,
// again when it is painted there, and undo takes the place away; it comes back at the next start.
func TestWindowFocus(t *testing.T) {
	discs := func(upper, lower uint8) *image.NRGBA {
		img := image.NewNRGBA(image.Rect(0, 0, 480, 320))
		for y := range 320 {
			for x := range 480 {
				squares := uint8(110 + (x/48+y/48)%2*20) // which stay: nothing looks moved
				c := color.NRGBA{squares, squares, squares, 255}
				if math.Hypot(float64(x-96), float64(y-74)) < 16 {
					c = color.NRGBA{upper, upper, upper, 255}
				}
				if math.Hypot(float64(x-380), float64(y-250)) < 16 {
					c = color.NRGBA{lower, lower, lower, 255}
				}
				img.SetNRGBA(x, y, c)
			}
		}
		return img
	}
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 900, WindowManager: true})
	painter := server.Painter()
	id := painter.Picture(image.Pt(desktest.CornerX, desktest.CornerY), discs(150, 240), "A painting")
	painter.Move(id, image.Pt(desktest.CornerX, desktest.CornerY))
	home := t.TempDir()
	w := desktest.OpenIn(t, server, home, `{"version": 1, "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 800}}`, nil)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	w.Key("j")
	w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Structure" })
	w.Click(desktest.Corner(image.Pt(100, 70)))
	says := func(words string) func(desktest.Shown) bool {
		return func(l desktest.Shown) bool { return strings.HasPrefix(strings.Join(l.Focus, " "), words) }
	}
	l := w.WaitFor("where it lies instead", says("The strongest contrast lies elsewhere, at the lower right."))
	if len(l.Spots) != 0 {
		t.Errorf("spots were set: %+v", l.Spots)
	}
	painter.Repaint(id, discs(240, 150))
	w.WaitFor("that it lies there", says("The strongest contrast lies there."))
	w.Key("ctrl+z")
	w.WaitFor("nothing marked", func(l desktest.Shown) bool { return len(l.Focus) == 0 })
	w.Key("ctrl+y")
	w.WaitFor("it again", says("The strongest contrast lies there."))
	w.Quit()

	w = desktest.OpenIn(t, server, home, "", nil)
	w.WaitFor("it at the next start", says("The strongest contrast lies there."))
	w.Quit()
}
