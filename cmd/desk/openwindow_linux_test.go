package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// shownLine is a line of the trace.
type shownLine struct {
	Event, State, Line, Message, View, Sentence string
	Frozen                                      bool
	Bounds, Part                                image.Rectangle
	Mirror                                      [4]float32
	Spots                                       []struct {
		Colour    string
		Lightness float64
		X, Y      int
	}
	Moved   []bool
	Counted int
	Page    string
	Tabs    [4]float32
	Spread  [4]float32
	Still   *struct {
		ID, Tool string
		Kinds    []string
	}
	Tools    [2][4]float32
	Shelf    []string
	Grid     [4]float32
	Parts    [4]float32
	Target   string
	Families []struct {
		Light, Shadow, Title string
		Notes                []string
		Box                  [4]float32
	}
	Groups []struct {
		Name     string
		From, To float64
	}
}

// openedWindow is the built program with its window open on a virtual screen.
type openedWindow struct {
	t      *testing.T
	server *xvfbtest.Server
	cmd    *exec.Cmd
	home   string
	fault  *os.File // what it writes to standard error
	id     string
	ended  chan error
}

// openOn starts the program with these settings (a JSON object) and waits for its first
// picture.
func openOn(t *testing.T, server *xvfbtest.Server, settings string, env []string, args ...string) *openedWindow {
	t.Helper()
	return openIn(t, server, t.TempDir(), settings, env, args...)
}

// openIn is openOn for a user whose files lie in home.
func openIn(t *testing.T, server *xvfbtest.Server, home, settings string, env []string, args ...string) *openedWindow {
	t.Helper()
	w := &openedWindow{t: t, server: server, home: home, ended: make(chan error, 1)}
	if settings != "" {
		if err := os.MkdirAll(filepath.Dir(w.settingsPath()), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(w.settingsPath(), []byte(settings), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var err error
	if w.fault, err = os.Create(filepath.Join(w.home, "stderr")); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { w.fault.Close() })
	w.cmd = exec.Command(builtProgram(t), append([]string{"--trace", w.tracePath()}, args...)...)
	w.cmd.Env = append(server.Env(), append([]string{"HOME=" + w.home, "XDG_CONFIG_HOME=" + w.home, "XDG_DATA_HOME=" + filepath.Join(w.home, "data"), "XDG_CACHE_HOME=" + filepath.Join(w.home, "cache"), "XDG_STATE_HOME=" + filepath.Join(w.home, "state"), "LANG=C.UTF-8", "LC_ALL=", "FYNE_SCALE=1"}, env...)...)
	w.cmd.Stderr = w.fault
	if err := w.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { w.ended <- w.cmd.Wait() }()
	t.Cleanup(func() { _ = w.cmd.Process.Kill() }) // it has ended by itself where all went well
	w.waitFor("the first line of the trace", func(shownLine) bool { return true })
	server.WaitFor("the window", func() bool {
		out, _ := w.tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
		w.id = strings.TrimSpace(out)
		return w.id != "" && !strings.Contains(w.id, "\n")
	})
	w.do("windowactivate", "--sync", w.id)
	return w
}

func (w *openedWindow) settingsPath() string {
	return filepath.Join(w.home, "tonedesk", "settings.json")
}
func (w *openedWindow) tracePath() string { return filepath.Join(w.home, "trace") }

// tool runs a program on the window's screen, whatever comes of it.
func (w *openedWindow) tool(name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Env = w.server.Env()
	out, err := cmd.Output()
	return string(out), err
}

// do has xdotool act on the window.
func (w *openedWindow) do(args ...string) {
	w.t.Helper()
	if out, err := w.tool("xdotool", args...); err != nil {
		w.t.Fatalf("xdotool %v: %v\n%s", args, err, out)
	}
}

// said returns what the program wrote to standard error.
func (w *openedWindow) said() string {
	w.t.Helper()
	data, err := os.ReadFile(w.fault.Name())
	if err != nil {
		w.t.Fatal(err)
	}
	return string(data)
}

func (w *openedWindow) messagesPath() string {
	return filepath.Join(w.home, "state", "tonedesk", "desk.log")
}

// messages returns what it kept for programmers, "" for no file.
func (w *openedWindow) messages() string {
	data, _ := os.ReadFile(w.messagesPath())
	return string(data)
}

// lines returns the trace so far.
func (w *openedWindow) lines() []shownLine {
	data, err := os.ReadFile(w.tracePath())
	if err != nil {
		return nil
	}
	var lines []shownLine
	for text := range bytes.Lines(data) {
		var l shownLine
		if json.Unmarshal(text, &l) == nil { // the last line may be half written
			lines = append(lines, l)
		}
	}
	return lines
}

// waitFor waits until the newest line of the trace is as it should be, and returns it.
func (w *openedWindow) waitFor(what string, ok func(shownLine) bool) (last shownLine) {
	w.t.Helper()
	for deadline := time.Now().Add(30 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		if lines := w.lines(); len(lines) > 0 {
			if last = lines[len(lines)-1]; ok(last) {
				return last
			}
		}
		if time.Now().After(deadline) {
			w.t.Fatalf("the window never showed %s; it shows %+v\nstandard error: %s\nmessages: %s", what, last, w.said(), w.messages())
		}
	}
}

// at returns where a pixel of the picture lies in the window.
func (w *openedWindow) at(p image.Point) (x, y string) {
	w.t.Helper()
	lines := w.lines()
	l := lines[len(lines)-1]
	fx := l.Mirror[0] + l.Mirror[2]*(float32(p.X-l.Bounds.Min.X)+0.5)/float32(l.Bounds.Dx())
	fy := l.Mirror[1] + l.Mirror[3]*(float32(p.Y-l.Bounds.Min.Y)+0.5)/float32(l.Bounds.Dy())
	return fmt.Sprint(int(fx)), fmt.Sprint(int(fy))
}

// click clicks on a pixel of the picture in the mirror.
func (w *openedWindow) click(p image.Point) {
	w.t.Helper()
	x, y := w.at(p)
	w.do("mousemove", "--window", w.id, x, y, "click", "1")
}

// clickIn clicks on a point of the window, in its pixels.
func (w *openedWindow) clickIn(x, y float32) {
	w.t.Helper()
	w.do("mousemove", "--window", w.id, fmt.Sprint(int(x)), fmt.Sprint(int(y)), "click", "1")
}

// dragIn drags from one point of the window to another, in steps.
func (w *openedWindow) dragIn(fromX, fromY, toX, toY float32) {
	w.t.Helper()
	at := func(part float32) (string, string) {
		return fmt.Sprint(int(fromX + part*(toX-fromX) + 0.5)), fmt.Sprint(int(fromY + part*(toY-fromY) + 0.5))
	}
	x, y := at(0)
	w.do("mousemove", "--window", w.id, x, y, "mousedown", "1")
	for i := range 8 {
		x, y = at(float32(i+1) / 8)
		w.do("mousemove", "--window", w.id, x, y)
	}
	w.do("mouseup", "1")
}

// openPage clicks on the tab of page i of n.
func (w *openedWindow) openPage(i, n int) {
	w.t.Helper()
	lines := w.lines()
	tabs := lines[len(lines)-1].Tabs
	w.clickIn(tabs[0]+tabs[2]*(float32(i)+0.5)/float32(n), tabs[1]+tabs[3]/2)
}

// key presses a key in the window.
func (w *openedWindow) key(keys ...string) {
	w.t.Helper()
	w.do(append([]string{"key", "--clearmodifiers"}, keys...)...)
}

// quit asks the program to end, and checks that it ends well and silently.
func (w *openedWindow) quit() {
	w.t.Helper()
	if err := w.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		w.t.Fatal(err)
	}
	if err := w.wait(); err != nil || w.said() != "" {
		w.t.Errorf("the program ended with %v and said %q", err, w.said())
	}
}

func (w *openedWindow) wait() error {
	w.t.Helper()
	select {
	case err := <-w.ended:
		return err
	case <-time.After(20 * time.Second):
		w.t.Fatal("the program does not end")
		return nil
	}
}
