package xvfbtest

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
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
	Display              string   // the name to take; empty: one that is free
	Args                 []string // more arguments of Xvfb
	Prefix               []string // a command that runs Xvfb, such as unshare -i
	WindowManager        bool     // start openbox too
	Modest               bool     // and have it leave drags with Alt, by which it would move windows, to the programs
}

// ownDisplay returns a name that no other server takes, neither while this one starts, nor
// when it is killed. A server that looks for a free name itself counts up from :0, and one
// that ends just then takes the new one's socket away with its own: in one start of 1000,
// where four start and end servers at once (measured).
func ownDisplay() string {
	const processes, names = 500, 100
	return fmt.Sprintf(":%d", 1000+os.Getpid()%processes*names+int(owned.Add(1))%names)
}

var owned atomic.Int32 // names given by ownDisplay

// Server is a running Xvfb.
type Server struct {
	Display string // such as ":3"
	Managed bool   // has a window manager
	t       testing.TB
	server  *process
}

// Start starts a server and waits until it takes connections. The test is skipped if
// there is no Xvfb, or if it has no screen of this kind.
func Start(t testing.TB, o Options) *Server {
	t.Helper()
	need(t, "Xvfb")
	s := &Server{t: t, Display: o.Display, Managed: o.WindowManager}
	failed := errors.New("no name is free")
	for range namesTried {
		if o.Display == "" {
			s.Display = ownDisplay()
		}
		if failed = s.launch(o); failed == nil || o.Display != "" {
			break
		}
	}
	if failed != nil {
		t.Fatal(failed)
	}
	if o.WindowManager {
		s.startWindowManager(o.Modest)
	}
	return s
}

// namesTried is how many names a server tries that has none: tests of other processes may have some.
const namesTried = 5

// launch starts the server's process, which ends with the test, and waits until it takes connections.
func (s *Server) launch(o Options) error {
	read, write, err := os.Pipe()
	if err != nil {
		return err
	}
	defer read.Close()
	o.Display = s.Display
	args := o.command()
	cmd := exec.Command(args[0], args[1:]...)
	cmd.ExtraFiles = []*os.File{write}
	s.server, err = run(cmd)
	write.Close()
	if err != nil {
		return fmt.Errorf("start %v: %w", args, err)
	}
	err = read.SetReadDeadline(time.Now().Add(startTime))
	if err == nil {
		_, err = bufio.NewReader(read).ReadString('\n')
	}
	if err != nil {
		s.server.end()
		return fmt.Errorf("%v did not start: %w", args, err)
	}
	s.t.Cleanup(s.end)
	return nil
}

// command returns what starts the server.
func (o Options) command() []string {
	if o.Width == 0 {
		o.Width, o.Height = 640, 480
	}
	if o.Depth == 0 {
		o.Depth = 24
	}
	screen := fmt.Sprintf("%dx%dx%d", o.Width, o.Height, o.Depth)
	return slices.Concat(o.Prefix, []string{"Xvfb", o.Display, "-displayfd", "3", "-noreset", "-screen", "0", screen}, o.Args)
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
	env := slices.DeleteFunc(os.Environ(), func(v string) bool {
		name, _, _ := strings.Cut(v, "=")
		return slices.Contains([]string{"DISPLAY", "TONEDESK_DISPLAY", "WAYLAND_DISPLAY", "XDG_SESSION_TYPE", "XAUTHORITY"}, name)
	})
	return append(env, "DISPLAY="+s.Display)
}

// modestRules have openbox do nothing by the pointer but give the window that is pressed the keys.
const modestRules = `<?xml version="1.0"?>
<openbox_config xmlns="http://openbox.org/3.4/rc"><mouse><context name="Client">
<mousebind button="Left" action="Press"><action name="Focus"/><action name="Raise"/></mousebind>
</context></mouse></openbox_config>
`

// startWindowManager starts openbox and waits until it manages windows.
func (s *Server) startWindowManager(modest bool) {
	s.t.Helper()
	need(s.t, "openbox")
	cmd := exec.Command("openbox", "--sm-disable")
	if modest {
		rules := filepath.Join(s.t.TempDir(), "rc.xml")
		if err := os.WriteFile(rules, []byte(modestRules), 0o600); err != nil {
			s.t.Fatal(err)
		}
		cmd.Args = append(cmd.Args, "--config-file", rules)
	}
	cmd.Env = append(s.Env(), "XDG_CONFIG_HOME="+s.t.TempDir(), "XDG_CACHE_HOME="+s.t.TempDir(), "XDG_DATA_HOME="+s.t.TempDir())
	s.start(cmd)
	s.Painter().do("Manage", Order{})
}

// Run runs a program on the server and returns what it prints. Its failure is the test's.
func (s *Server) Run(name string, args ...string) string {
	s.t.Helper()
	out, err := s.run(name, args)
	if err != nil {
		s.t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return out
}

// Ask is Run for what is asked again and again while it changes: a window's frame may be gone between
// two of the program's own questions, and then its failure is an answer like another.
func (s *Server) Ask(name string, args ...string) string {
	s.t.Helper()
	out, _ := s.run(name, args)
	return out
}

func (s *Server) run(name string, args []string) (string, error) {
	s.t.Helper()
	need(s.t, name)
	ctx, cancel := context.WithTimeout(context.Background(), startTime)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = s.Env()
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// Launch starts a program on the server and leaves it running until the test ends.
func (s *Server) Launch(name string, args ...string) {
	s.t.Helper()
	need(s.t, name)
	cmd := exec.Command(name, args...)
	cmd.Env = s.Env()
	s.start(cmd)
}

// start starts a client that ends with the test.
func (s *Server) start(cmd *exec.Cmd) {
	s.t.Helper()
	p, err := run(cmd)
	if err != nil {
		s.t.Fatalf("start %v: %v", cmd.Args, err)
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

// Pid is the server's process, as the system counts it.
func (s *Server) Pid() int { return s.server.cmd.Process.Pid }

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

// end ends the server, and clears away what a killed one leaves. The lock file tells whether
// that is still ours: the name may be another server's by now.
func (s *Server) end() {
	_ = s.server.cmd.Process.Signal(syscall.SIGCONT) // a halted one can't end
	s.server.end()
	number := strings.TrimPrefix(s.Display, ":")
	lock := fmt.Sprintf("/tmp/.X%s-lock", number)
	text, err := os.ReadFile(lock)
	if err == nil && strings.TrimSpace(string(text)) == strconv.Itoa(s.server.cmd.Process.Pid) {
		os.Remove("/tmp/.X11-unix/X" + number)
		os.Remove(lock)
	}
}

// process is a child that ends no later than this process.
type process struct {
	cmd  *exec.Cmd
	done chan struct{}
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
	_ = p.cmd.Process.Signal(syscall.SIGTERM)
	select {
	case <-p.done:
	case <-time.After(endTime):
		p.kill()
	}
}

// kill ends the child at once.
func (p *process) kill() {
	_ = p.cmd.Process.Kill()
	<-p.done
}
