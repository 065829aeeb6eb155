package waylandtest

import (
	"fmt"
	"image"
	"image/png"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"
)

const (
	needVariable = "TONEDESK_NEED_X" // 1: a test that can't have its compositor fails; 0: it is skipped
	patience     = 20 * time.Second  // far more than a busy machine needs
	nobody       = 65534             // sway refuses to run as root
)

// Sway is a running sway whose outputs are pictures in memory, named HEADLESS-1 and so on.
type Sway struct {
	t      testing.TB
	dir    string
	Socket string // of the Wayland session
	server *exec.Cmd
	pics   int
}

// StartSway starts sway with so many outputs, which ends with the test. config is its configuration. The
// test is skipped where it isn't installed.
func StartSway(t testing.TB, outputs int, config ...string) *Sway {
	t.Helper()
	if os.Getenv(needVariable) == "0" {
		t.Skip("no screens are wanted")
	}
	for _, name := range []string{"sway", "swaymsg", "swaybg"} {
		if _, err := exec.LookPath(name); err != nil {
			if os.Getenv(needVariable) == "1" {
				t.Fatalf("%s is needed and not installed: run make setup", name)
			}
			t.Skipf("%s is not installed: install Debian's sway and swaybg to try this", name)
		}
	}
	dir, err := os.MkdirTemp("", "sway") // a socket's path is short
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	s := &Sway{t: t, dir: dir, Socket: filepath.Join(dir, "wayland-1")}
	s.write("config", func(f *os.File) error {
		_, err := f.WriteString("xwayland disable\n" + strings.Join(config, "\n") + "\n")
		return err
	})
	s.server = exec.Command("sway", "-c", filepath.Join(dir, "config"))
	s.server.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + dir, "XDG_RUNTIME_DIR=" + dir, "SWAYSOCK=" + s.control(), "WLR_BACKENDS=headless",
		"WLR_RENDERER=pixman", "WLR_LIBINPUT_NO_DEVICES=1", fmt.Sprintf("WLR_HEADLESS_OUTPUTS=%d", outputs)}
	s.server.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL, Setpgid: true}
	if os.Getuid() == 0 {
		s.server.SysProcAttr.Credential = &syscall.Credential{Uid: nobody, Gid: nobody}
		if err := os.Chown(dir, nobody, nobody); err != nil {
			t.Fatal(err)
		}
	}
	s.start()
	WaitFor(t, "sway", func() bool {
		c, err := net.Dial("unix", s.Socket)
		return err == nil && c.Close() == nil && s.say("-t", "get_version") == nil
	})
	return s
}

// start starts it, and ends it and what it started with the test.
func (s *Sway) start() {
	started, ended := make(chan error), make(chan struct{})
	go func() { // the system ends the child when the thread that started it does
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		started <- s.server.Start()
		if s.server.Process != nil {
			_ = s.server.Wait()
		}
		close(ended)
	}()
	if err := <-started; err != nil {
		s.t.Fatalf("start sway: %v", err)
	}
	s.t.Cleanup(func() {
		_ = syscall.Kill(-s.server.Process.Pid, syscall.SIGKILL)
		<-ended
	})
}

// write writes a file that sway can read.
func (s *Sway) write(name string, fill func(*os.File) error) (path string) {
	s.t.Helper()
	path = filepath.Join(s.dir, name)
	f, err := os.Create(path)
	if err == nil {
		err = fill(f)
	}
	if err == nil {
		err = f.Close()
	}
	if err == nil {
		err = os.Chmod(path, 0o644)
	}
	if err != nil {
		s.t.Fatal(err)
	}
	return path
}

func (s *Sway) control() string { return filepath.Join(s.dir, "control") }

func (s *Sway) say(words ...string) error {
	out, err := exec.Command("swaymsg", append([]string{"-s", s.control()}, words...)...).CombinedOutput()
	if err != nil {
		return fmt.Errorf("swaymsg %v: %w: %s", words, err, out)
	}
	return nil
}

// Do has it do a command, as its manual names them.
func (s *Sway) Do(command string) {
	s.t.Helper()
	if err := s.say(command); err != nil {
		s.t.Fatal(err)
	}
}

// Show shows a picture on an output, stretched to all of it.
func (s *Sway) Show(output string, img image.Image) {
	s.t.Helper()
	s.pics++
	path := s.write(fmt.Sprintf("picture%d.png", s.pics), func(f *os.File) error { return png.Encode(f, img) })
	s.Do(fmt.Sprintf("output %s background %s stretch", output, path))
}

// Pid is the process's number.
func (s *Sway) Pid() int { return s.server.Process.Pid }

// Kill ends it.
func (s *Sway) Kill() { _ = s.server.Process.Kill() }

// WaitFor asks again and again until ok, and fails the test if that takes too long.
func WaitFor(t testing.TB, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); !ok(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s", what)
		}
	}
}
