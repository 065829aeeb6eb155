package main

import (
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/command"
)

// Two colours and their lightness, computed outside of the program from CIE 15:2004 and
// IEC 61966-2-1: 2.2 steps of the ASTM D1535 scale apart.
var (
	lightSkin  = color.NRGBA{0xe2, 0xab, 0x85, 0xff} // L* 74.18
	shadowSkin = color.NRGBA{0xb2, 0x6a, 0x5c, 0xff} // L* 52.45
)

const (
	lightSkinL  = 74.183
	shadowSkinL = 52.450
)

// patches is a picture of flat patches of many greys, two of which have colours.
func patches(left, right color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	for i := range 24 {
		v := uint8(i * 97 % 256)
		c := color.NRGBA{v, v, v, 255}
		switch i {
		case 8:
			c = left
		case 15:
			c = right
		}
		box := image.Rect(0, 0, 80, 80).Add(image.Pt(i%6*80, i/6*80))
		draw.Draw(img, box, image.NewUniform(c), image.Point{}, draw.Src)
	}
	return img
}

// Middles of the coloured patches, from the picture's corner.
var leftPatch, rightPatch = image.Pt(200, 120), image.Pt(280, 200)

const (
	cornerX, cornerY = 40, 60
	watchPatches     = `{"version": 1, "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`
)

func corner(p image.Point) image.Point { return p.Add(image.Pt(cornerX, cornerY)) }

func screenWithPatches(t *testing.T) (*xvfbtest.Server, *xvfbtest.Painter, uint32) {
	t.Helper()
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter := server.Painter()
	id := painter.Picture(image.Pt(cornerX, cornerY), patches(lightSkin, shadowSkin), "A painting")
	painter.Move(id, image.Pt(cornerX, cornerY))
	return server, painter, id
}

func (w *openedWindow) clickBoth() shownLine {
	w.t.Helper()
	w.waitFor("the region", func(l shownLine) bool { return l.Bounds == image.Rect(cornerX, cornerY, cornerX+480, cornerY+320) })
	w.click(corner(leftPatch))
	w.waitFor("spot A", func(l shownLine) bool { return len(l.Spots) == 1 })
	w.click(corner(rightPatch))
	return w.waitFor("two spots", func(l shownLine) bool { return len(l.Spots) == 2 })
}

// The main job, from the outside: two clicks on a watched picture, the right sentence, and
// it follows the picture.
func TestWindowFollowsTheScreen(t *testing.T) {
	server, painter, id := screenWithPatches(t)
	w := openOn(t, server, watchPatches, nil)
	l := w.clickBoth()
	if !strings.Contains(l.Sentence, "B is 2.2") || !strings.Contains(l.Sentence, "darker") {
		t.Errorf("the sentence is %q", l.Sentence)
	}
	for i, want := range []float64{lightSkinL, shadowSkinL} {
		if got := l.Spots[i].Lightness; math.Abs(got-want) > 0.005 {
			t.Errorf("spot %d has lightness %.3f, want %.3f", i, got, want)
		}
	}
	painter.Repaint(id, patches(lightSkin, lightSkin))
	w.waitFor("the same lightness", func(l shownLine) bool { return l.Sentence == "Same lightness" })

	painter.Move(id, image.Pt(cornerX+37, cornerY+22)) // a pan: every patch has gone elsewhere
	w.waitFor("that the picture moved", func(l shownLine) bool {
		return len(l.Moved) == 2 && l.Moved[0] && l.Moved[1] && strings.Contains(l.Message, "moved")
	})
	w.key("p")
	w.waitFor("that the spots are right", func(l shownLine) bool { return len(l.Moved) == 2 && !l.Moved[0] })
	w.quit()
}

// Keys: views, freeze, undo, delete, enlarge, the last by the wheel too. The picture changes
// while frozen, and shows after.
func TestWindowKeys(t *testing.T) {
	server, painter, id := screenWithPatches(t)
	w := openOn(t, server, watchPatches, nil)
	w.clickBoth()
	w.key("v")
	w.waitFor("another view", func(l shownLine) bool { return l.View == "layer-grey" })
	w.key("f")
	w.waitFor("it frozen", func(l shownLine) bool { return l.Frozen })
	painter.Repaint(id, patches(lightSkin, lightSkin))
	w.key("Left") // spot B, frozen or not
	l := w.waitFor("B moved", func(l shownLine) bool { return len(l.Spots) == 2 && l.Spots[1].X == 279 })
	if !strings.Contains(l.Sentence, "darker") || !l.Frozen {
		t.Errorf("frozen, it shows %+v", l)
	}
	w.key("f")
	w.waitFor("the picture of now", func(l shownLine) bool { return !l.Frozen && l.Sentence == "Same lightness" })
	w.key("ctrl+z")
	w.waitFor("B back", func(l shownLine) bool { return len(l.Spots) == 2 && l.Spots[1].X == 280 })
	w.key("s", "s") // after B, its selection undone or not, comes a spot in the end
	w.key("ctrl+z", "ctrl+z")
	w.waitFor("no spots", func(l shownLine) bool { return len(l.Spots) == 0 })
	w.key("ctrl+y", "ctrl+y")
	w.waitFor("both again", func(l shownLine) bool { return len(l.Spots) == 2 })
	enlarged := func(l shownLine) bool { return l.Part.In(l.Bounds) && l.Part.Dx() < l.Bounds.Dx() }
	whole := func(l shownLine) bool { return l.Part == l.Bounds }
	w.key("ctrl+equal")
	w.waitFor("it enlarged by a key", enlarged)
	w.key("ctrl+minus")
	w.waitFor("it whole by a key", whole)
	x, y := w.at(corner(rightPatch))
	w.do("mousemove", "--window", w.id, x, y, "click", "4")
	w.waitFor("it enlarged by the wheel", enlarged)
	w.do("click", "5")
	w.waitFor("it whole by the wheel", whole)
	w.quit()
	if data, err := os.ReadFile(w.settingsPath()); err != nil || !strings.Contains(string(data), "layer-grey") {
		t.Errorf("the view is not kept: %v\n%s", err, data)
	}
}

// A region is chosen by a drag on the frozen desktop, moved by keys, and taken with Enter.
func TestWindowChoosesRegion(t *testing.T) {
	server, _, _ := screenWithPatches(t)
	w := openOn(t, server, `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`, nil)
	l := w.waitFor("the demo", func(l shownLine) bool { return l.Event == "shown" })
	if !strings.Contains(l.Message, "demo") {
		t.Errorf("at the first start it says %q", l.Message)
	}
	choose := func(end ...string) {
		w.key("r")
		var overlay string
		server.WaitFor("the desktop's picture", func() bool {
			out, _ := w.tool("xdotool", "getactivewindow", "getwindowgeometry")
			overlay = out
			return strings.Contains(out, "1024x800")
		})
		w.do("mousemove", "200", "100", "mousedown", "1", "mousemove", "250", "150", "mousemove", "400", "300", "mousemove", "421", "303", "mouseup", "1")
		w.key(end...)
		server.WaitFor("the window again", func() bool {
			out, _ := w.tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
			return strings.TrimSpace(out) == w.id
		})
		w.do("windowactivate", "--sync", w.id)
		_ = overlay
	}
	choose("Escape")
	choose("Right", "Down", "Return")
	want := image.Rect(201, 101, 422, 304)
	w.waitFor("the region", func(l shownLine) bool { return l.Bounds == want && l.Message == "" })
	w.quit()
}

// The watched display is another than the window's own. It is stopped, continued, killed
// and started anew; the window says so, answers all the time, and goes on by itself.
func TestWindowOutlivesWatchedServer(t *testing.T) {
	own := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	watched := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480})
	w := openOn(t, own, `{"version": 1, "region": {"x": 0, "y": 0, "width": 300, "height": 200}}`,
		[]string{"TONEDESK_DISPLAY=" + watched.Display})
	w.waitFor("the watched screen", func(l shownLine) bool { return l.Bounds == image.Rect(0, 0, 300, 200) })
	answers := func() {
		w.key("f")
		w.waitFor("it frozen", func(l shownLine) bool { return l.Frozen })
		w.key("f")
		w.waitFor("it going on", func(l shownLine) bool { return !l.Frozen })
	}
	watched.Stop()
	w.waitFor("not answering", func(l shownLine) bool {
		return l.State == "not answering" && strings.Contains(l.Message, "does not answer")
	})
	answers()
	watched.Continue()
	fine := func(l shownLine) bool { return (l.State == "live" || l.State == "unchanged") && l.Message == "" }
	w.waitFor("it answering again", fine)
	watched.Kill()
	w.waitFor("the connection lost", func(l shownLine) bool { return l.State == "gone" && l.Message != "" })
	answers()
	own.Launch("Xvfb", watched.Display, "-noreset", "-screen", "0", "640x480x24")
	w.waitFor("the new server", fine)
	w.quit()
}

// When the window's own display dies, the program says so in one sentence, exits with 1,
// and has kept the settings.
func TestWindowDisplayDies(t *testing.T) {
	server, _, _ := screenWithPatches(t)
	w := openOn(t, server, watchPatches, nil)
	w.clickBoth()
	w.key("v")
	w.waitFor("another view", func(l shownLine) bool { return l.View == "layer-grey" })
	server.Kill()
	var exit *exec.ExitError
	if err := w.wait(); !errors.As(err, &exit) || exit.ExitCode() != command.ExitUnread {
		t.Errorf("it ended with %v, want exit code %d", err, command.ExitUnread)
	}
	if said := w.said(); strings.Count(said, "\n") != 1 || !strings.Contains(said, "display is gone") {
		t.Errorf("it said %q", said)
	}
	if data, err := os.ReadFile(w.settingsPath()); err != nil || !strings.Contains(string(data), "layer-grey") {
		t.Errorf("the view is not kept: %v\n%s", err, data)
	}
}

// The screen becomes smaller than the region, and large again.
func TestWindowScreenResizes(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1280, Height: 1024, WindowManager: true})
	w := openOn(t, server, `{"version": 1, "region": {"x": 700, "y": 500, "width": 480, "height": 320}, "place": {"x": 40, "y": 40, "width": 380, "height": 600}}`, nil)
	all := image.Rect(700, 500, 1180, 820)
	w.waitFor("the region", func(l shownLine) bool { return l.Bounds == all })
	for name, size := range map[string][2]string{"middling": {"1024", "768"}, "small": {"640", "480"}} {
		x, y := size[0], size[1]
		server.Run("xrandr", "--newmode", name, "50", x, x, x, x, y, y, y, y) // the server has one mode only
		server.Run("xrandr", "--addmode", "screen", name)
	}
	server.Run("xrandr", "--output", "screen", "--mode", "middling")
	w.waitFor("what is left of the region", func(l shownLine) bool { return l.Bounds == image.Rect(700, 500, 1024, 768) })
	server.Run("xrandr", "--output", "screen", "--mode", "small")
	w.waitFor("that it is gone", func(l shownLine) bool { return l.State == "gone" && strings.Contains(l.Message, "screen") })
	server.Run("xrandr", "--output", "screen", "--mode", "1280x1024")
	w.waitFor("all of the region", func(l shownLine) bool { return l.Bounds == all && l.State != "gone" && l.Message == "" })
	w.quit()
}

// Our own window lies over a part of what it watches: that part is not counted, and said.
func TestWindowCoversTheRegion(t *testing.T) {
	server, _, _ := screenWithPatches(t)
	w := openOn(t, server, strings.Replace(watchPatches, `"x": 600, "y": 40`, `"x": 320, "y": 200`, 1), nil)
	l := w.waitFor("that it covers a part", func(l shownLine) bool {
		return l.Event == "shown" && strings.Contains(l.Message, "covers a part") && l.Counted < 480*320
	})
	// from 320 on in both directions, but for the window's frame: at least this much is covered
	if most := 480*320 - 200*180; l.Counted > most || l.Counted < most-40*(200+180) {
		t.Errorf("%d pixels are counted, want a little under %d", l.Counted, most)
	}
	w.quit()
}

// Keeping above others is the desktop's to do: it is asked, and asked again after hiding.
func TestWindowKeepsAbove(t *testing.T) {
	server, _, _ := screenWithPatches(t)
	w := openOn(t, server, watchPatches, nil)
	above := func() bool {
		return strings.Contains(server.Run("xprop", "-id", w.id, "_NET_WM_STATE"), "_NET_WM_STATE_ABOVE")
	}
	if above() {
		t.Fatal("it is above others from the start")
	}
	w.key("k")
	server.WaitFor("the window above", above)
	w.key("k")
	server.WaitFor("the window no longer above", func() bool { return !above() })
	w.key("k")
	server.WaitFor("the window above", above)
	w.quit()

	data, err := os.ReadFile(w.settingsPath())
	if err != nil {
		t.Fatal(err)
	}
	w = openOn(t, server, string(data), nil)
	server.WaitFor("the window above after a new start", above)
	w.quit()
}

// A damaged settings file costs the settings, not the start, and is set aside.
func TestWindowDamagedSettings(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	w := openOn(t, server, `{"version": 1, "view": `, nil)
	w.waitFor("that the settings were damaged", func(l shownLine) bool { return strings.Contains(l.Message, "settings") })
	w.quit()
	files, err := os.ReadDir(w.home + "/tonedesk")
	if err != nil || len(files) < 2 {
		t.Errorf("beside the new settings there is nothing: %v, %v", files, err)
	}
}

// A picture file is shown instead of a region, and followed when it is saved again.
func TestWindowFollowsPictureFile(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	path := t.TempDir() + "/a painting.png"
	save := func(img image.Image) {
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
	}
	save(patches(lightSkin, shadowSkin))
	w := openOn(t, server, `{"version": 1}`, nil, path)
	w.waitFor("the picture", func(l shownLine) bool { return l.Bounds == image.Rect(0, 0, 480, 320) })
	w.click(leftPatch)
	w.waitFor("spot A", func(l shownLine) bool { return len(l.Spots) == 1 })
	w.click(rightPatch)
	w.waitFor("the sentence", func(l shownLine) bool { return strings.Contains(l.Sentence, "B is 2.2") })
	save(patches(lightSkin, lightSkin))
	w.waitFor("the picture as saved again", func(l shownLine) bool { return l.Sentence == "Same lightness" })
	w.quit()
}

// Without a display there is one sentence and exit code 1.
func TestWindowWithoutDisplay(t *testing.T) {
	for _, env := range [][]string{nil, {"DISPLAY=:9321"}} {
		e := deskWith(t, env, "")
		if e.code != command.ExitUnread || strings.Count(e.err, "\n") != 1 || e.out != "" {
			t.Errorf("with %v: exit %d, %q, %q", env, e.code, e.out, e.err)
		}
	}
}
