package main

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// pointAt moves the pointer on the screen.
func pointAt(w *desktest.Window, p image.Point) {
	w.T.Helper()
	w.Do("mousemove", fmt.Sprint(p.X), fmt.Sprint(p.Y))
}

// readsNear reports whether the strip reads a colour of a lightness.
func readsNear(l desktest.Shown, hex string, lightness float64) bool {
	got, err := strconv.ParseFloat(l.Pointer.Lightness, 64)
	return err == nil && l.Pointer.Colour == hex && math.Abs(got-lightness) <= 0.05+1e-9
}

// Switched on, what lies under the pointer is read anywhere on the screen, in figures that were
// computed elsewhere, and its tones from spot A; switched off again the display is asked for nothing.
func TestPointerReads(t *testing.T) {
	server, painter, _ := desktest.ScreenWithPatches(t)
	painter.Bare(image.Rect(100, 500, 300, 600), 0xe2ab85) // outside of what is watched
	counter := server.Counter()
	w := desktest.OpenOn(t, server, desktest.WatchPatches, []string{"TONEDESK_DISPLAY=" + counter.Display})
	w.WaitFor("the region", func(l desktest.Shown) bool { return !l.Bounds.Empty() && l.Mirror[2] > 0 })
	w.Click(desktest.Corner(desktest.LeftPatch))
	w.WaitFor("spot A on the light patch", lightSpot)
	// X Window System Protocol, X11R7.7, appendix B: QueryPointer is 38, GetImage 73
	asked := func() int { return counter.Count(38, -1) + counter.Count(73, -1) }
	wander := func() (requests int, looks int64) { // moves the pointer, while what is watched changes five times
		from, before := asked(), newest(w).Pointer.Looks
		for i := range 5 {
			pointAt(w, image.Pt(150+20*i, 550))
			grey := uint8(40 * (i + 1))
			painter.Fill(image.Rect(200, 140, 280, 220).Add(image.Pt(0, 0)), uint32(grey)*0x10101)
			hex := fmt.Sprintf("#%02x%02x%02x", grey, grey, grey)
			w.WaitFor("the patch changed", func(l desktest.Shown) bool { return len(l.Spots) == 1 && l.Spots[0].Colour == hex })
		}
		return asked() - from, newest(w).Pointer.Looks - before
	}
	if requests, looks := wander(); requests != 0 || looks != 0 {
		t.Errorf("while it is off the display is asked %d times, in %d looks", requests, looks)
	}
	painter.Fill(image.Rect(200, 140, 280, 220), 0xe2ab85)
	w.WaitFor("spot A on the light patch again", lightSpot)

	w.Key("p")
	pointAt(w, desktest.Corner(desktest.RightPatch))
	l := w.WaitFor("the dark patch under the pointer", func(l desktest.Shown) bool {
		return readsNear(l, "#b26a5c", desktest.ShadowSkinL) && l.Pointer.Far && l.Pointer.Near
	})
	if l.Pointer.FromA != "−2.2 from\u00a0A" || !l.Pointer.Chip.Empty() { // 2.2: see desktest.ShadowSkin
		t.Errorf("it is %q, the chip at %v", l.Pointer.FromA, l.Pointer.Chip)
	}
	pointAt(w, image.Pt(200, 550))
	w.WaitFor("what is outside of the region under the pointer", func(l desktest.Shown) bool {
		return readsNear(l, "#e2ab85", desktest.LightSkinL) && l.Pointer.FromA == "0.0 from\u00a0A"
	})
	w.Key("c")
	w.WaitFor("its colour copied", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Copied #e2ab85") })

	w.Key("p")
	w.WaitFor("it off", func(l desktest.Shown) bool { return l.Pointer.Lightness == "" && !l.Pointer.Near })
	if requests, looks := wander(); requests > 2 || looks > 1 { // one look may have been under way
		t.Errorf("switched off, the display is asked %d times, in %d looks", requests, looks)
	}
	w.Key("p")
	pointAt(w, image.Pt(210, 555))
	w.WaitFor("a reading", func(l desktest.Shown) bool { return l.Pointer.Colour == "#e2ab85" })
	w.Quit()
}

// chipOn opens the window with the chip beside the pointer.
func chipOn(t *testing.T, server *xvfbtest.Server) *desktest.Window {
	t.Helper()
	return desktest.OpenOn(t, server, strings.TrimSuffix(desktest.WatchPatches, "}")+`, "under_pointer": true, "pointer_chip": true}`, nil)
}

// The chip is on the screen where it is said to lie, shows the colour, follows the pointer into every
// corner, takes no focus, and a click on it reaches what lies below.
func TestChipFollowsAndTakesNoClick(t *testing.T) {
	server, _, painting := desktest.ScreenWithPatches(t)
	w := chipOn(t, server)
	screen := desktest.Screen(t, server)
	var before image.Rectangle
	for _, p := range []image.Point{desktest.Corner(desktest.LeftPatch), {X: 1, Y: 1}, {X: 1023, Y: 799}, {X: 1, Y: 799}, {X: 560, Y: 400}, desktest.Corner(desktest.LeftPatch)} {
		pointAt(w, p)
		var chip image.Rectangle
		server.WaitFor(fmt.Sprintf("the chip at %v", p), func() bool {
			chip = newest(w).Pointer.Chip
			return !chip.Empty() && chip != before && chip == chipOnScreen(w)
		})
		before = chip
		square := image.Rect(-7, -7, 8, 8).Add(p)
		if chip.Overlaps(square) || !chip.In(image.Rect(0, 0, 1024, 800)) || chip.Intersect(image.Rect(-300, -300, 300, 300).Add(p)).Empty() {
			t.Errorf("with the pointer at %v the chip lies at %v", p, chip)
		}
	}
	chip := chipOnScreen(w)
	server.WaitFor("the colour in the chip", func() bool {
		f, err := capture.ReadSquare(t.Context(), screen, chip.Min.Add(image.Pt(10, 10)), 1)
		return err == nil && f.Pix[2] == 0xe2 && f.Pix[1] == 0xab && f.Pix[0] == 0x85
	})
	active := func() string { out, _ := w.Tool("xdotool", "getactivewindow"); return strings.TrimSpace(out) }
	if active() != w.ID {
		t.Errorf("the chip took the focus from %s: it is with %s", w.ID, active())
	}
	// the chip would flee: so the program sleeps while it is clicked
	if err := w.Cmd.Process.Signal(syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
	pointAt(w, chip.Min.Add(chip.Size().Div(2)))
	w.Do("click", "1")
	server.WaitFor("the click in the window below", func() bool { return active() == fmt.Sprint(painting) })
	if got := chipOnScreen(w); got != chip {
		t.Errorf("the chip went from %v to %v", chip, got)
	}
	if err := w.Cmd.Process.Signal(syscall.SIGCONT); err != nil {
		t.Fatal(err)
	}
	w.WaitFor("the chip elsewhere", func(l desktest.Shown) bool { return l.Pointer.Chip != chip && !l.Pointer.Chip.Empty() })
	w.Quit()
	server.WaitFor("no chip any more", func() bool { return chipOnScreen(w).Empty() })
}

// A still of a region on which the chip lies is of the painting alone, and the chip comes back.
func TestStillIsWithoutChip(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := chipOn(t, server)
	pointAt(w, desktest.Corner(desktest.LeftPatch))
	region := image.Rect(0, 0, 480, 320).Add(desktest.Corner(image.Point{}))
	onIt := func() bool {
		chip := chipOnScreen(w)
		return !chip.Empty() && chip.In(region)
	}
	server.WaitFor("the chip on the painting", onIt)
	w.Key("ctrl+s")
	var kept image.Image
	server.WaitFor("the still", func() bool {
		paths, _ := filepath.Glob(filepath.Join(w.Home, "data", "tonedesk", "stills", "2*", "picture.png"))
		if len(paths) != 1 {
			return false
		}
		f, err := os.Open(paths[0])
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		kept, err = png.Decode(f)
		return err == nil
	})
	painted := desktest.Patches(desktest.LightSkin, desktest.ShadowSkin)
	for y := range 320 {
		for x := range 480 {
			if got, want := color.NRGBAModel.Convert(kept.At(x, y)), color.NRGBAModel.Convert(painted.At(x, y)); got != want {
				t.Fatalf("at (%d, %d) the still has %v, painted was %v", x, y, got, want)
			}
		}
	}
	server.WaitFor("the chip again", onIt)
	w.Quit()
}

// newest is what the window shows now.
func newest(w *desktest.Window) desktest.Shown {
	lines := w.Lines()
	return lines[len(lines)-1]
}

// chipOnScreen is where the display says that the chip lies; empty for nowhere.
func chipOnScreen(w *desktest.Window) image.Rectangle {
	out, err := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk: under the pointer$", "getwindowgeometry", "--shell")
	if err != nil {
		return image.Rectangle{}
	}
	var x, y, width, height int
	for line := range strings.Lines(out) {
		name, value, _ := strings.Cut(strings.TrimSpace(line), "=")
		if at := map[string]*int{"X": &x, "Y": &y, "WIDTH": &width, "HEIGHT": &height}[name]; at != nil {
			*at, _ = strconv.Atoi(value)
		}
	}
	return image.Rect(x, y, x+width, y+height)
}

// While the chip goes to and fro over what is watched its figures stay: it is left out wherever it lies
// or has just been, and in the end all is counted again.
func TestChipIsLeftOut(t *testing.T) {
	server, painter, painting := desktest.ScreenWithPatches(t)
	flat := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	for y := range 320 {
		for x := range 480 {
			flat.SetNRGBA(x, y, color.NRGBA{uint8(200 + x%2), uint8(200 + x%2), uint8(200 + x%2), 255})
		}
	}
	painter.Repaint(painting, flat)
	w := chipOn(t, server)
	pointAt(w, image.Pt(300, 700)) // the chip lies outside
	all := w.WaitFor("all counted", func(l desktest.Shown) bool {
		return l.Event == "shown" && l.Counted == 480*320 && !l.Pointer.Chip.Empty() && len(l.Groups) > 0
	})
	seen, least := len(w.Lines()), all.Counted
	for i := range 25 {
		last := newest(w).Pointer.Chip
		pointAt(w, desktest.Corner(image.Pt(20+i*37%400, 20+i*23%250)))
		w.WaitFor("the chip elsewhere", func(l desktest.Shown) bool { return l.Pointer.Chip != last })
	}
	counted := func(what string, ok func(int) bool) {
		server.WaitFor(what, func() bool {
			for _, l := range slices.Backward(w.Lines()) {
				if l.Event == "shown" {
					return ok(l.Counted)
				}
			}
			return false
		})
	}
	counted("a part not counted", func(n int) bool { return n < all.Counted })
	pointAt(w, image.Pt(300, 700))
	counted("all counted again", func(n int) bool { return n == all.Counted })
	for _, l := range w.Lines()[seen:] {
		if l.Event != "shown" {
			continue
		}
		least = min(least, l.Counted)
		if !reflect.DeepEqual(l.Groups, all.Groups) {
			t.Errorf("with the chip at %v the groups are %+v, without it %+v", l.Pointer.Chip, l.Groups, all.Groups)
		}
	}
	if least == all.Counted || least < all.Counted*8/10 {
		t.Errorf("at least %d of %d were counted", least, all.Counted)
	}
	w.Quit()
}
