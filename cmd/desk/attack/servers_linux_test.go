package attack

import (
	"fmt"
	"image"
	"os/exec"
	"strings"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

const watchCorner = `{"version": 1, "region": {"x": 10, "y": 20, "width": 300, "height": 200}}`

var cornerOf = image.Rect(10, 20, 310, 220)

// watching opens a window on a screen of its own that watches a part of another screen.
func watching(t *testing.T, o xvfbtest.Options) (w *desktest.Window, own, watched *xvfbtest.Server) {
	t.Helper()
	own = xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	watched = xvfbtest.Start(t, o)
	w = desktest.OpenOn(t, own, watchCorner, []string{"TONEDESK_DISPLAY=" + watched.Display})
	return w, own, watched
}

// live reports that the watched part is shown, and nothing is wrong.
func live(l desktest.Shown) bool {
	return l.Bounds == cornerOf && l.Message == "" && (l.State == "live" || l.State == "unchanged")
}

// The watched server is killed and started anew, again and again.
func TestWatchedServerKilled(t *testing.T) {
	beside(t)
	y := newTally("watched server killed and started anew")
	w, own, watched := watching(t, xvfbtest.Options{})
	w.WaitFor("the watched screen", live)
	painter := own.Painter()
	for range y.rounds(1, 6) {
		watched.Kill()
		w.WaitFor("the connection lost", func(l desktest.Shown) bool { return l.State == "gone" && l.Message != "" })
		faults := answersNow(w, painter)
		watched = xvfbtest.Start(t, xvfbtest.Options{Display: watched.Display})
		w.WaitFor("the new server", live)
		y.try(t, append(faults, answersNow(w, painter)...)...)
	}
	w.Quit()
}

// The watched server halts for five seconds.
func TestWatchedServerHalts(t *testing.T) {
	beside(t)
	y := newTally("watched server halted for 5 s")
	w, own, watched := watching(t, xvfbtest.Options{})
	w.WaitFor("the watched screen", live)
	painter := own.Painter()
	for range y.rounds(1, 5) {
		watched.Stop()
		var faults []string
		for end := time.Now().Add(5 * time.Second); time.Now().Before(end); time.Sleep(200 * time.Millisecond) { // the halt is what is tried
			faults = append(faults, answersNow(w, painter)...)
		}
		w.WaitFor("not answering", func(l desktest.Shown) bool { return l.State == "not answering" && l.Message != "" })
		watched.Continue()
		w.WaitFor("it answering again", live)
		y.try(t, faults...)
	}
	w.Quit()
}

// The watched screen changes its size again and again, smaller than what is watched too.
func TestWatchedServerResizes(t *testing.T) {
	beside(t)
	y, r := newTally("watched screen resized"), chance(8)
	w, own, watched := watching(t, xvfbtest.Options{Width: 1280, Height: 1024})
	painter := own.Painter()
	modes := []string{"1280x1024"}
	for i, size := range [][2]string{{"640", "480"}, {"300", "200"}, {"200", "700"}, {"8", "8"}} {
		name := fmt.Sprintf("mode%d", i)
		x, v := size[0], size[1]
		watched.Run("xrandr", "--newmode", name, "50", x, x, x, x, v, v, v, v)
		watched.Run("xrandr", "--addmode", "screen", name)
		modes = append(modes, name)
	}
	for range y.rounds(5, 50) {
		watched.Run("xrandr", "--output", "screen", "--mode", modes[r.IntN(len(modes))])
		y.try(t, answersNow(w, painter)...)
	}
	watched.Run("xrandr", "--output", "screen", "--mode", modes[0])
	w.WaitFor("the screen as it was", live)
	w.Quit()
}

// Screens of every depth are read, or it is said why not.
func TestWatchedDepths(t *testing.T) {
	beside(t)
	y := newTally("watched screens of depth 8, 15, 16, 30, without shared memory")
	options := []xvfbtest.Options{{Depth: 8}, {Depth: 15}, {Depth: 16}, {Depth: 30}, {Args: []string{"-extension", "MIT-SHM"}}}
	if !long() {
		options = options[1:3]
	}
	own := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter := own.Painter()
	for _, o := range options {
		watched := xvfbtest.Start(t, o)
		w := desktest.OpenOn(t, own, watchCorner, []string{"TONEDESK_DISPLAY=" + watched.Display})
		l := w.WaitFor("a picture or a reason", func(l desktest.Shown) bool {
			return live(l) || l.State != "" && strings.Contains(l.Message, "Can't ")
		})
		faults := answersNow(w, painter)
		if !live(l) {
			faults = append(faults, desktest.NotPlain(l.Message)...)
		}
		w.Quit()
		y.try(t, faults...)
	}
}

// Where the toolkit can't open a window the program ends with a sentence, and does not stay.
func TestOwnServers(t *testing.T) {
	beside(t)
	y := newTally("own server without GLX, of other depths, without window manager")
	for _, tt := range []struct {
		name     string
		server   xvfbtest.Options
		settings string
		opens    bool
	}{
		{"no GLX", xvfbtest.Options{Args: []string{"-extension", "GLX"}}, watchCorner, false},
		{"no GLX, managed", xvfbtest.Options{Args: []string{"-extension", "GLX"}, WindowManager: true}, watchCorner, false},
		{"no GLX, first start", xvfbtest.Options{Args: []string{"-extension", "GLX"}}, "", false},
		{"depth 16", xvfbtest.Options{Depth: 16}, watchCorner, true},
		{"no shared memory", xvfbtest.Options{Args: []string{"-extension", "MIT-SHM"}}, watchCorner, true},
		{"no window manager", xvfbtest.Options{}, watchCorner, true},
	} {
		server := xvfbtest.Start(t, tt.server)
		if tt.opens {
			w := desktest.OpenOn(t, server, tt.settings, nil)
			w.WaitFor("the region", func(l desktest.Shown) bool { return l.Bounds == cornerOf || strings.Contains(l.Message, "Can't ") })
			w.Quit()
			y.try(t)
			continue
		}
		faults := refuses(t, server)
		for i := range faults {
			faults[i] = tt.name + ": " + faults[i]
		}
		y.try(t, faults...)
	}
}

// refuses starts the window where there can't be one.
func refuses(t *testing.T, server *xvfbtest.Server) (faults []string) {
	home := t.TempDir()
	var fault strings.Builder
	cmd := exec.Command(desktest.Program(t))
	cmd.Env = append(environment(home), "DISPLAY="+server.Display)
	cmd.Stderr = &fault
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	select {
	case <-ended:
	case <-time.After(30 * time.Second):
		_ = cmd.Process.Kill()
		<-ended
		return []string{"the program stays"}
	}
	if code := cmd.ProcessState.ExitCode(); code != 1 {
		faults = append(faults, fmt.Sprintf("it ended with %v", cmd.ProcessState))
	}
	if strings.Count(fault.String(), "\n") != 1 {
		faults = append(faults, fmt.Sprintf("it said %q", fault.String()))
	}
	return append(faults, desktest.NotPlain(fault.String())...)
}
