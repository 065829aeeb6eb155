package main

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// pages is how many tabs the window has, and structureTab the place of the page of groups
// and families among them.
const (
	tabCount     = 4
	structureTab = 1
	stillsTab    = 3
)

// pot is a picture of a round form with a light and a shadow side on a plain ground.
func pot(shadow color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	for y := range 320 {
		for x := range 480 {
			c := color.NRGBA{0xd6, 0xdb, 0xdf, 255}
			dx, dy := float64(x-240)/150, float64(y-160)/130
			switch r := dx*dx + dy*dy; {
			case r <= 1 && dx < 0.2-0.2*dy*dy:
				c = desktest.LightSkin
			case r <= 1:
				c = shadow
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

// The structure page from outside: a family is found, follows the screen, becomes spots
// with a click, and one set by hand stands beside it.
func TestWindowFindsFamilies(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 900, WindowManager: true})
	painter := server.Painter()
	id := painter.Picture(image.Pt(desktest.CornerX, desktest.CornerY), pot(desktest.ShadowSkin), "A painting")
	painter.Move(id, image.Pt(desktest.CornerX, desktest.CornerY))
	w := desktest.OpenOn(t, server, `{"version": 1, "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 800}}`, nil)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	w.OpenPage(structureTab, tabCount)
	l := w.WaitFor("a family", func(l desktest.Shown) bool { return l.Page == "Structure" && len(l.Families) == 1 })
	// 2.2 steps apart (CIE 15:2004, ASTM D1535)
	if f := l.Families[0]; f.Light != "#e2ab85" || f.Shadow != "#b26a5c" || !strings.HasPrefix(strings.ReplaceAll(f.Title, "\u00a0", " "), "2.2 tones") {
		t.Errorf("the family is %+v", f)
	}
	l = w.WaitFor("its row laid out", func(l desktest.Shown) bool { return len(l.Families) == 1 && l.Families[0].Box[1] > 100 })
	box := l.Families[0].Box
	w.ClickIn(box[0]+box[2]/4, box[1]+box[3]/4)
	w.WaitFor("its colours as spots", func(l desktest.Shown) bool { return len(l.Spots) == 2 && strings.Contains(l.Sentence, "B is 2.2") })
	painter.Repaint(id, pot(color.NRGBA{0xd0, 0x98, 0x7a, 255})) // hardly darker
	w.WaitFor("a shadow that is too close", func(l desktest.Shown) bool {
		return len(l.Families) == 1 && strings.HasPrefix(l.Families[0].Title, "0.") && strings.Contains(l.Families[0].Title, "a soft step")
	})
	w.Key("h")
	w.Click(desktest.Corner(image.Pt(200, 160))) // one click on the form
	byHand := w.WaitFor("the family set by hand", func(l desktest.Shown) bool { return len(l.Families) == 2 })
	if f := byHand.Families[0]; f.Light != "#e2ab85" || f.Shadow != "#d0987a" {
		t.Errorf("set by hand is %+v", f)
	}
	w.Key("Escape")
	w.Key("ctrl+z")
	l = w.WaitFor("it undone", func(l desktest.Shown) bool {
		return len(l.Families) == 1 && strings.Contains(l.Families[0].Title, "a soft step")
	})
	box = l.Families[0].Box
	w.ClickIn(box[0]+box[2]-20, box[1]+40) // Not this, the lower button at the right
	w.WaitFor("it refused", func(l desktest.Shown) bool {
		return len(l.Families) == 1 && strings.Contains(l.Families[0].Title, "not shown")
	})
	w.Do("mousemove", "--window", w.ID, "20", "20") // away from the row
	w.WaitFor("it folded away", func(l desktest.Shown) bool { return len(l.Families) == 0 })
	w.Key("ctrl+z")
	w.WaitFor("it back", func(l desktest.Shown) bool {
		return len(l.Families) == 1 && strings.Contains(l.Families[0].Title, "a soft step")
	})
	w.Quit()
}

// Group edges are dragged in the spread with the real pointer, and given back.
func TestWindowDragsEdges(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pot.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, pot(desktest.ShadowSkin)); err != nil {
		t.Fatal(err)
	}
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 900, WindowManager: true})
	w := desktest.OpenOn(t, server, `{"version": 1, "groups": 2, "place": {"x": 600, "y": 40, "width": 380, "height": 800}}`, nil, path)
	free := w.WaitFor("two groups", func(l desktest.Shown) bool { return len(l.Groups) == 2 }).Groups[0].To
	server.WaitFor("the edge where it was dragged to", func() bool { // the page may be laid anew while it is dragged
		lines := w.Lines()
		edge, at := free, lines[len(lines)-1].Spread
		for _, l := range lines {
			if len(l.Groups) == 2 {
				edge = l.Groups[0].To
			}
		}
		if math.Abs(edge-30) < 1 {
			return true
		}
		x := func(lightness float64) float32 { // as the spread places a lightness: two steps of margin
			return at[0] + 16 + float32(lightness/100)*(at[2]-32)
		}
		w.DragIn(x(edge), at[1]+30, x(30), at[1]+30)
		return false
	})
	w.Key("g")
	w.WaitFor("the edge back", func(l desktest.Shown) bool { return len(l.Groups) == 2 && l.Groups[0].To == free })
	w.Key("ctrl+z")
	w.WaitFor("the drag again", func(l desktest.Shown) bool { return len(l.Groups) == 2 && math.Abs(l.Groups[0].To-30) < 1 })
	w.Quit()
}
