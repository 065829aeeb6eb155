package main

import (
	"bufio"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/godbus/dbus/v5"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// busConfig is a session bus that starts nothing by itself. Source: dbus-daemon(1).
const busConfig = `<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN" "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig><type>session</type><listen>unix:dir=%</listen><auth>EXTERNAL</auth>
<policy context="default"><allow send_destination="*"/><allow receive_sender="*"/><allow own="*"/><allow user="*"/></policy></busconfig>`

// bus starts a session bus of the test's own and returns its address.
func bus(t *testing.T) string {
	t.Helper()
	if _, err := exec.LookPath("dbus-daemon"); err != nil {
		if os.Getenv("TONEDESK_NEED_X") == "1" {
			t.Fatal("dbus-daemon is needed and not installed: run make setup")
		}
		t.Skip("dbus-daemon is not installed")
	}
	dir := t.TempDir()
	config := filepath.Join(dir, "bus.conf")
	if err := os.WriteFile(config, []byte(strings.Replace(busConfig, "%", dir, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("dbus-daemon", "--config-file="+config, "--nofork", "--nopidfile", "--print-address")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = cmd.Wait() })
	address, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(address)
}

// trayHost shows trays, as a desktop's panel does.
type trayHost struct {
	bus   *dbus.Conn
	items chan dbus.BusObject // the menus of the entries that came
}

// RegisterStatusNotifierItem is called by an entry that wants to be shown.
func (h *trayHost) RegisterStatusNotifierItem(_ string, from dbus.Sender) *dbus.Error {
	h.items <- h.bus.Object(string(from), "/StatusNotifierMenu")
	return nil
}

// showTrays has a tray shown on the bus.
func showTrays(t *testing.T, address string) *trayHost {
	t.Helper()
	conn, err := dbus.Connect(address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	h := &trayHost{bus: conn, items: make(chan dbus.BusObject, 8)}
	const name = "org.kde.StatusNotifierWatcher"
	if err := conn.Export(h, "/StatusNotifierWatcher", name); err != nil {
		t.Fatal(err)
	}
	if got, err := conn.RequestName(name, dbus.NameFlagDoNotQueue); err != nil || got != dbus.RequestNameReplyPrimaryOwner {
		t.Fatalf("the name of who shows trays: %v, %v", got, err)
	}
	return h
}

// entry waits for one and returns its menu.
func (h *trayHost) entry(w *desktest.Window) (menu dbus.BusObject) {
	w.T.Helper()
	w.Server.WaitFor("the entry in the tray", func() bool {
		select {
		case menu = <-h.items:
		default:
		}
		return menu != nil
	})
	return menu
}

// entry is one of a menu, as com.canonical.dbusmenu has it.
type entry struct {
	ID       int32
	Is       map[string]dbus.Variant
	Children []dbus.Variant
}

// choose has an entry of the menu chosen, by its words, until something has come of it: one that is
// chosen while the toolkit still hands on the one before is lost, which no hand is quick enough for.
func choose(w *desktest.Window, menu dbus.BusObject, words string, then func(desktest.Shown) bool) {
	w.T.Helper()
	var clicked time.Time
	w.Server.WaitFor("what comes of "+words, func() bool {
		lines := w.Lines()
		if !clicked.IsZero() && then(lines[len(lines)-1]) {
			return true
		}
		if time.Since(clicked) > 5*time.Second && click(w, menu, words) {
			clicked = time.Now()
		}
		return false
	})
}

// click clicks an entry of the menu, and reports whether it is there.
func click(w *desktest.Window, menu dbus.BusObject, words string) bool {
	w.T.Helper()
	var revision uint32
	var root entry
	if err := menu.Call("com.canonical.dbusmenu.GetLayout", 0, int32(0), int32(-1), []string{}).Store(&revision, &root); err != nil {
		return false
	}
	for _, child := range root.Children {
		var e entry
		if err := dbus.Store([]any{child.Value()}, &e); err != nil {
			w.T.Fatal(err)
		}
		if e.Is["label"].Value() == words {
			return menu.Call("com.canonical.dbusmenu.Event", 0, e.ID, "clicked", dbus.MakeVariant(""), uint32(0)).Err == nil
		}
	}
	return false
}

// seen reports whether the window is on the screen.
func seen(w *desktest.Window) bool {
	out, _ := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
	return strings.TrimSpace(out) == w.ID
}

const withTray = `{"version": 1, "tray": true, "region": {"x": 40, "y": 60, "width": 480, "height": 320}, "place": {"x": 600, "y": 40, "width": 380, "height": 700}}`

// By its entry in the tray the window is hidden and shown, freezes, keeps a still and quits.
func TestWindowTray(t *testing.T) {
	address := bus(t)
	trays := showTrays(t, address)
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, withTray, []string{"DBUS_SESSION_BUS_ADDRESS=" + address})
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	menu := trays.entry(w)
	choose(w, menu, "Freeze, or resume", func(l desktest.Shown) bool { return l.Frozen })
	choose(w, menu, "Freeze, or resume", func(l desktest.Shown) bool { return !l.Frozen })
	choose(w, menu, "Keep a still", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Kept as a still") })
	choose(w, menu, "Show or hide the window", func(desktest.Shown) bool { return !seen(w) })
	choose(w, menu, "Show or hide the window", func(desktest.Shown) bool { return seen(w) })
	server.WaitFor("the way out", func() bool {
		click(w, menu, "Quit")
		_, ended := w.Ended(time.Second)
		return ended
	})
	if err := w.Wait(); err != nil || w.Said() != "" {
		t.Errorf("it ended with %v, and said %q", err, w.Said())
	}
}

// A tray that is shown only later gets the entry then; one that is not wished for never comes.
func TestWindowTrayLater(t *testing.T) {
	address := bus(t)
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, withTray, []string{"DBUS_SESSION_BUS_ADDRESS=" + address})
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 && l.Message == "" })
	trays := showTrays(t, address)
	choose(w, trays.entry(w), "Freeze, or resume", func(l desktest.Shown) bool { return l.Frozen })
	w.Quit()

	w = desktest.OpenOn(t, server, desktest.WatchPatches, []string{"DBUS_SESSION_BUS_ADDRESS=" + address})
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	w.Quit()
	if len(trays.items) > 0 {
		t.Error("an entry came that nobody wished for")
	}
}

// Without a session bus, or with one that is broken, the window opens and ends as ever, and says nothing.
func TestWindowTrayWithoutBus(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	for name, address := range map[string]string{"none": "unix:path=/nonexistent/bus", "no address": "nonsense"} {
		t.Run(name, func(t *testing.T) {
			w := desktest.OpenOn(t, server, withTray, []string{"DBUS_SESSION_BUS_ADDRESS=" + address})
			l := w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
			w.Quit()
			if l.Message != "" || w.Said() != "" {
				t.Errorf("it shows %q, and said %q", l.Message, w.Said())
			}
		})
	}
}
