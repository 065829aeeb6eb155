package main

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"app.tonedesk/capture/pipewire"
	"app.tonedesk/capture/wayland/waylandtest"
	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
	"app.tonedesk/gui/wording"
)

// besidePatches is where the window lies, at the first start.
const besidePatches = `{"version": 1, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`

// waylandScreen is an X server that is taken for that of a Wayland session's old programs, as its
// monitor's name says.
func waylandScreen(t *testing.T) *xvfbtest.Server {
	t.Helper()
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	server.Run("xrandr", "--setmonitor", "XWAYLAND0", "1024/270x800/210+0+0", "screen")
	return server
}

// noPortal is an environment without a session's bus, and with a compositor.
func noPortal(sway *waylandtest.Sway) []string {
	return []string{"DBUS_SESSION_BUS_ADDRESS=unix:path=/nowhere/bus", "WAYLAND_DISPLAY=" + sway.Socket, "XDG_RUNTIME_DIR=" + filepath.Dir(sway.Socket)}
}

// whatToInstall is what the window says where nothing shares the screen: of two that are missing the first.
func whatToInstall() string {
	if pipewire.Loads() != nil {
		return "install libpipewire (on Debian libpipewire-0.3-0) and start Tonedesk again, or follow an X11 window"
	}
	return "install xdg-desktop-portal and the one for your desktop, log in again, or follow an X11 window"
}

// Without a portal the compositor's own screen is read: shared at once where it is alone, with a spot, a
// change, and a part; at the next start it comes back; and its end is said.
func TestWindowReadsCompositor(t *testing.T) {
	sway := waylandtest.StartSway(t, 1, "output HEADLESS-1 mode 480x320")
	sway.Show("HEADLESS-1", desktest.Patches(desktest.LightSkin, desktest.ShadowSkin))
	server := waylandScreen(t)
	w := desktest.OpenOn(t, server, besidePatches, noPortal(sway))
	w.Choose("The screen, or any window")
	all := image.Rect(0, 0, 480, 320)
	w.WaitFor("the screen", func(l desktest.Shown) bool { return l.Bounds == all && l.Menu == nil })
	w.Click(desktest.LeftPatch)
	w.WaitFor("spot A on the light patch", lightSpot)
	sway.Show("HEADLESS-1", desktest.Patches(color.NRGBA{0x20, 0x80, 0xd0, 255}, desktest.ShadowSkin))
	w.WaitFor("the change", func(l desktest.Shown) bool { return len(l.Spots) == 1 && l.Spots[0].Colour == "#2080d0" })
	w.Key("w")
	(&hands{Window: w}).drag(image.Pt(100, 40), image.Pt(300, 240))
	part := w.WaitFor("a part", func(l desktest.Shown) bool { return l.Bounds.Dx() < 250 && l.Bounds.Dx() > 190 }).Bounds
	w.Quit()
	for _, name := range []string{"settings.json", "screen-token"} {
		if info, err := os.Stat(filepath.Join(w.Home, "tonedesk", name)); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: %v, %v", name, info, err)
		}
	}

	again := desktest.OpenIn(t, server, w.Home, "", noPortal(sway))
	again.WaitFor("the part at the next start", func(l desktest.Shown) bool {
		return l.Bounds == part && len(l.Spots) == 1 && l.Spots[0].Colour == "#2080d0"
	})
	sway.Kill()
	again.WaitFor("the end", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Nothing is shared") })
	again.Key("r")
	again.WaitFor("what to do", func(l desktest.Shown) bool {
		return strings.Contains(plain(l.Message), whatToInstall())
	})
	again.Quit()
}

// Of a compositor's several screens the painter chooses one in the window.
func TestWindowChoosesScreen(t *testing.T) {
	sway := waylandtest.StartSway(t, 2, "output HEADLESS-1 mode 640x400", "output HEADLESS-2 mode 480x320")
	sway.Show("HEADLESS-2", desktest.Patches(desktest.LightSkin, desktest.ShadowSkin))
	w := desktest.OpenOn(t, waylandScreen(t), besidePatches, noPortal(sway))
	w.Key("r")
	w.Choose("HEADLESS-2")
	w.WaitFor("that screen", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) && l.Menu == nil })
	w.Click(desktest.LeftPatch)
	w.WaitFor("spot A on the light patch", lightSpot)
	w.Key("r")
	w.Choose("HEADLESS-1")
	w.WaitFor("the other", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 640, 400) })
	w.Quit()
}

// Where neither a portal nor the compositor gives anything, a window of an X11 program is followed, which
// the painter may choose by hand; and a sentence says what to install.
func TestWindowWithoutAnyWayToTheScreen(t *testing.T) {
	server := waylandScreen(t)
	painter := server.Painter()
	patchesAs(server, painter, "A painting")
	w := desktest.OpenOn(t, server, besidePatches, []string{"DBUS_SESSION_BUS_ADDRESS=unix:path=/nowhere/bus", "WAYLAND_DISPLAY=/nowhere/wayland"})
	w.Choose("The screen, or any window")
	w.WaitFor("what to install", func(l desktest.Shown) bool {
		return strings.Contains(plain(l.Message), whatToInstall())
	})
	w.Press("Source")
	w.WaitFor("both ways on offer", func(l desktest.Shown) bool {
		_, window := desktest.Named(l.Menu, "Follow a window")
		_, share := desktest.Named(l.Menu, wording.ShareScreen.String())
		_, region := desktest.Named(l.Menu, "Choose a region")
		return window && share && !region
	})
	w.Choose("Follow a window")
	w.Choose("A painting")
	w.WaitFor("the window's inside", func(l desktest.Shown) bool { return l.Bounds == image.Rect(0, 0, 480, 320) && l.Menu == nil })
	w.Click(desktest.LeftPatch)
	w.WaitFor("spot A on the light patch", lightSpot)
	w.Quit()
}

// What the desktop does not do for windows isn't offered: with nobody who keeps windows above others, neither
// at the first start nor in the menu.
func TestWindowOffersNoStayingOnTop(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800})
	server.Run("xrandr", "--setmonitor", "XWAYLAND0", "1024/270x800/210+0+0", "screen")
	w := desktest.OpenOn(t, server, besidePatches, []string{"DBUS_SESSION_BUS_ADDRESS=unix:path=/nowhere/bus", "WAYLAND_DISPLAY=/nowhere/wayland"})
	w.WaitFor("its width", func(l desktest.Shown) bool { p, is := desktest.Named(l.Bar, "Menu"); return is && p.Box[0] > 300 })
	w.Press("Menu")
	l := w.WaitFor("the menu", func(l desktest.Shown) bool { _, is := desktest.Named(l.Menu, "Undo"); return is })
	if _, is := desktest.Named(l.Menu, "Stay on top"); is {
		t.Error("the menu offers to stay on top")
	}
	w.Quit()
}
