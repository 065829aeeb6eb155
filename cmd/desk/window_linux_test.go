package main

import (
	"errors"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/desktest"
)

func clickBoth(w *desktest.Window) desktest.Shown {
	w.T.Helper()
	w.WaitFor("the region", func(l desktest.Shown) bool {
		return l.Bounds == image.Rect(desktest.CornerX, desktest.CornerY, desktest.CornerX+480, desktest.CornerY+320)
	})
	w.Click(desktest.Corner(desktest.LeftPatch))
	w.WaitFor("spot A", func(l desktest.Shown) bool { return len(l.Spots) == 1 })
	w.Click(desktest.Corner(desktest.RightPatch))
	return w.WaitFor("two spots", func(l desktest.Shown) bool { return len(l.Spots) == 2 })
}

// The main job, from the outside: two clicks on a watched picture, the right sentence, and
// it follows the picture.
func TestWindowFollowsTheScreen(t *testing.T) {
	server, painter, id := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	l := clickBoth(w)
	if !strings.Contains(l.Sentence, "B is 2.2") || !strings.Contains(l.Sentence, "darker") {
		t.Errorf("the sentence is %q", l.Sentence)
	}
	for i, want := range []float64{desktest.LightSkinL, desktest.ShadowSkinL} {
		if got := l.Spots[i].Lightness; math.Abs(got-want) > 0.005 {
			t.Errorf("spot %d has lightness %.3f, want %.3f", i, got, want)
		}
	}
	painter.Repaint(id, desktest.Patches(desktest.LightSkin, desktest.LightSkin))
	w.WaitFor("the same lightness", func(l desktest.Shown) bool { return l.Sentence == "Same lightness" })

	painter.Move(id, image.Pt(desktest.CornerX+37, desktest.CornerY+22)) // a pan: every patch has gone elsewhere
	w.WaitFor("that the spots went along", func(now desktest.Shown) bool {
		if len(now.Spots) != 2 || slices.Contains(now.Moved, true) {
			return false
		}
		for i, spot := range now.Spots {
			if spot.X != l.Spots[i].X+37 || spot.Y != l.Spots[i].Y+22 {
				return false
			}
		}
		return true
	})
	w.Quit()
}

// Keys: views, freeze, undo, delete, enlarge, the last by the wheel too. The picture changes
// while frozen, and shows after.
func TestWindowKeys(t *testing.T) {
	server, painter, id := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	b := clickBoth(w).Spots[1].X // a unit of the window is more than a pixel of the picture
	w.Key("v")
	w.WaitFor("another view", func(l desktest.Shown) bool { return l.View == "layer-grey" })
	w.Key("f")
	w.WaitFor("it frozen", func(l desktest.Shown) bool { return l.Frozen })
	painter.Repaint(id, desktest.Patches(desktest.LightSkin, desktest.LightSkin))
	w.Key("Left") // spot B, frozen or not
	l := w.WaitFor("B moved", func(l desktest.Shown) bool { return len(l.Spots) == 2 && l.Spots[1].X == b-1 })
	if !strings.Contains(l.Sentence, "darker") || !l.Frozen {
		t.Errorf("frozen, it shows %+v", l)
	}
	w.Key("f")
	w.WaitFor("the picture of now", func(l desktest.Shown) bool { return !l.Frozen && l.Sentence == "Same lightness" })
	w.Key("ctrl+z")
	w.WaitFor("B back", func(l desktest.Shown) bool { return len(l.Spots) == 2 && l.Spots[1].X == b })
	w.Key("s", "s") // after B, its selection undone or not, comes a spot in the end
	w.Key("ctrl+z", "ctrl+z")
	w.WaitFor("no spots", func(l desktest.Shown) bool { return len(l.Spots) == 0 })
	w.Key("ctrl+y", "ctrl+y")
	w.WaitFor("both again", func(l desktest.Shown) bool { return len(l.Spots) == 2 })
	enlarged := func(l desktest.Shown) bool { return l.Part.In(l.Bounds) && l.Part.Dx() < l.Bounds.Dx() }
	whole := func(l desktest.Shown) bool { return l.Part == l.Bounds }
	w.Key("ctrl+equal")
	w.WaitFor("it enlarged by a key", enlarged)
	w.Key("ctrl+minus")
	w.WaitFor("it whole by a key", whole)
	x, y := w.At(desktest.Corner(desktest.RightPatch))
	w.Do("mousemove", "--window", w.ID, x, y, "click", "4")
	w.WaitFor("it enlarged by the wheel", enlarged)
	w.Do("click", "5")
	w.WaitFor("it whole by the wheel", whole)
	w.Quit()
	if data, err := os.ReadFile(w.SettingsPath()); err != nil || !strings.Contains(string(data), "layer-grey") {
		t.Errorf("the view is not kept: %v\n%s", err, data)
	}
}

// A region is chosen by a drag on the frozen desktop, moved by keys, and taken with Enter.
func TestWindowChoosesRegion(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`, nil)
	w.WaitFor("the first start", func(l desktest.Shown) bool {
		_, offered := desktest.Named(l.Menu, "A region of the screen")
		return offered && l.Sentence == "Choose what to watch"
	})
	ask := func() {
		w.Key("r")
		server.WaitFor("the desktop's picture", func() bool {
			out, _ := w.Tool("xdotool", "getactivewindow", "getwindowgeometry")
			return strings.Contains(out, "1024x800")
		})
	}
	choose := func(end ...string) {
		ask()
		w.Do("mousemove", "200", "100", "mousedown", "1", "mousemove", "250", "150", "mousemove", "400", "300", "mousemove", "421", "303", "mouseup", "1")
		w.Key(end...)
		server.WaitFor("the window again", func() bool {
			out, _ := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
			return strings.TrimSpace(out) == w.ID
		})
		w.Do("windowactivate", "--sync", w.ID)
	}
	choose("Escape")
	choose("Right", "Down", "Return")
	want := image.Rect(201, 101, 422, 304)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds == want && l.Message == "" })
	ask()
	w.Do("mousemove", "200", "100", "mousedown", "1", "key", "ctrl+q") // our own window is hidden
	if err := w.Wait(); err != nil || w.Said() != "" {
		t.Errorf("quit while a region is chosen, it ended with %v and said %q", err, w.Said())
	}
	w.Do("mouseup", "1")
}

// The watched display is another than the window's own. It is stopped, continued, killed
// and started anew; the window says so, answers all the time, and goes on by itself.
func TestWindowOutlivesWatchedServer(t *testing.T) {
	own := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	watched := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480})
	w := desktest.OpenOn(t, own, `{"version": 1, "region": {"x": 0, "y": 0, "width": 300, "height": 200}}`,
		[]string{"TONEDESK_DISPLAY=" + watched.Display})
	w.WaitFor("the watched screen", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 300, 200) })
	answers := func() {
		w.Key("f")
		w.WaitFor("it frozen", func(l desktest.Shown) bool { return l.Frozen })
		w.Key("f")
		w.WaitFor("it going on", func(l desktest.Shown) bool { return !l.Frozen })
	}
	watched.Stop()
	w.WaitFor("not answering", func(l desktest.Shown) bool {
		return l.State == "not answering" && strings.Contains(l.Message, "does not answer")
	})
	answers()
	watched.Continue()
	fine := func(l desktest.Shown) bool { return (l.State == "live" || l.State == "unchanged") && l.Message == "" }
	w.WaitFor("it answering again", fine)
	watched.Kill()
	w.WaitFor("the connection lost", func(l desktest.Shown) bool { return l.State == "gone" && l.Message != "" })
	answers()
	own.Launch("Xvfb", watched.Display, "-noreset", "-screen", "0", "640x480x24")
	w.WaitFor("the new server", fine)
	w.Quit()
}

// When the window's own display dies, the program says so in one sentence, exits with 1,
// and has kept the settings.
func TestWindowDisplayDies(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	clickBoth(w)
	w.Key("v")
	w.WaitFor("another view", func(l desktest.Shown) bool { return l.View == "layer-grey" })
	server.Kill()
	var exit *exec.ExitError
	if err := w.Wait(); !errors.As(err, &exit) || exit.ExitCode() != command.ExitUnread {
		t.Errorf("it ended with %v, want exit code %d", err, command.ExitUnread)
	}
	if said := w.Said(); strings.Count(said, "\n") != 1 || !strings.Contains(said, "display is gone") {
		t.Errorf("it said %q", said)
	}
	if data, err := os.ReadFile(w.SettingsPath()); err != nil || !strings.Contains(string(data), "layer-grey") {
		t.Errorf("the view is not kept: %v\n%s", err, data)
	}
}

// The screen becomes smaller than the region, and large again.
func TestWindowScreenResizes(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1280, Height: 1024, WindowManager: true})
	w := desktest.OpenOn(t, server, `{"version": 1, "region": {"x": 700, "y": 500, "width": 480, "height": 320}, "place": {"x": 40, "y": 40, "width": 380, "height": 600}}`, nil)
	all := image.Rect(700, 500, 1180, 820)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds == all })
	for name, size := range map[string][2]string{"middling": {"1024", "768"}, "small": {"640", "480"}} {
		x, y := size[0], size[1]
		server.Run("xrandr", "--newmode", name, "50", x, x, x, x, y, y, y, y) // the server has one mode only
		server.Run("xrandr", "--addmode", "screen", name)
	}
	server.Run("xrandr", "--output", "screen", "--mode", "middling")
	w.WaitFor("what is left of the region", func(l desktest.Shown) bool { return l.Bounds == image.Rect(700, 500, 1024, 768) })
	server.Run("xrandr", "--output", "screen", "--mode", "small")
	w.WaitFor("that it is gone", func(l desktest.Shown) bool { return l.State == "gone" && strings.Contains(l.Message, "screen") })
	server.Run("xrandr", "--output", "screen", "--mode", "1280x1024")
	w.WaitFor("all of the region", func(l desktest.Shown) bool { return l.Bounds == all && l.State != "gone" && l.Message == "" })
	w.Quit()
}

// Our own window lies over a part of what it watches: that part is not counted, and said.
func TestWindowCoversTheRegion(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	over := strings.NewReplacer(`"x": 600, "y": 40`, `"x": 320, "y": 200`, `"version": 1`, `"version": 1, "height": 560`).Replace(desktest.WatchPatches)
	w := desktest.OpenOn(t, server, over, nil)
	l := w.WaitFor("that it covers a part", func(l desktest.Shown) bool {
		return l.Event == "shown" && strings.Contains(l.Message, "Covered: ") && l.Counted < 480*320
	})
	// from 320 on in both directions, but for the window's frame: at least this much is covered
	if most := 480*320 - 200*180; l.Counted > most || l.Counted < most-40*(200+180) {
		t.Errorf("%d pixels are counted, want a little under %d", l.Counted, most)
	}
	w.Quit()
}

// Keeping above others is the desktop's to do: it is asked, and asked again after hiding.
func TestWindowKeepsAbove(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	above := func() bool {
		return strings.Contains(server.Ask("xprop", "-id", w.ID, "_NET_WM_STATE"), "_NET_WM_STATE_ABOVE")
	}
	if above() {
		t.Fatal("it is above others from the start")
	}
	w.Key("k")
	server.WaitFor("the window above", above)
	w.Key("k")
	server.WaitFor("the window no longer above", func() bool { return !above() })
	w.Key("k")
	server.WaitFor("the window above", above)
	w.Quit()

	data, err := os.ReadFile(w.SettingsPath())
	if err != nil {
		t.Fatal(err)
	}
	w = desktest.OpenOn(t, server, string(data), nil)
	server.WaitFor("the window above after a new start", above)
	w.Quit()
}

// A damaged settings file costs the settings, not the start, and is set aside.
func TestWindowDamagedSettings(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	w := desktest.OpenOn(t, server, `{"version": 1, "view": `, nil)
	w.WaitFor("that the settings were damaged", func(l desktest.Shown) bool { return strings.Contains(l.Message, "settings") })
	w.Quit()
	aside, err := filepath.Glob(w.SettingsPath() + ".damaged-*")
	if err != nil || len(aside) != 1 {
		t.Fatalf("set aside are %q, %v", aside, err)
	}
	if was, err := os.ReadFile(aside[0]); err != nil || string(was) != `{"version": 1, "view": ` {
		t.Errorf("set aside is %q, %v", was, err)
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
	save(desktest.Patches(desktest.LightSkin, desktest.ShadowSkin))
	w := desktest.OpenOn(t, server, `{"version": 1}`, nil, path)
	w.WaitFor("the picture", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) })
	w.Click(desktest.LeftPatch)
	w.WaitFor("spot A", func(l desktest.Shown) bool { return len(l.Spots) == 1 })
	w.Click(desktest.RightPatch)
	w.WaitFor("the sentence", func(l desktest.Shown) bool { return strings.Contains(l.Sentence, "B is 2.2") })
	save(desktest.Patches(desktest.LightSkin, desktest.LightSkin))
	w.WaitFor("the picture as saved again", func(l desktest.Shown) bool { return l.Sentence == "Same lightness" })
	w.Quit()
}

// Without a display there is one sentence and exit code 1.
func TestWindowWithoutDisplay(t *testing.T) {
	for _, env := range [][]string{nil, {"DISPLAY=:9321"}} {
		e := desktest.RunWith(t, env, "")
		if e.Code != command.ExitUnread || strings.Count(e.Err, "\n") != 1 || e.Out != "" {
			t.Errorf("with %v: exit %d, %q, %q", env, e.Code, e.Out, e.Err)
		}
	}
}
