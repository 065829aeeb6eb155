package main

import (
	"encoding/json"
	"fmt"
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
	l = w.WaitFor("its colours as spots", func(l desktest.Shown) bool { return len(l.Spots) == 2 })
	if l.Spots[0].Colour != "#e2ab85" || l.Spots[1].Colour != "#b26a5c" {
		t.Errorf("the spots are %+v", l.Spots)
	}
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
	server.WaitFor("it refused", func() bool { // by the cross at the right, once that has stood there for a while
		lines := w.Lines()
		if last := lines[len(lines)-1]; len(last.Families) == 1 && strings.Contains(last.Families[0].Title, "not shown") {
			return true
		}
		w.ClickIn(box[0]+box[2]-16, box[1]+30)
		return false
	})
	w.Do("mousemove", "--window", w.ID, "20", "20") // away from the row
	w.WaitFor("it folded away", func(l desktest.Shown) bool { return len(l.Families) == 0 })
	w.Key("ctrl+z")
	w.WaitFor("it back", func(l desktest.Shown) bool {
		return len(l.Families) == 1 && strings.Contains(l.Families[0].Title, "a soft step")
	})
	w.Quit()
}

// Borders of groups are dragged in the spread with the real pointer, and given back.
func TestWindowDragsBorders(t *testing.T) {
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
		x := func(lightness float64) float32 { // as the spread places a lightness: twelve of margin
			return at[0] + 12 + float32(lightness/100)*(at[2]-24)
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

// The figures on the page are those that read prints of the same picture.
func TestStructureShowsWhatReadPrints(t *testing.T) {
	demo, err := filepath.Abs(filepath.Join("..", "..", "assets", "demo.png"))
	if err != nil {
		t.Fatal(err)
	}
	var read struct {
		Groups []struct {
			Name  string
			Share float64
		}
		Gaps   []float64
		Murk   float64
		Limits struct {
			Dark  float64 `json:"dark_share"`
			Light float64 `json:"light_share"`
		}
		Families []struct {
			Light, Shadow     struct{ Colour string }
			Tones, Confidence float64
			Share             float64
		}
	}
	if err := json.Unmarshal([]byte(desktest.Run(t, "", "read", "--json", demo).Out), &read); err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, g := range read.Groups {
		want = append(want, g.Name, fmt.Sprintf("%.0f %%", 100*g.Share))
	}
	for _, gap := range read.Gaps {
		want = append(want, fmt.Sprintf("%.1f tones", gap))
	}
	want = append(want, fmt.Sprintf("Murk %.0f %%", 100*read.Murk),
		fmt.Sprintf("Too dark %.1f %%, too light %.1f %%, hatched in the picture", 100*read.Limits.Dark, 100*read.Limits.Light))
	var rows []string
	for _, f := range read.Families {
		if f.Confidence >= 0.5 {
			rows = append(rows, fmt.Sprintf("%s %s %.1f tones %.0f %%", f.Light.Colour, f.Shadow.Colour, f.Tones, 100*f.Share))
		}
	}
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 900, WindowManager: true})
	w := desktest.OpenOn(t, server, `{"version": 1, "page": "Structure", "place": {"x": 600, "y": 40, "width": 380, "height": 800}}`, nil, demo)
	l := w.WaitFor("local colours", func(l desktest.Shown) bool { return len(l.Words) > 0 && len(l.Families) == len(rows) })
	words := strings.ReplaceAll(strings.Join(l.Words, "|"), "\u00a0", " ")
	for _, one := range want {
		if !strings.Contains("|"+words+"|", "|"+one+"|") {
			t.Errorf("%q is not on the card, which says %q", one, words)
		}
	}
	for i, f := range l.Families {
		tones, _, _ := strings.Cut(f.Title, ":")
		if got := strings.ReplaceAll(strings.Join([]string{f.Light, f.Shadow, tones, f.Notes[0]}, " "), "\u00a0", " "); got != rows[i] {
			t.Errorf("row %d is %q, read prints %q", i, got, rows[i])
		}
	}
	w.Quit()
}
