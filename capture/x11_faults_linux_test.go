package capture

import (
	"bytes"
	"context"
	"errors"
	"image"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// impatient is how long the tests wait for a server that they have stopped.
const impatient = 100 * time.Millisecond

// hurried returns a context that soon ends.
func hurried(t testing.TB) context.Context {
	ctx, cancel := context.WithTimeout(context.Background(), impatient)
	t.Cleanup(cancel)
	return ctx
}

func TestX11ServerKilled(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	b := openTest(t, server)
	s := openRegion(t, b, image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	before := bytes.Clone(f.Pix)
	server.Kill()
	for range 3 {
		if _, err := s.Grab(bounded(t), &f); !errors.Is(err, ErrDisconnected) {
			t.Errorf("Grab: %v, want ErrDisconnected", err)
		}
	}
	if !bytes.Equal(f.Pix, before) {
		t.Error("the last frame has changed")
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	if _, err := b.Open(bounded(t), image.Rectangle{}); !errors.Is(err, ErrNoDisplay) {
		t.Errorf("Open without a server: %v, want ErrNoDisplay", err)
	}
}

// A server that comes back under the same name is read again over a new connection.
func TestX11ServerComesBack(t *testing.T) {
	first := xvfbtest.Start(t, xvfbtest.Options{})
	b := openTest(t, first)
	s := openRegion(t, b, image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	first.Kill()
	if _, err := s.Grab(bounded(t), &f); !errors.Is(err, ErrDisconnected) {
		t.Fatalf("Grab: %v, want ErrDisconnected", err)
	}
	s.Close()
	second := xvfbtest.Start(t, xvfbtest.Options{Display: first.Display, Width: 320, Height: 200, Depth: 16})
	second.Painter().Fill(image.Rect(0, 0, 320, 200), 0xf800)
	s = openRegion(t, b, image.Rectangle{})
	grab(t, s, &f, true)
	if f.Size != image.Pt(320, 200) || at(f, 1, 1) != [3]byte{255, 0, 0} {
		t.Errorf("frame of %v, %v; want red of 320x200", f.Size, at(f, 1, 1))
	}
}

func TestX11ServerStopped(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	painter.Fill(image.Rect(0, 0, 640, 480), 0x111111)
	b := openTest(t, server)
	s := openRegion(t, b, image.Rect(0, 0, 64, 64))
	var f Frame
	grab(t, s, &f, true)
	server.Stop()
	for range 3 {
		_, err := s.Grab(hurried(t), &f)
		if !errors.Is(err, ErrNotAnswering) || !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("Grab: %v, want ErrNotAnswering and the context's", err)
		}
	}
	if _, err := b.Open(hurried(t), image.Rectangle{}); !errors.Is(err, ErrNotAnswering) {
		t.Errorf("Open: %v, want ErrNotAnswering", err)
	}
	if at(f, 1, 1) != [3]byte{0x11, 0x11, 0x11} {
		t.Errorf("frame in hand: %v", at(f, 1, 1))
	}
	server.Continue()
	painter.Fill(image.Rect(0, 0, 640, 480), 0x222222)
	grab(t, s, &f, true) // a new request, not the late answer to the old one
	if at(f, 1, 1) != [3]byte{0x22, 0x22, 0x22} {
		t.Errorf("after the stop: %v", at(f, 1, 1))
	}
	openRegion(t, b, image.Rectangle{})
}

// Closing doesn't wait for a stopped server, and the backend can be opened anew.
func TestX11CloseWhileStopped(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	b := openTest(t, server)
	s := openRegion(t, b, image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	server.Stop()
	if _, err := s.Grab(hurried(t), &f); !errors.Is(err, ErrNotAnswering) {
		t.Fatalf("Grab: %v", err)
	}
	s.Close()
	b.Close()
	if _, err := b.Open(bounded(t), image.Rectangle{}); !errors.Is(err, ErrClosed) {
		t.Errorf("Open after Close: %v, want ErrClosed", err)
	}
	server.Continue()
	grab(t, openRegion(t, openTest(t, server), image.Rectangle{}), &f, true)
}

func TestX11ServerGrabbed(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	s := openRegion(t, openTest(t, server), image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	painter.Grab()
	if _, err := s.Grab(hurried(t), &f); !errors.Is(err, ErrNotAnswering) {
		t.Errorf("Grab: %v, want ErrNotAnswering", err)
	}
	painter.Ungrab()
	grab(t, s, &f, false)
}

// 6,000 events are more than the client library keeps (5,000): undrained they would
// stop every reply.
func TestX11EventFlood(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	painter := server.Painter()
	s := openRegion(t, openTest(t, server), image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	painter.Flood(6000)
	painter.Fill(image.Rect(0, 0, 9, 9), 0xabcdef)
	grab(t, s, &f, true)
}

// Over TCP no memory is shared: the picture comes over the wire.
func TestX11OverTCP(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{Args: []string{"-listen", "tcp"}})
	painter := server.Painter()
	painter.Fill(image.Rect(0, 0, 640, 480), 0x336699)
	number, err := strconv.Atoi(strings.TrimPrefix(server.Display, ":"))
	if err != nil {
		t.Fatal(err)
	}
	probe, err := net.DialTimeout("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(6000+number)), time.Second)
	if err != nil {
		t.Fatalf("the server doesn't listen on loopback: %v", err)
	}
	probe.Close()
	b, err := openX11("127.0.0.1" + server.Display)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	checkWire(t, painter, b)
}

// checkWire checks that b reads the painter's changes, without shared memory.
func checkWire(t *testing.T, painter *xvfbtest.Painter, b Backend) {
	t.Helper()
	s := openRegion(t, b, image.Rect(10, 10, 75, 40))
	var f Frame
	grab(t, s, &f, true)
	if s.(*x11Stream).shared {
		t.Error("memory is shared")
	}
	grab(t, s, &f, false)
	if at(f, 64, 29) != [3]byte{0x33, 0x66, 0x99} {
		t.Errorf("colour %v", at(f, 64, 29))
	}
	old := f
	painter.Fill(image.Rect(0, 0, 640, 480), 0x010203)
	grab(t, s, &f, true)
	if at(f, 0, 0) != [3]byte{1, 2, 3} || at(old, 0, 0) != [3]byte{0x33, 0x66, 0x99} {
		t.Errorf("new %v, old %v", at(f, 0, 0), at(old, 0, 0))
	}
}

// ownNamespace skips the test where it can't give a child its own IPC namespace.
func ownNamespace(t *testing.T) {
	t.Helper()
	if err := exec.Command("unshare", "-i", "true").Run(); err != nil {
		t.Skipf("needs root and unshare: %v", err)
	}
}

// A server in another IPC namespace (a container) can't have our memory.
func TestX11OtherNamespace(t *testing.T) {
	ownNamespace(t)
	server := xvfbtest.Start(t, xvfbtest.Options{Prefix: []string{"unshare", "-i"}})
	painter := server.Painter()
	painter.Fill(image.Rect(0, 0, 640, 480), 0x336699)
	checkWire(t, painter, openTest(t, server))
}

const childVariable = "TONEDESK_TEST_CHILD_DISPLAY"

// In another namespace the same number may be another segment, which the server
// attaches without an error: the picture would be black. Both sides get new
// namespaces here, so that both count from 0, and the server's has segments.
func TestX11NamesakeSegment(t *testing.T) {
	ownNamespace(t)
	if _, err := exec.LookPath("ipcmk"); err != nil {
		t.Skip("ipcmk is not installed")
	}
	decoys := `for i in 1 2 3 4 5 6 7 8; do ipcmk -M 4194304 >/dev/null || exit 1; done; exec "$0" "$@"`
	server := xvfbtest.Start(t, xvfbtest.Options{Prefix: []string{"unshare", "-i", "sh", "-c", decoys}})
	server.Painter().Fill(image.Rect(0, 0, 640, 480), 0x336699)
	out := runChild(t, server, "TestChildReadsOnce", "unshare", "-i")
	if !strings.Contains(out, "[51 102 153] shared false holders 1") {
		t.Errorf("the child read: %s; want the right colour without sharing, and that the trap was there", out)
	}
}

// runChild runs one test of this binary in a process of its own, with the server as its
// display, and returns what it prints.
func runChild(t *testing.T, server *xvfbtest.Server, test string, prefix ...string) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	args := append(prefix, self, "-test.run=^"+test+"$", "-test.v", "-test.timeout=60s")
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Env = append(server.Env(), childVariable+"="+server.Display)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Errorf("child: %v", err)
	}
	return string(out)
}

// TestChildReadsOnce is a child of TestX11NamesakeSegment.
func TestChildReadsOnce(t *testing.T) {
	display := os.Getenv(childVariable)
	if display == "" {
		t.Skip("runs as a child of another test")
	}
	b, err := openX11(display)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	holders := namesake(t, b.(*x11Backend))
	s := openRegion(t, b, image.Rectangle{})
	var f Frame
	grab(t, s, &f, true)
	t.Logf("%v shared %v holders %d", at(f, 5, 5), s.(*x11Stream).shared, holders)
}

// TestX11LeavesNoSegment kills readers at work and looks for what they leave. Nobody
// but their user may read what they hold.
func TestX11LeavesNoSegment(t *testing.T) {
	server := xvfbtest.Start(t, xvfbtest.Options{})
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		cmd := exec.Command(self, "-test.run=^TestChildReadsOn$", "-test.timeout=60s")
		mark := filepath.Join(t.TempDir(), "mark")
		cmd.Env = append(server.Env(), childVariable+"="+server.Display, "TONEDESK_TEST_MARK="+mark)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		server.WaitFor("the reader", func() bool { _, err := os.Stat(mark); return err == nil })
		modes := segmentsOf(t, cmd.Process.Pid)
		if len(modes) != 2 {
			t.Errorf("a reader at work holds %d segments, want one for each of its two pictures", len(modes))
		}
		for _, mode := range modes {
			if mode != "1600" {
				t.Errorf("segment of mode %s, want 1600", mode)
			}
		}
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		server.WaitFor("the server to let go", func() bool { return len(segmentsOf(t, cmd.Process.Pid)) == 0 })
	}
}

// segmentsOf returns the modes of the shared memory segments that a process has made:
// 600 is read and write for its user alone, 1000 that it goes with its last holder.
// Other processes' segments come and go, and are not counted. Source: proc(5),
// /proc/sysvipc/shm; shmctl(2), SHM_DEST (octal 01000).
func segmentsOf(t *testing.T, pid int) (modes []string) {
	t.Helper()
	b, err := os.ReadFile("/proc/sysvipc/shm")
	if err != nil {
		t.Skipf("no list of segments: %v", err)
	}
	for line := range strings.Lines(string(b)) {
		// key, id, mode, size, maker's process, ...
		if field := strings.Fields(line); len(field) > 4 && field[4] == strconv.Itoa(pid) {
			modes = append(modes, field[2])
		}
	}
	return modes
}

// TestChildReadsOn is a child of TestX11LeavesNoSegment.
func TestChildReadsOn(t *testing.T) {
	display := os.Getenv(childVariable)
	if display == "" {
		t.Skip("runs as a child of another test")
	}
	b, err := openX11(display)
	if err != nil {
		t.Fatal(err)
	}
	s := openRegion(t, b, image.Rectangle{}).(*x11Stream)
	var f Frame
	grab(t, s, &f, true)
	s.unsure = true
	grab(t, s, &f, false) // both pictures have their memory
	if !s.shared {
		t.Fatal("no memory shared")
	}
	if err := os.WriteFile(os.Getenv("TONEDESK_TEST_MARK"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for {
		s.unsure = true // all is read, always
		if _, err := s.Grab(bounded(t), &f); err != nil {
			t.Fatal(err)
		}
	}
}
