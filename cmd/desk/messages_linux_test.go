package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// What libraries say where there is no message bus and no authority file is kept for its
// owner, and is nowhere else; that quit checks.
func TestWindowKeepsMessages(t *testing.T) {
	server, _, _ := desktest.ScreenWithPatches(t)
	w := desktest.OpenOn(t, server, desktest.WatchPatches, []string{"DBUS_SESSION_BUS_ADDRESS=unix:path=/nowhere/bus", "XAUTHORITY=/nowhere/authority"})
	w.WaitFor("the screen", func(l desktest.Shown) bool { return l.Bounds.Dx() == 480 })
	w.Quit()
	info, err := os.Stat(w.MessagesPath())
	if err != nil {
		t.Fatal(err)
	}
	if info.Mode().Perm() != 0o600 && !desktest.Foreign() {
		t.Errorf("its mode is %v", info.Mode())
	}
	if m := w.Messages(); !strings.Contains(m, "xgb: Could not get authority info") || strings.Contains(m, "locale") {
		t.Errorf("it holds\n%s", m)
	}
}

// Where the toolkit can't draw it would wait for ever, and tells the log alone.
func TestWindowWithoutOpenGL(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Args: []string{"-extension", "GLX"}})
	home := t.TempDir()
	var fault bytes.Buffer
	cmd := exec.Command(desktest.Program(t))
	cmd.Env = append(server.Env(), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home, "XDG_CACHE_HOME="+home, "XDG_STATE_HOME="+home)
	cmd.Stderr = &fault
	if err := cmd.Run(); err == nil {
		t.Error("it ended well")
	}
	e := desktest.Ended{Err: fault.String()}
	e.PlainErrors(t, 1)
	if !strings.Contains(e.Err, "OpenGL") {
		t.Errorf("it says %q", e.Err)
	}
}
