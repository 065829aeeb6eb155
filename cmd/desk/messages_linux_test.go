package main

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// What libraries say where there is no message bus and no authority file is kept for its
// owner, and is nowhere else; that quit checks.
func TestWindowKeepsMessages(t *testing.T) {
	server, _, _ := screenWithPatches(t)
	w := openOn(t, server, watchPatches, []string{"DBUS_SESSION_BUS_ADDRESS=unix:path=/nowhere/bus", "XAUTHORITY=/nowhere/authority"})
	w.waitFor("the screen", func(l shownLine) bool { return l.Bounds.Dx() == 480 })
	w.quit()
	info, err := os.Stat(w.messagesPath())
	if err != nil {
		t.Fatal(err)
	}
	if info.Mode().Perm() != 0o600 {
		t.Errorf("its mode is %v", info.Mode())
	}
	if m := w.messages(); !strings.Contains(m, "xgb: Could not get authority info") || strings.Contains(m, "locale") {
		t.Errorf("it holds\n%s", m)
	}
}

// Where the toolkit can't draw it would wait for ever, and tells the log alone.
func TestWindowWithoutOpenGL(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Args: []string{"-extension", "GLX"}})
	home := t.TempDir()
	var fault bytes.Buffer
	cmd := exec.Command(builtProgram(t))
	cmd.Env = append(server.Env(), "HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home, "XDG_CACHE_HOME="+home, "XDG_STATE_HOME="+home)
	cmd.Stderr = &fault
	if err := cmd.Run(); err == nil {
		t.Error("it ended well")
	}
	e := ended{err: fault.String()}
	e.plainErrors(t, 1)
	if !strings.Contains(e.err, "OpenGL") {
		t.Errorf("it says %q", e.err)
	}
}
