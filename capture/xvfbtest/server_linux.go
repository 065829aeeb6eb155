package xvfbtest

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

const (
	needVariable = "TONEDESK_NEED_X" // 1: a test that can't have its server fails; 0: it is skipped
	startTime    = 30 * time.Second  // for a server or a client to begin; far more than a busy machine needs
	endTime      = 5 * time.Second   // for one to end when asked
	pollTime     = 10 * time.Millisecond
)

// Options says what server to start. The zero value is a screen of 640x480, depth 24.
type Options struct {
	Width, Height, Depth int
	Display              string   // the name to take; empty: one of OwnDisplay
	Args                 []string // more arguments of Xvfb
	Prefix               []string // a command that runs Xvfb, such as unshare -i
	WindowManager        bool     // start openbox too
}

// OwnDisplay returns a name that no other server takes, neither while this one starts, nor
// when it is killed. A server that looks for a free name itself counts up from :0, and one
// that ends just then takes the new one's socket away with its own: in one start of 1000,
// where four start and end servers at once (measured).
func OwnDisplay() string {
	const processes, names = 500, 100
	return fmt.Sprintf(":%d", 1000+os.Getpid()%processes*names+int(owned.Add(1))%names)
}

var owned atomic.Int32 // names given by OwnDisplay

// Server is a running Xvfb.
type Server struct {
	Display string // such as ":3"
	t       testing.TB
	number  int
	server  *process
}

// Start starts a server and waits until it takes connections. The test is skipped if
// there is no Xvfb, or if it has no screen of this kind.
func Start(t testing.TB, o Options) *Server {
	t.Helper()
	s := &Server{t: t}
	need(t, "Xvfb")
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer read.Close()
	args := slices.Concat(o.Prefix, o.command(), o.Args)
	cmd := exec.Command(args[0], args[1:]...)
	cmd.ExtraFiles = []*os.File{write}
	cmd.Env = os.Environ()
	s.server, err = run(cmd)
	write.Close()
	if err != nil {
		t.Fatalf("start %v: %v", args, err)
	}
	t.Cleanup(s.end)
	if err := read.SetReadDeadline(time.Now().Add(startTime)); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(read).ReadString('\n')
	if err == nil {
		s.number, err = strconv.Atoi(strings.TrimSpace(line))
	}
	if err != nil {
		t.Fatalf("%v did not start: %v", args, err)
	}
	s.Display = ":" + strconv.Itoa(s.number)
	if o.WindowManager {
		s.startWindowManager()
	}
	return s
}

// command returns what starts Xvfb.
func (o Options) command() []string {
	command := []string{"Xvfb"}
	if o.Display == "" {
		o.Display = OwnDisplay()
	}
	command = append(command, o.Display)
	if o.Width == 0 {
		o.Width, o.Height = 640, 480
	}
	if o.Depth == 0 {
		o.Depth = 24
	}
	return append(command, "-displayfd", "3", "-noreset", "-screen", "0", fmt.Sprintf("%dx%dx%d", o.Width, o.Height, o.Depth))
}

// need skips or fails the test if the program is missing, and skips it where no screens are
// wanted.
func need(t testing.TB, program string) {
	t.Helper()
	if os.Getenv(needVariable) == "0" {
		t.Skip("no screens are wanted")
	}
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv(needVariable) == "1" {
			t.Fatalf("%s is needed and not installed: run make setup", program)
		}
		t.Skipf("%s is not installed", program)
	}
}

// Env returns this process's environment with the server as its display, and
// without what would lead a program elsewhere.
func (s *Server) Env() []string {
	var env []string
	for _, v := range os.Environ() {
		switch name, _, _ := strings.Cut(v, "="); name {
		case "DISPLAY", "TONEDESK_DISPLAY", "WAYLAND_DISPLAY", "XDG_SESSION_TYPE", "XAUTHORITY":
		default:
			env = append(env, v)
		}
	}
	return append(env, "DISPLAY="+s.Display)
}

// startWindowManager starts openbox and waits until it manages windows.
func (s *Server) startWindowManager() {
	s.t.Helper()
	need(s.t, "openbox")
	cmd := exec.Command("openbox", "--sm-disable")
	cmd.Env = append(s.Env(), "XDG_CONFIG_HOME="+s.t.TempDir(), "XDG_CACHE_HOME="+s.t.TempDir(), "XDG_DATA_HOME="+s.t.TempDir())
	wm, err := run(cmd)
	if err != nil {
		s.t.Fatalf("start openbox: %v", err)
	}
	s.t.Cleanup(wm.end)
	s.Painter().do("manage")
}

// Run runs a program on the server and returns what it prints. Its failure is the test's.
func (s *Server) Run(name string, args ...string) string {
	s.t.Helper()
	need(s.t, name)
	ctx, cancel := context.WithTimeout(context.Background(), startTime)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = s.Env()
	out, err := cmd.CombinedOutput()
	if err != nil {
		s.t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}

// Launch starts a program on the server and leaves it running until the test ends.
func (s *Server) Launch(name string, args ...string) {
	s.t.Helper()
	need(s.t, name)
	cmd := exec.Command(name, args...)
	cmd.Env = s.Env()
	p, err := run(cmd)
	if err != nil {
		s.t.Fatalf("start %s: %v", name, err)
	}
	s.t.Cleanup(p.end)
}

// WaitFor asks again and again until ok, and fails the test if that takes too long.
func (s *Server) WaitFor(what string, ok func() bool) {
	s.t.Helper()
	for deadline := time.Now().Add(startTime); !ok(); time.Sleep(pollTime) {
		if time.Now().After(deadline) {
			s.t.Fatalf("waited in vain for %s", what)
		}
	}
}

// Kill ends the server at once and waits until it is gone.
func (s *Server) Kill() { s.server.kill() }

// Stop halts the server: it takes connections, and answers nothing.
func (s *Server) Stop() { s.signal(syscall.SIGSTOP) }

// Continue lets a halted server go on.
func (s *Server) Continue() { s.signal(syscall.SIGCONT) }

func (s *Server) signal(sig syscall.Signal) {
	s.t.Helper()
	if err := s.server.cmd.Process.Signal(sig); err != nil {
		s.t.Fatalf("signal %v: %v", sig, err)
	}
}

// end ends the server, and clears away what a killed one leaves.
func (s *Server) end() {
	_ = s.server.cmd.Process.Signal(syscall.SIGCONT) // a halted one can't end
	s.server.end()
	s.clear()
}

// clear removes what a killed server leaves. The lock file tells whether it is still
// ours: the number may be another server's by now.
func (s *Server) clear() {
	lock := fmt.Sprintf("/tmp/.X%d-lock", s.number)
	text, err := os.ReadFile(lock)
	if err != nil || s.Display == "" || strings.TrimSpace(string(text)) != strconv.Itoa(s.server.cmd.Process.Pid) {
		return
	}
	os.Remove(fmt.Sprintf("/tmp/.X11-unix/X%d", s.number))
	os.Remove(lock)
}

// process is a child that ends no later than this process.
type process struct {
	cmd  *exec.Cmd
	done chan struct{}
	once sync.Once
}

// run starts cmd. The system kills the child when the thread that started it ends, so
// one thread is kept for it.
func run(cmd *exec.Cmd) (*process, error) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	p := &process{cmd: cmd, done: make(chan struct{})}
	started := make(chan error)
	go func() {
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := cmd.Start()
		started <- err
		if err == nil {
			_ = cmd.Wait() // how it ends is the test's business
		}
		close(p.done)
	}()
	return p, <-started
}

// end asks the child to end, and makes it if it doesn't.
func (p *process) end() {
	p.once.Do(func() {
		_ = p.cmd.Process.Signal(syscall.SIGTERM)
		select {
		case <-p.done:
		case <-time.After(endTime):
			p.kill()
		}
	})
}

// kill ends the child at once.
func (p *process) kill() {
	_ = p.cmd.Process.Kill()
	<-p.done
}
