package desktest

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
)

// Shown is a line of the trace.
type Shown struct {
	Event, State, Line, Message, Asks, View, Sentence string
	Frozen                                            bool
	Bounds, Part                                      image.Rectangle
	Mirror                                            [4]float32
	Spots                                             []struct {
		Colour    string
		Lightness float64
		X, Y      int
	}
	Pointer struct { // what is read under it
		Colour, Lightness, Value, FromA string
		Far, Near                       bool
		Chip                            image.Rectangle
		Looks                           int64
	}
	Moved   []bool
	Counted int
	Page    string
	Tabs    [4]float32
	Spread  [4]float32
	Menu    []Place // what can be chosen in the open menu, or at the first start
	Bar     []Place // buttons of the bar, of the strip, and of the open panel
	Places  []Place // what can be pressed on the open page
	Base    string  // code of the colour that others are proposed from
	Still   *struct {
		ID, Tool string
		Kinds    []string
	}
	Tools    [][4]float32
	Kept     []string
	Compares string // ID
	Divided  float32
	Grew     string // what is said first of how the picture grew
	Grid     [4]float32
	Parts    [4]float32
	Target   string
	Words    []string
	Focus    []string // words of the card that says whether the strongest contrast lies there
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

// Window is the built program with its window open on a virtual screen.
type Window struct {
	T      *testing.T
	Server *xvfbtest.Server
	Cmd    *exec.Cmd
	Home   string   // where all of the user's files lie
	ID     string   // as the X server knows it
	fault  *os.File // what it writes to standard error
	ended  chan error
}

// OpenOn starts the program with these settings (a JSON object) and waits for its first
// picture.
func OpenOn(t *testing.T, server *xvfbtest.Server, settings string, env []string, args ...string) *Window {
	t.Helper()
	return OpenIn(t, server, t.TempDir(), settings, env, args...)
}

// OpenIn is OpenOn for a user whose files lie in home.
func OpenIn(t *testing.T, server *xvfbtest.Server, home, settings string, env []string, args ...string) *Window {
	t.Helper()
	w := &Window{T: t, Server: server, Home: home, ended: make(chan error, 1)}
	if settings != "" {
		if err := os.MkdirAll(filepath.Dir(w.SettingsPath()), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(w.SettingsPath(), []byte(settings), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var err error
	if w.fault, err = os.Create(filepath.Join(w.Home, "stderr")); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { w.fault.Close() })
	w.Cmd = exec.Command(Program(t), append([]string{"--trace", w.TracePath()}, args...)...)
	w.Cmd.Env = append(server.Env(), append([]string{"HOME=" + w.Home, "XDG_CONFIG_HOME=" + w.Home, "XDG_DATA_HOME=" + filepath.Join(w.Home, "data"), "XDG_CACHE_HOME=" + filepath.Join(w.Home, "cache"), "XDG_STATE_HOME=" + filepath.Join(w.Home, "state"), "LANG=C.UTF-8", "LC_ALL=", "FYNE_SCALE=1"}, env...)...)
	w.Cmd.Stderr = w.fault
	if err := w.Cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { w.ended <- w.Cmd.Wait() }()
	t.Cleanup(func() { _ = w.Cmd.Process.Kill() }) // it has ended by itself where all went well
	w.WaitFor("the first line of the trace", func(Shown) bool { return true })
	server.WaitFor("the window", func() bool {
		out, _ := w.Tool("xdotool", "search", "--onlyvisible", "--name", "^Tonedesk$")
		w.ID = strings.TrimSpace(out)
		return w.ID != "" && !strings.Contains(w.ID, "\n")
	})
	w.Focus()
	return w
}

// Focus gives the window the keyboard.
func (w *Window) Focus() {
	w.T.Helper()
	order := "windowfocus"
	if w.Server.Managed {
		order = "windowactivate"
	}
	w.Server.WaitFor("the window's focus", func() bool { // a manager may be busy with the window that was there before
		_, err := w.Tool("xdotool", order, "--sync", w.ID)
		return err == nil
	})
}

// Script has xdotool act by a script, an order a line, until ctx ends, whatever comes of it:
// the window may be gone meanwhile. What it held down when it was cut short is let go: else the
// server takes the next press of that button or key for none.
func (w *Window) Script(ctx context.Context, orders []string) {
	cmd := exec.CommandContext(ctx, "xdotool", "-")
	cmd.Env, cmd.Stdin = w.Server.Env(), strings.NewReader(strings.Join(orders, "\n")+"\n")
	_ = cmd.Run()
	if ctx.Err() != nil {
		_, _ = w.Tool("xdotool", "mouseup", "1", "keyup", "ctrl", "keyup", "shift")
	}
}

func (w *Window) SettingsPath() string {
	return filepath.Join(w.Home, "tonedesk", "settings.json")
}
func (w *Window) TracePath() string { return filepath.Join(w.Home, "trace") }

// Tool runs a program on the window's screen, whatever comes of it.
func (w *Window) Tool(name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Env = w.Server.Env()
	out, err := cmd.Output()
	return string(out), err
}

// Do has xdotool act on the window.
func (w *Window) Do(args ...string) {
	w.T.Helper()
	if out, err := w.Tool("xdotool", args...); err != nil {
		w.T.Fatalf("xdotool %v: %v\n%s", args, err, out)
	}
}

// Said returns what the program wrote to standard error.
func (w *Window) Said() string {
	w.T.Helper()
	data, err := os.ReadFile(w.fault.Name())
	if err != nil {
		w.T.Fatal(err)
	}
	return ours(w.T, string(data))
}

func (w *Window) MessagesPath() string {
	if Foreign() { // Windows has one folder for what stays on this computer
		return filepath.Join(w.Home, "data", "tonedesk", "desk.log")
	}
	return filepath.Join(w.Home, "state", "tonedesk", "desk.log")
}

// Messages returns what it kept for programmers, "" for no file.
func (w *Window) Messages() string {
	data, _ := os.ReadFile(w.MessagesPath())
	return string(data)
}

// Lines returns the trace so far.
func (w *Window) Lines() []Shown {
	data, err := os.ReadFile(w.TracePath())
	if err != nil {
		return nil
	}
	var lines []Shown
	for text := range bytes.Lines(data) {
		var l Shown
		if json.Unmarshal(text, &l) == nil { // the last line may be half written
			lines = append(lines, l)
		}
	}
	return lines
}

// WaitFor waits for a line of the trace that is as it should be, the newest of now or a later one, and
// returns it. None is passed over: two may be written between two looks.
func (w *Window) WaitFor(what string, ok func(Shown) bool) (last Shown) {
	w.T.Helper()
	from := max(0, len(w.Lines())-1)
	for deadline := time.Now().Add(30 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		lines := w.Lines()
		for _, last = range lines[min(from, len(lines)):] {
			if ok(last) {
				return last
			}
		}
		from = max(0, len(lines)-1)
		if time.Now().After(deadline) {
			w.T.Fatalf("the window never showed %s; it shows %+v\nstandard error: %s\nmessages: %s", what, last, w.Said(), w.Messages())
		}
	}
}

// At returns where a pixel of the picture lies in the window.
func (w *Window) At(p image.Point) (x, y string) {
	w.T.Helper()
	lines := w.Lines()
	l := lines[len(lines)-1]
	fx := l.Mirror[0] + l.Mirror[2]*(float32(p.X-l.Bounds.Min.X)+0.5)/float32(l.Bounds.Dx())
	fy := l.Mirror[1] + l.Mirror[3]*(float32(p.Y-l.Bounds.Min.Y)+0.5)/float32(l.Bounds.Dy())
	return fmt.Sprint(int(fx)), fmt.Sprint(int(fy))
}

// Click clicks on a pixel of the picture in the mirror.
func (w *Window) Click(p image.Point) {
	w.T.Helper()
	x, y := w.At(p)
	w.Do("mousemove", "--window", w.ID, x, y, "click", "1")
}

// ClickIn clicks on a point of the window, in its pixels.
func (w *Window) ClickIn(x, y float32) {
	w.T.Helper()
	w.Do("mousemove", "--window", w.ID, fmt.Sprint(int(x)), fmt.Sprint(int(y)), "click", "1")
}

// DragIn drags from one point of the window to another, in steps.
func (w *Window) DragIn(fromX, fromY, toX, toY float32) {
	w.T.Helper()
	at := func(part float32) (string, string) {
		return fmt.Sprint(int(fromX + part*(toX-fromX) + 0.5)), fmt.Sprint(int(fromY + part*(toY-fromY) + 0.5))
	}
	x, y := at(0)
	w.Do("mousemove", "--window", w.ID, x, y, "mousedown", "1")
	for i := range 8 {
		x, y = at(float32(i+1) / 8)
		w.Do("mousemove", "--window", w.ID, x, y)
	}
	w.Do("mouseup", "1")
}

// OpenPage clicks on the tab of page i of n.
func (w *Window) OpenPage(i, n int) {
	w.T.Helper()
	lines := w.Lines()
	tabs := lines[len(lines)-1].Tabs
	w.ClickIn(tabs[0]+tabs[2]*(float32(i)+0.5)/float32(n), tabs[1]+tabs[3]/2)
}

// Key presses a key in the window.
func (w *Window) Key(keys ...string) {
	w.T.Helper()
	w.Do(append([]string{"key", "--clearmodifiers"}, keys...)...)
}

// Quit asks the program to end, by a signal or where there is none by its window's close button,
// and checks that it ends well and silently.
func (w *Window) Quit() {
	w.T.Helper()
	if Foreign() {
		w.askToClose()
		if _, ended := w.Ended(10 * time.Second); !ended { // Wine loses one that comes before the toolkit's first look at events
			w.T.Log("it is asked to close once more")
			w.askToClose()
		}
	} else if err := w.Cmd.Process.Signal(syscall.SIGTERM); err != nil {
		w.T.Fatal(err)
	}
	if err := w.Wait(); err != nil || w.Said() != "" {
		w.T.Errorf("the program ended with %v and said %q", err, w.Said())
	}
}

// askToClose has the window manager ask the window to close.
func (w *Window) askToClose() {
	w.T.Helper()
	w.Focus()
	w.Do("key", "--clearmodifiers", "alt+F4")
}

func (w *Window) Wait() error {
	w.T.Helper()
	select {
	case err := <-w.ended:
		return err
	case <-time.After(20 * time.Second):
		w.T.Fatal("the program does not end")
		return nil
	}
}

// InsideAt returns where the window's inside is on the screen.
func (w *Window) InsideAt() image.Point {
	w.T.Helper()
	var p image.Point
	for line := range strings.Lines(w.Server.Run("xwininfo", "-id", w.ID)) {
		if name, value, ok := strings.Cut(strings.TrimSpace(line), ":"); ok {
			n, _ := strconv.Atoi(strings.TrimSpace(value)) // lines without a number don't matter
			switch name {
			case "Absolute upper-left X":
				p.X = n
			case "Absolute upper-left Y":
				p.Y = n
			}
		}
	}
	return p
}

// Ended waits for the program to end, for so long at most. It reports how it ended, and
// whether it did.
func (w *Window) Ended(within time.Duration) (how error, ended bool) {
	select {
	case how = <-w.ended:
		w.ended <- how // for who asks again
		return how, true
	case <-time.After(within):
		return nil, false
	}
}
