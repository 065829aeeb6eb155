package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// The window opens whatever stands in the place of the user's own files, says in one sentence
// what it did not read, and leaves it alone.
func TestWindowWithOddFilesOfItsOwn(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480, WindowManager: true})
	const newer = `{"version": 2, "ground": "light"}`
	for _, tt := range []struct {
		name, says string
		make       func(w *desktest.Window) error // before the start
		same       func(w *desktest.Window) bool  // after the end
	}{
		{"pipes", "a pipe", func(w *desktest.Window) error {
			return errors.Join(syscall.Mkfifo(w.SettingsPath(), 0o600), os.MkdirAll(filepath.Dir(w.MessagesPath()), 0o700), syscall.Mkfifo(w.MessagesPath(), 0o600))
		}, func(w *desktest.Window) bool {
			info, err := os.Lstat(w.SettingsPath())
			return err == nil && info.Mode()&os.ModeNamedPipe != 0
		}},
		{"newer settings", "newer Tonedesk", func(w *desktest.Window) error {
			return os.WriteFile(w.SettingsPath(), []byte(newer), 0o600)
		}, func(w *desktest.Window) bool {
			text, err := os.ReadFile(w.SettingsPath())
			return err == nil && string(text) == newer
		}},
	} {
		w := &desktest.Window{Home: t.TempDir()}
		if err := os.MkdirAll(filepath.Dir(w.SettingsPath()), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := tt.make(w); err != nil {
			t.Fatal(err)
		}
		w = desktest.OpenIn(t, server, w.Home, "", nil)
		l := w.WaitFor("what is wrong", func(l desktest.Shown) bool { return l.Message != "" })
		if !strings.Contains(l.Message, tt.says) || strings.Count(l.Message, ". ") != 0 {
			t.Errorf("%s: it says %q", tt.name, l.Message)
		}
		w.Key("g") // a setting is another now
		if err := w.Cmd.Process.Signal(syscall.SIGTERM); err != nil {
			t.Fatal(err)
		}
		if err := w.Wait(); err != nil {
			t.Errorf("%s: it ended with %v", tt.name, err)
		}
		if !tt.same(w) {
			t.Errorf("%s: what stood in the place of a file is another now", tt.name)
		}
	}
}

// Without a home folder the window says so in a sentence, and leaves nothing where it was
// started.
func TestWindowWithoutHome(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480})
	here := t.TempDir()
	t.Chdir(here)
	e := desktest.RunWith(t, append(server.Env(), "HOME=", "XDG_CONFIG_HOME="), "")
	if e.PlainErrors(t, 1); e.Code != 1 || !strings.Contains(e.Err, "set HOME") {
		t.Errorf("code %d, it says %s", e.Code, e.Err)
	}
	if all, err := os.ReadDir(here); err != nil || len(all) > 0 {
		t.Errorf("it left %v, %v", all, err)
	}
}
