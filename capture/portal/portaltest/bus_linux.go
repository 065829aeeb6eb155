package portaltest

import (
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// Patience is how long something may take in a test, far more than a busy machine needs.
const Patience = 20 * time.Second

// StartBus starts a session's bus of the test's own, and returns its address.
func StartBus(t testing.TB) string {
	t.Helper()
	if _, err := exec.LookPath("dbus-daemon"); err != nil {
		if os.Getenv("TONEDESK_NEED_X") == "1" {
			t.Fatal("dbus-daemon is needed and not installed: run make setup")
		}
		t.Skip("dbus-daemon is not installed: install Debian's dbus-daemon to try this")
	}
	dir, err := os.MkdirTemp("", "bus") // a socket's path is short
	if err != nil {
		t.Fatal(err)
	}
	config := filepath.Join(dir, "bus.conf")
	socket := filepath.Join(dir, "bus")
	text := `<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-Bus Bus Configuration 1.0//EN" "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig><type>session</type><listen>unix:path=` + socket + `</listen><auth>EXTERNAL</auth>
<policy context="default"><allow send_destination="*" eavesdrop="true"/><allow eavesdrop="true"/><allow own="*"/></policy></busconfig>`
	if err := os.WriteFile(config, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("dbus-daemon", "--config-file="+config, "--nofork", "--nopidfile")
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		os.RemoveAll(dir)
	})
	WaitFor(t, "the bus", func() bool {
		c, err := net.Dial("unix", socket)
		return err == nil && c.Close() == nil
	})
	return "unix:path=" + socket
}

// WaitFor asks again and again until ok, and fails the test if that takes too long.
func WaitFor(t testing.TB, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(Patience); !ok(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s", what)
		}
	}
}
