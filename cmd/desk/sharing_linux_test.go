package main

import (
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture/pipewire/pipewiretest"
	"app.tonedesk/capture/portal/portaltest"
	"app.tonedesk/capture/wayland/waylandtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// desktop is a session's bus, on which portals come and go, and a screen that one can share.
type desktop struct {
	t       *testing.T
	address string
	server  *pipewiretest.Server
	screen  *pipewiretest.Screen
}

func startDesktop(t *testing.T) *desktop {
	t.Helper()
	d := &desktop{t: t, server: pipewiretest.Start(t), address: portaltest.StartBus(t)}
	d.screen = d.server.Screen(pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(480, 320)})
	return d
}

// env is the environment of a program on it.
func (d *desktop) env() []string {
	return []string{"DBUS_SESSION_BUS_ADDRESS=" + d.address, "WAYLAND_DISPLAY=/nowhere/wayland"}
}

// portal starts one that shares the screen, unless it is set to do another thing.
func (d *desktop) portal(set func(*portaltest.Fake)) *portaltest.Fake {
	return portaltest.StartFake(d.t, d.address, func(f *portaltest.Fake) {
		f.Socket, f.Node = d.server.Socket, d.screen.Node
		if set != nil {
			set(f)
		}
	})
}

// shows shows a colour on the screen until the window has it all over.
func (d *desktop) shows(w *desktest.Window, red, green, blue byte) {
	d.t.Helper()
	code := fmt.Sprintf("#%02x%02x%02x", red, green, blue)
	w.Server.WaitFor("the screen of "+code, func() bool {
		d.screen.Shown(pipewiretest.Shows{Pixel: [4]byte{blue, green, red}})
		lines := w.Lines()
		l := lines[len(lines)-1]
		return l.Bounds == image.Rect(0, 0, 480, 320) && (len(l.Spots) == 0 || l.Spots[0].Colour == code)
	})
}

// saying waits for the window to say something.
func saying(w *desktest.Window, words string) {
	w.T.Helper()
	w.WaitFor(words, func(l desktest.Shown) bool { return strings.Contains(plain(l.Message), words) })
}

// What the desktop is asked to share is asked once: the window answers meanwhile, a no is answered by a
// sentence, what is granted is watched, and however that ends is said; the next start needs no question.
func TestWindowSharesByPortal(t *testing.T) {
	d := startDesktop(t)
	silent := d.portal(func(f *portaltest.Fake) { f.Unanswered = "Start" })
	w := desktest.OpenOn(t, waylandScreen(t), besidePatches, d.env())
	w.Choose("The screen, or any window")
	saying(w, wording.SayAsksWhatToShare.String())
	open := func(l desktest.Shown) bool { _, is := desktest.Named(l.Menu, "Follow a window"); return is }
	w.Press("Source")
	w.WaitFor("the sources, while the desktop asks", open)
	w.Key("Escape")
	w.WaitFor("them closed", func(l desktest.Shown) bool { return !open(l) })
	w.Key("r")
	saying(w, wording.SayNothingShared.String())
	w.Server.WaitFor("the question closed", func() bool { return silent.WasClosed("request") || silent.WasClosed("session") })

	w.WaitFor("the note gone", func(l desktest.Shown) bool { return l.Message == "" })
	silent.Gone()
	refusing := d.portal(func(f *portaltest.Fake) { f.Codes = map[string]uint32{"Start": 1} })
	w.Key("r")
	w.Server.WaitFor("the question", func() bool { return refusing.Gave("Start") != nil })
	saying(w, wording.SayNothingShared.String())

	refusing.Gone()
	granting := d.portal(nil)
	w.Key("r")
	d.shows(w, 0xe2, 0xab, 0x85)
	w.Click(image.Pt(200, 120))
	w.WaitFor("spot A", lightSpot)
	d.shows(w, 0x20, 0x80, 0xd0)
	granting.CloseSession()
	saying(w, "Sharing has ended")
	d.screen.Rests() // a real portal has a new source for each session
	w.Key("r")
	d.shows(w, 0xe2, 0xab, 0x85)
	granting.Gone()
	saying(w, "Sharing has ended")
	was := w.Lines()[len(w.Lines())-1].View
	w.Key("1") // it answers
	w.WaitFor("another view", func(l desktest.Shown) bool { return l.View != was })
	w.Quit()
	token := filepath.Join(w.Home, "tonedesk", "screen-token")
	info, err := os.Stat(token)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("the token: %v, %v", info, err)
	}
	kept, err := os.ReadFile(token)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(w.Messages(), strings.TrimSpace(string(kept))) {
		t.Error("the token stands in the log")
	}

	restoring := d.portal(nil)
	d.screen.Rests()
	again := desktest.OpenIn(t, w.Server, w.Home, "", d.env())
	d.shows(again, 0x20, 0x80, 0xd0)
	options, _ := restoring.Gave("SelectSources")[1].(map[string]dbus.Variant)
	if got := options["restore_token"].Value(); got != strings.TrimSpace(string(kept)) {
		t.Errorf("the token given back is %v", got)
	}
	d.server.Kill()
	saying(again, "Sharing has ended")
	again.Quit()
}

// What is shared is read in the colours of the monitor that it lies on, where the desktop says where
// that is; else in those of displays without a name. Source of the lightness of the fullest red and green:
// display_spaces_to_lab.csv (P3 and Rec. 2020, CSS4, CIE15).
func TestSharedScreenHasItsMonitorsColours(t *testing.T) {
	type pair struct{ X, Y int32 }
	d := startDesktop(t)
	placed := d.portal(func(f *portaltest.Fake) {
		f.About = map[string]dbus.Variant{"position": dbus.MakeVariant(pair{}), "size": dbus.MakeVariant(pair{1024, 800})}
	})
	settings := strings.Replace(besidePatches, "{", `{"display_colours": {"XWAYLAND0": {"in": "Display P3"}, "": {"in": "Rec. 2020"}}, `, 1)
	w := desktest.OpenOn(t, waylandScreen(t), settings, d.env())
	read := func(space string, lightness float64) {
		t.Helper()
		w.WaitFor("it in "+space, func(l desktest.Shown) bool {
			return strings.HasPrefix(l.Line, space+", ") && len(l.Spots) == 1 && math.Abs(l.Spots[0].Lightness-lightness) < 0.01
		})
	}
	w.Key("r")
	d.shows(w, 0xff, 0, 0)
	w.Click(image.Pt(200, 120))
	read("Display P3", 54.966557)
	placed.Gone()
	saying(w, "Sharing has ended")
	d.screen.Rests()
	d.portal(func(f *portaltest.Fake) {
		f.About = map[string]dbus.Variant{"position": dbus.MakeVariant(pair{}), "size": dbus.MakeVariant(pair{2048, 1600})}
	})
	w.Key("r")
	d.shows(w, 0, 0xff, 0)
	read("Rec. 2020", 85.906247)
	w.Quit()
}

// Without PipeWire's library the window opens, and says what to install. A file that is no library stands
// where the system looks first.
func TestWindowWithoutPipeWire(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "libpipewire-0.3.so.0"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	address := portaltest.StartBus(t)
	f := portaltest.StartFake(t, address, nil)
	w := desktest.OpenOn(t, waylandScreen(t), besidePatches, []string{"DBUS_SESSION_BUS_ADDRESS=" + address, "WAYLAND_DISPLAY=/nowhere/wayland", "LD_LIBRARY_PATH=" + dir})
	w.Key("r")
	saying(w, "PipeWire's library is not installed; install libpipewire (on Debian libpipewire-0.3-0)")
	if f.Gave("CreateSession") != nil {
		t.Error("the desktop was asked for what can't be taken")
	}
	w.Quit()
}

// TestSharingFigures measures the built window where something is shared, each beside the demo painting in
// the same run, and prints a line for each figure. It runs where TONEDESK_FIGURES is set.
func TestSharingFigures(t *testing.T) {
	if os.Getenv("TONEDESK_FIGURES") == "" {
		t.Skip("TONEDESK_FIGURES is not set")
	}
	t.Run("portal", func(t *testing.T) {
		d := startDesktop(t)
		w := desktest.OpenOn(t, waylandScreen(t), besidePatches, d.env())
		w.ShowDemo()
		demo := idleShare(t, w.Cmd.Process.Pid)
		var took []time.Duration
		for range 5 {
			d.screen = d.server.Screen(pipewiretest.Kind{Pixels: pipewiretest.BGRx, Size: image.Pt(480, 320)}) // a new one for each session, as of a desktop
			f := d.portal(nil)
			w.Key("r")
			w.Server.WaitFor("consent", func() bool { return !f.Granted().IsZero() })
			count := len(w.Lines())
			w.Server.WaitFor("the first picture", func() bool {
				d.screen.Shown(pipewiretest.Shows{Pixel: [4]byte{90, byte(len(took)), 90}}) // as a desktop does from the first on
				return slices.ContainsFunc(w.Lines()[count:], func(l desktest.Shown) bool {
					return l.Event == "shown" && l.Bounds == image.Rect(0, 0, 480, 320)
				})
			})
			took = append(took, time.Since(f.Granted()))
			f.Gone()
			saying(w, "Sharing has ended")
		}
		slices.Sort(took)
		row("consent to the first picture in the window, of five the least, the middle and the most", fmt.Sprintf("%v; %v; %v", took[0].Round(time.Millisecond), took[2].Round(time.Millisecond), took[4].Round(time.Millisecond)), "100 ms")
		d.portal(nil)
		w.Key("r")
		d.shows(w, 1, 2, 3)
		shared := idleShare(t, w.Cmd.Process.Pid)
		row("a shared screen on which nothing moves, share of a core; the demo painting", fmt.Sprintf("%.2f %%; %.2f %%", shared, demo), "as the demo")
		w.Quit()
	})
	t.Run("compositor", func(t *testing.T) {
		sway := waylandtest.StartSway(t, 1, "output HEADLESS-1 mode 1280x720")
		w := desktest.OpenOn(t, waylandScreen(t), besidePatches, noPortal(sway))
		w.ShowDemo()
		demo := idleShare(t, w.Cmd.Process.Pid)
		w.Key("r")
		w.WaitFor("the screen", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 1280, 720) })
		w.WaitFor("it unchanged", func(l desktest.Shown) bool { return strings.Contains(l.Line, "unchanged") })
		before, begun := processor(t, sway.Pid()), time.Now()
		shared := idleShare(t, w.Cmd.Process.Pid)
		compositor := 100 * (processor(t, sway.Pid()) - before).Seconds() / time.Since(begun).Seconds()
		row("a compositor's screen on which nothing moves, share of a core; the demo painting; the compositor", fmt.Sprintf("%.2f %%; %.2f %%; %.2f %%", shared, demo, compositor), "as the demo")
		w.Quit()
	})
}

// idleFor is for how long the processor's time is counted.
const idleFor = 10 * time.Second

// idleShare is a process's share of a core while nothing happens, in percent.
func idleShare(t *testing.T, pid int) float64 {
	t.Helper()
	time.Sleep(3 * time.Second) // what was begun before is over
	return share(t, pid, idleFor, func() { time.Sleep(time.Second) })
}
