package main

import (
	"fmt"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// Modifier bits and keysyms of the keys that are tried. Source: X Window System Protocol, X11R7.7.
const (
	withCtrlAlt = 4 | 8
	withCaps    = 2
	firstKeySym = '1'
)

// everywhere is the window, and another program's, which has the focus.
type everywhere struct {
	*desktest.Window
	painter         *xvfbtest.Painter
	painting, other uint32
}

// openEverywhere opens the window on the patches, with more settings.
func openEverywhere(t *testing.T, more string) *everywhere {
	t.Helper()
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1200, WindowManager: true})
	e := &everywhere{painter: server.Painter()}
	e.painting = e.painter.Picture(desktest.Corner(image.Point{}), desktest.Patches(desktest.LightSkin, desktest.ShadowSkin), "A painting")
	e.painter.Move(e.painting, desktest.Corner(image.Point{}))
	e.other = e.painter.Window(image.Rect(40, 600, 400, 900), 0x2080d0)
	e.Window = desktest.OpenOn(t, server, strings.Replace(strings.TrimSuffix(desktest.WatchPatches, "}"), `"height": 700`, `"height": 1100`, 1)+`, "height": 1100`+more+"}", nil)
	e.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	return e
}

// elsewhere gives the keyboard to the other program.
func (e *everywhere) elsewhere() {
	e.T.Helper()
	e.Do("windowactivate", "--sync", fmt.Sprint(e.other))
}

// keyAt presses a key with the pointer at a place of the screen, wherever the focus is.
func (e *everywhere) keyAt(at image.Point, key string) {
	e.T.Helper()
	e.Do("mousemove", fmt.Sprint(at.X), fmt.Sprint(at.Y), "key", key)
}

// heard presses a key, once, and has to be heard: the keys are held before the window is seen, and by
// the time that it shows that they are switched on.
func (e *everywhere) heard() {
	e.T.Helper()
	was := e.Lines()[len(e.Lines())-1].View
	e.Do("key", "ctrl+alt+5")
	e.WaitFor("what the key does", func(l desktest.Shown) bool { return l.View != was })
}

// free reports whether another program can hold all six keys, with CapsLock and without; what it
// could hold it gives back.
func (e *everywhere) free() bool {
	all := true
	for i := range 6 {
		for _, held := range []int{withCtrlAlt, withCtrlAlt | withCaps} {
			if !e.painter.HoldKey(firstKeySym+i, held) {
				all = false
			} else {
				e.painter.LetGoKey(firstKeySym+i, held)
			}
		}
	}
	return all
}

// row presses what a row of the list of keys sets, once the rows have been laid out.
func (e *everywhere) row(name string) {
	e.T.Helper()
	e.WaitFor(name, func(l desktest.Shown) bool {
		p, ok := desktest.Named(l.Bar, name)
		done, _ := desktest.Named(l.Bar, "Done")
		return ok && p.Box[1] > done.Box[1]+done.Box[3]
	})
	e.Press(name)
}

// plain is a sentence with ordinary spaces.
func plain(words string) string { return strings.ReplaceAll(words, wording.Nbsp, " ") }

func codes(l desktest.Shown) (all []string) {
	for _, s := range l.Spots {
		all = append(all, s.Colour)
	}
	return all
}

// While another program has the keyboard, and locks are on, keys set the spots where the pointer is:
// on the painting, outside of it, where the spot is read once, and on the picture in the window. The
// others freeze, keep, and hide the window. After a signal another program can hold them.
func TestKeysEverywhere(t *testing.T) {
	e := openEverywhere(t, `, "keys_everywhere": true`)
	e.elsewhere()
	e.Do("key", "Caps_Lock", "key", "Num_Lock")
	e.heard()
	e.keyAt(desktest.Corner(desktest.LeftPatch), "ctrl+alt+1")
	e.keyAt(desktest.Corner(desktest.RightPatch), "ctrl+alt+2")
	l := e.WaitFor("both spots", func(l desktest.Shown) bool { return len(l.Spots) == 2 && plain(l.Sentence) == "B is 2.2 tones darker" })
	if got := codes(l); got[0] != "#e2ab85" || got[1] != "#b26a5c" { // the colours that were painted
		t.Errorf("the spots are %v", got)
	}
	e.keyAt(desktest.Corner(desktest.RightPatch).Add(image.Pt(0, 80)), "ctrl+alt+2")
	e.WaitFor("B again", func(l desktest.Shown) bool { return len(l.Spots) == 2 && codes(l)[1] != "#b26a5c" })
	e.keyAt(desktest.Corner(desktest.RightPatch), "ctrl+alt+2")
	e.WaitFor("B where it was", func(l desktest.Shown) bool { return len(l.Spots) == 2 && codes(l)[1] == "#b26a5c" })

	e.keyAt(image.Pt(200, 750), "ctrl+alt+1") // in the other program's window
	e.WaitFor("A fixed", func(l desktest.Shown) bool {
		return codes(l)[0] == "#2080d0" && l.Message == "A is fixed: read once"
	})
	e.painter.Fill(image.Rect(0, 550, 500, 950), 0xffffff)
	e.painter.Repaint(e.painting, desktest.Patches(desktest.LightSkin, color.NRGBA{0x20, 0x80, 0x40, 255}))
	l = e.WaitFor("what is painted now", func(l desktest.Shown) bool { return codes(l)[1] == "#208040" })
	if codes(l)[0] != "#2080d0" {
		t.Errorf("what is fixed became %s", codes(l)[0])
	}
	e.Focus()
	e.Do("key", "Caps_Lock", "key", "Num_Lock") // the window's own key is another with them
	e.Key("ctrl+z")
	e.WaitFor("A on the painting again", func(l desktest.Shown) bool { return codes(l)[0] == "#e2ab85" })
	e.elsewhere()

	x, y := e.At(desktest.Corner(desktest.LeftPatch))
	e.Do("mousemove", "--window", e.ID, x, y, "key", "ctrl+alt+2")
	e.WaitFor("B where the pointer is in the mirror", func(l desktest.Shown) bool { return codes(l)[1] == "#e2ab85" })
	e.Do("mousemove", "--window", e.ID, "370", "1090", "key", "ctrl+alt+2")
	e.WaitFor("that the pointer is on the window", func(l desktest.Shown) bool { return strings.Contains(l.Message, "The pointer is on Tonedesk") })

	for _, frozen := range []bool{true, false} {
		e.Do("key", "ctrl+alt+3")
		e.WaitFor(fmt.Sprint("frozen ", frozen), func(l desktest.Shown) bool { return l.Frozen == frozen })
	}
	e.Do("key", "ctrl+alt+4")
	e.Server.WaitFor("the still", func() bool {
		kept, _ := filepath.Glob(filepath.Join(e.Home, "data", "tonedesk", "stills", "2*", "still.json"))
		return len(kept) == 1
	})
	for _, state := range []string{"IsUnMapped", "IsViewable"} {
		e.Do("key", "ctrl+alt+6")
		e.Server.WaitFor("the window "+state, func() bool { return strings.Contains(e.Server.Ask("xwininfo", "-id", e.ID), state) })
	}
	if e.free() {
		t.Error("the keys are not held")
	}
	e.Quit()
	if !e.free() {
		t.Error("after the program's end another can't hold the keys")
	}
}

// Nothing is taken before the keys are switched on; what another program holds is said, another key
// is chosen by pressing it, and switched off all are given back.
func TestKeysAreSwitched(t *testing.T) {
	e := openEverywhere(t, "")
	if !e.free() {
		t.Error("keys are held that nobody has switched on")
	}
	if !e.painter.HoldKey(firstKeySym+1, withCtrlAlt) {
		t.Fatal("the other program can't hold a key")
	}
	e.Key("F1")
	e.row("Keys while you paint")
	e.WaitFor("that a key is held", func(l desktest.Shown) bool {
		return strings.Contains(l.Message, "Another program holds Ctrl+Alt+2; choose another key in the list of keys, F1.")
	})
	e.row("Spot B here")
	e.Key("ctrl+alt+b")
	kept := func(what, words string) {
		t.Helper()
		e.Server.WaitFor(what, func() bool {
			data, _ := os.ReadFile(e.SettingsPath())
			return strings.Contains(string(data), words)
		})
	}
	kept("the other key", `"spot_b": "Ctrl+Alt+B"`)
	e.elsewhere()
	e.heard()
	e.keyAt(desktest.Corner(desktest.LeftPatch), "ctrl+alt+1")
	e.keyAt(desktest.Corner(desktest.RightPatch), "ctrl+alt+b")
	e.WaitFor("both spots", func(l desktest.Shown) bool { return plain(l.Sentence) == "B is 2.2 tones darker" })
	e.Focus()
	e.row("Keys while you paint")
	kept("that they are off", `"keys_everywhere": false`)
	e.painter.LetGoKey(firstKeySym+1, withCtrlAlt)
	e.Server.WaitFor("the keys given back", e.free)
	e.Quit()
}

// A followed window's spots lie where its inside is, wherever that is.
func TestKeysEverywhereInAFollowedWindow(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1200, WindowManager: true})
	e := &everywhere{painter: server.Painter()}
	e.painting = patchesAs(server, e.painter, "A painting")
	e.other = e.painter.Window(image.Rect(40, 700, 400, 900), 0x2080d0)
	e.Window = desktest.OpenOn(t, server, `{"version": 1, "place": {"x": 600, "y": 500, "width": 380, "height": 600}, "keys_everywhere": true, "window": {"title": "A painting", "class": "Painter"}}`, nil)
	e.WaitFor("the window's inside", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) })
	e.painter.Move(e.painting, image.Pt(300, 100))
	at := image.Pt(300, 100)
	server.WaitFor("the painting where it was put", func() bool {
		return strings.Contains(server.Ask("xwininfo", "-id", fmt.Sprint(e.painting)), fmt.Sprintf("Absolute upper-left X:  %d", at.X))
	})
	e.elsewhere()
	e.heard()
	e.keyAt(at.Add(desktest.LeftPatch), "ctrl+alt+1")
	e.keyAt(at.Add(desktest.RightPatch), "ctrl+alt+2")
	e.WaitFor("both spots", func(l desktest.Shown) bool { return plain(l.Sentence) == "B is 2.2 tones darker" })
	e.keyAt(image.Pt(100, 800), "ctrl+alt+2") // on the other program's window
	e.WaitFor("B fixed", func(l desktest.Shown) bool {
		return codes(l)[1] == "#2080d0" && strings.Contains(l.Message, "B is fixed")
	})
	e.Quit()
}
