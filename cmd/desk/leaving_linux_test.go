package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/cmd/desk/desktest"
)

// userEnv is the environment of a user whose files lie in home, on a server's display.
func userEnv(server *xvfbtest.Server, home string, more ...string) []string {
	return append(server.Env(), append([]string{
		"HOME=" + home, "XDG_CONFIG_HOME=" + home, "XDG_DATA_HOME=" + home, "XDG_CACHE_HOME=" + home, "XDG_STATE_HOME=" + home,
	}, more...)...)
}

// A signal that comes while the window opens, when the toolkit does not listen yet, ends the
// program all the same, silently, with nothing left behind.
func TestSignalsWhileTheWindowOpens(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	signals := []syscall.Signal{syscall.SIGTERM, syscall.SIGINT, syscall.SIGHUP}
	var all sync.WaitGroup
	for i := range 9 { // a start takes 0.35 s on an idle machine (measured)
		home, wait := t.TempDir(), time.Duration(100+50*i)*time.Millisecond
		all.Go(func() {
			var fault bytes.Buffer
			cmd := exec.Command(desktest.Program(t), "--trace", filepath.Join(home, "trace"))
			cmd.Env, cmd.Stderr = userEnv(server, home), &fault
			if err := cmd.Start(); err != nil {
				t.Error(err)
				return
			}
			time.AfterFunc(wait, func() { _ = cmd.Process.Signal(signals[i%len(signals)]) }) // when it comes is what is tried
			late := time.AfterFunc(30*time.Second, func() { _ = cmd.Process.Kill() })
			defer late.Stop()
			err, killed := cmd.Wait(), cmd.ProcessState.Sys().(syscall.WaitStatus).Signal()
			if early := killed == signals[i%len(signals)]; err != nil && !early || fault.Len() > 0 { // early: nothing listened yet, nor was there anything to save
				t.Errorf("after %v: %v, it says %q", wait, err, fault.String())
			}
			if log, err := os.ReadFile(filepath.Join(home, "tonedesk", "desk.log")); err == nil && strings.Contains(string(log), "goroutine") {
				t.Errorf("after %v it had to be ended by force:\n%s", wait, log)
			}
		})
	}
	all.Wait()
}

// A window that another program takes away ends the program with a sentence, and what was set
// is kept.
func TestWindowTakenAway(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, nil)
	w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	w.Key("v")
	w.WaitFor("another view", func(l desktest.Shown) bool { return l.View == "layer-grey" })
	w.Do("windowclose", w.ID)
	var exit *exec.ExitError
	if err := w.Wait(); !errors.As(err, &exit) || exit.ExitCode() != command.ExitUnread {
		t.Errorf("it ended with %v, want exit code %d", err, command.ExitUnread)
	}
	if said := w.Said(); strings.Count(said, "\n") != 1 || !strings.Contains(said, "took its window away") {
		t.Errorf("it said %q", said)
	}
	if data, err := os.ReadFile(w.SettingsPath()); err != nil || !strings.Contains(string(data), "layer-grey") {
		t.Errorf("the view is not kept: %v\n%s", err, data)
	}
}

// Displays that are there and can't be drawn on: one sentence.
func TestWindowWithoutContext(t *testing.T) {
	for _, want := range []struct {
		name    string
		options xvfbtest.Options
		env     string
	}{
		{"indirect drawing is off", xvfbtest.Options{}, "LIBGL_ALWAYS_INDIRECT=1"},
		{"an old OpenGL", xvfbtest.Options{}, "MESA_GL_VERSION_OVERRIDE=1.4"},
		{"a window manager, and no GLX", xvfbtest.Options{Args: []string{"-extension", "GLX"}, WindowManager: true}, "LANG=C.UTF-8"},
	} {
		t.Run(want.name, func(t *testing.T) {
			server := xvfbtest.Start(t, want.options)
			e := desktest.RunWith(t, userEnv(server, t.TempDir(), want.env), "")
			e.PlainErrors(t, 1)
			if e.Code != command.ExitUnread || !strings.Contains(e.Err, "OpenGL") {
				t.Errorf("exit %d, it says %q", e.Code, e.Err)
			}
		})
	}
}

// Without a display to open on, what to do stands in one sentence.
func TestWindowSaysWhatDisplayIsMissing(t *testing.T) {
	for want, env := range map[string][]string{
		"start it from your desktop": nil,
		`no display ":9321"`:         {"DISPLAY=:9321"},
		`no display "nowhere"`:       {"DISPLAY=nowhere"},
		"install Xwayland":           {"WAYLAND_DISPLAY=wayland-0"},
	} {
		e := desktest.RunWith(t, env, "")
		e.PlainErrors(t, 1)
		if e.Code != command.ExitUnread || !strings.Contains(e.Err, want) {
			t.Errorf("with %v: exit %d, %q", env, e.Code, e.Err)
		}
	}
}

// markedStill keeps the demo painting as a still, and draws a stroke on it.
func markedStill(w *desktest.Window) desktest.Shown {
	w.T.Helper()
	l := w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Stills" && l.Parts[1] > 100 && l.Event == "shown" })
	w.ClickIn(l.Parts[0]+l.Parts[2]/2, l.Parts[1]+l.Parts[3]/2)
	w.WaitFor("the tools", func(l desktest.Shown) bool { return len(l.Tools) > 0 && l.Tools[0][1] > 100 })
	takeTool(w, 1) // which keeps the picture first
	return stroke(w, 1)
}

// stroke draws one more, of n in the end.
func stroke(w *desktest.Window, n int) desktest.Shown {
	w.T.Helper()
	lines := w.Lines()
	m := lines[len(lines)-1].Mirror
	x, y := m[0]+m[2]/8*float32(n), m[1]+m[3]/4
	w.DragIn(x, y, x+m[2]/10, y+m[3]/5)
	return w.WaitFor(fmt.Sprintf("%d strokes", n), func(l desktest.Shown) bool { return l.Still != nil && len(l.Still.Kinds) == n })
}

// What can't be saved is asked about before the window goes, by keys and by its frame; Esc
// goes on, and once it can be saved it is. Another window's list shows the still by itself.
// Ctrl+O opens one dialog, which Esc closes.
func TestWindowAsksBeforeItLoses(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true})
	home := t.TempDir()
	const settings = `{"version": 1, "page": "Stills", "width": 500, "height": 900}`
	other := desktest.OpenIn(t, xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 1000, WindowManager: true}), home, settings, nil)
	w := desktest.OpenOn(t, server, settings, []string{"XDG_DATA_HOME=" + filepath.Join(home, "data")})
	w.ShowDemo()
	w.WaitFor("the page", func(l desktest.Shown) bool { return l.Page == "Stills" })
	l := markedStill(w)
	id := l.Still.ID
	other.WaitFor("the still in the other window's list", func(l desktest.Shown) bool { return slices.Contains(l.Kept, id) })
	other.Quit()

	lock := filepath.Join(home, "data", "tonedesk", "stills", "lock")
	if err := errors.Join(os.Remove(lock), os.Mkdir(lock, 0o700)); err != nil { // nothing can be saved now
		t.Fatal(err)
	}
	stroke(w, 2)
	w.WaitFor("that it is not saved", func(l desktest.Shown) bool { return strings.Contains(l.Message, "Can't save") })
	for _, keys := range []string{"ctrl+q", "alt+F4"} {
		w.Key(keys)
		w.WaitFor("the question", func(l desktest.Shown) bool { return l.Asks == notSavedTitle })
		w.Key("Escape")
		w.WaitFor("work going on", func(l desktest.Shown) bool { return l.Asks == "" })
	}
	w.Key("ctrl+o", "ctrl+o")
	w.WaitFor("the dialog", func(l desktest.Shown) bool { return l.Asks == "Open the picture" })
	w.Key("Escape")
	w.WaitFor("the window without a dialog", func(l desktest.Shown) bool { return l.Asks == "" })
	if err := os.Remove(lock); err != nil {
		t.Fatal(err)
	}
	w.Key("ctrl+q")
	if err := w.Wait(); err != nil || w.Said() != "" {
		t.Errorf("it ended with %v and said %q", err, w.Said())
	}
	if strings.Contains(w.Messages(), "Failed to focus") {
		t.Errorf("it kept %s", w.Messages())
	}
	notes, err := os.ReadFile(filepath.Join(home, "data", "tonedesk", "stills", id, "notes.json"))
	if err != nil || bytes.Count(notes, []byte(`"stroke"`)) != 2 {
		t.Errorf("saved is %s, %v", notes, err)
	}
	left, err := filepath.Glob(filepath.Join(home, "data", "tonedesk", "stills", ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %q, %v", left, err)
	}
}

// notSavedTitle heads the question.
const notSavedTitle = "Not all is saved"
