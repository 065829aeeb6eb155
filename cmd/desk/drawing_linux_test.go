package main

import (
	"os/exec"
	"testing"

	"app.tonedesk/capture/xvfbtest"
)

// What has changed is drawn before the toolkit's next turn, once: drawing is bound to the toolkit's own
// method by name, and a later toolkit may do something else there.
func TestDrawsAtOnce(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 640, Height: 480})
	cmd := exec.Command(buildEmpty(t), "draws")
	cmd.Env = append(server.Env(), "HOME="+t.TempDir())
	if out, err := cmd.Output(); err != nil || string(out) != "drawn 1\n" {
		t.Errorf("%q, %v, want it drawn once", out, err)
	}
}
