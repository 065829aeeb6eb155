package desktest

import (
	"testing"

	"app.tonedesk/capture"
	"app.tonedesk/capture/xvfbtest"
)

// Screen is a way to read a server's screen back, until the test ends or it is closed. A
// process has one at a time.
func Screen(t testing.TB, server *xvfbtest.Server) capture.Backend {
	t.Helper()
	backend, err := capture.Pick(func(name string) string {
		if name == "DISPLAY" {
			return server.Display
		}
		return ""
	})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = backend.Close() })
	return backend
}
