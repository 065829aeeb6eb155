//go:build cgo

package pipewiretest

import (
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"
)

// needVariable is 1 where a test that can't have its server fails.
const needVariable = "TONEDESK_NEED_X"

// patience is how long a server or a picture may take, far more than a busy machine needs.
const patience = 20 * time.Second

// Server is a PipeWire server of a test's own, with a session manager that joins sources to who asks
// for them.
type Server struct {
	t      testing.TB
	socket string
	server *exec.Cmd
}

// Start starts a server, which ends with the test. The test is skipped where it isn't installed.
func Start(t testing.TB) *Server {
	t.Helper()
	for _, name := range []string{"dbus-daemon", "pipewire", "wireplumber"} {
		if _, err := exec.LookPath(name); err != nil {
			if os.Getenv(needVariable) == "1" {
				t.Fatalf("%s is needed and not installed: run make setup", name)
			}
			t.Skipf("%s is not installed: install Debian's dbus-daemon, pipewire and wireplumber to try this", name)
		}
	}
	dir, err := os.MkdirTemp("", "pw") // a socket's path is short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	s := &Server{t: t, socket: filepath.Join(dir, "pipewire-0")}
	bus := filepath.Join(dir, "bus")
	env := append(os.Environ(), "XDG_RUNTIME_DIR="+dir, "PIPEWIRE_RUNTIME_DIR="+dir, "PIPEWIRE_REMOTE=pipewire-0", "XDG_CONFIG_HOME="+dir, "XDG_STATE_HOME="+dir,
		"HOME="+dir, "DBUS_SESSION_BUS_ADDRESS=unix:path="+bus)
	s.run(env, "dbus-daemon", "--session", "--nofork", "--nopidfile", "--address=unix:path="+bus)
	s.WaitFor("the bus", func() bool { return answers(bus) })
	s.server = s.run(env, "pipewire")
	s.WaitFor("the server", func() bool { return answers(s.socket) })
	s.run(env, "wireplumber")
	return s
}

// answers reports whether somebody takes connections at a socket.
func answers(socket string) bool {
	c, err := net.Dial("unix", socket)
	return err == nil && c.Close() == nil
}

// run starts a program that ends with the test, or with this process.
func (s *Server) run(env []string, name string, args ...string) *exec.Cmd {
	s.t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Env, cmd.SysProcAttr = env, &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	started, ended := make(chan error), make(chan struct{})
	go func() { // the system ends the child when the thread that started it does
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		started <- cmd.Start()
		if cmd.Process != nil {
			_ = cmd.Wait()
		}
		close(ended)
	}()
	if err := <-started; err != nil {
		s.t.Fatalf("start %s: %v", name, err)
	}
	s.t.Cleanup(func() {
		_ = cmd.Process.Kill()
		<-ended
	})
	return cmd
}

// Kill ends the server.
func (s *Server) Kill() { _ = s.server.Process.Kill() }

// Socket returns a new connection to the server, as the number of its file, which is the caller's.
func (s *Server) Socket() int {
	s.t.Helper()
	c, err := net.Dial("unix", s.socket)
	if err != nil {
		s.t.Fatal(err)
	}
	defer c.Close()
	f, err := c.(*net.UnixConn).File()
	if err != nil {
		s.t.Fatal(err)
	}
	defer f.Close()
	fd, err := syscall.Dup(int(f.Fd()))
	if err != nil {
		s.t.Fatal(err)
	}
	if err := syscall.SetNonblock(fd, true); err != nil {
		s.t.Fatal(err)
	}
	return fd
}

// WaitFor asks again and again until ok, and fails the test if that takes too long.
func (s *Server) WaitFor(what string, ok func() bool) {
	s.t.Helper()
	for end := time.Now().Add(patience); !ok(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			s.t.Fatalf("waited in vain for %s", what)
		}
	}
}
