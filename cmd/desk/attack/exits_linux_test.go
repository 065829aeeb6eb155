package attack

import (
	"encoding/json"
	"fmt"
	"iter"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// endWithin is how long the program may take to end: a save, its own limit of three seconds
// for whatever hangs, and a loaded machine.
const endWithin = 6 * time.Second

// However and whenever the window is asked to end, it does, in time, with its settings whole,
// and leaves nothing.
func TestExits(t *testing.T) {
	beside(t)
	y := newTally("exits at random moments")
	var slowest atomic.Int64
	y.lanes(t, 6, 300, func(t *testing.T, tries iter.Seq[int]) {
		server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
		painter, home := server.Painter(), t.TempDir()
		for i := range tries {
			took, faults := exit(t, server, painter, home, chanceOf(5, i))
			for was := slowest.Load(); int64(took) > was && !slowest.CompareAndSwap(was, int64(took)); was = slowest.Load() {
			}
			y.try(t, faults...)
		}
		nothingLeft(t, y, home)
	})
	y.measure("the slowest took %v, %d by force", time.Duration(slowest.Load()).Round(10*time.Millisecond), forced.Load())
}

// exit opens a window and asks it to end at some moment, in some way. It returns how long that took,
// and what is wrong with it.
func exit(t *testing.T, server *xvfbtest.Server, painter *xvfbtest.Painter, home string, r *rand.Rand) (took time.Duration, faults []string) {
	t.Helper()
	w := desktest.OpenIn(t, server, home, "", nil)
	wait := time.Duration(r.IntN(900)) * time.Millisecond
	if r.IntN(2) == 0 {
		wait /= 10
	}
	time.Sleep(wait) // the moment is what is tried
	held, choosing := r.IntN(4) == 0, r.IntN(5) == 0
	way := []string{"SIGTERM", "SIGINT", "SIGHUP", "key", "close"}[r.IntN(5)]
	if choosing { // what is pressed or closed then is hidden, or another window than was first
		w.Script(t.Context(), []string{"key r"})
		if way == "key" { // it goes to the window that has the focus, and in between none of ours does
			server.WaitFor("the picture of the desktop", func() bool { return hasOtherFocus(w) })
		}
		time.Sleep(time.Duration(r.IntN(300)) * time.Millisecond)
	}
	if held { // what is let go then reaches no window any more
		w.Script(t.Context(), []string{"mousemove --window " + w.ID + " 150 200", "mousedown 1"})
	}
	start := time.Now()
	switch way {
	case "SIGTERM":
		_ = w.Cmd.Process.Signal(syscall.SIGTERM)
	case "SIGINT":
		_ = w.Cmd.Process.Signal(syscall.SIGINT)
	case "SIGHUP":
		_ = w.Cmd.Process.Signal(syscall.SIGHUP)
	case "key":
		w.Script(t.Context(), []string{"key ctrl+q"}) // not --clearmodifiers: that lets go of the button first
	case "close":
		painter.Close(windowOf(w))
	}
	if held {
		w.Script(t.Context(), []string{"mouseup 1"})
	}
	err, ended := w.Ended(endWithin)
	if !ended {
		faults = append(faults, fmt.Sprintf("it did not end within %v of %s, %v after its first picture (button held: %v, choosing a region: %v)\n%s", endWithin, way, wait, held, choosing, w.Messages()))
		_ = w.Cmd.Process.Kill()
	} else if err != nil {
		faults = append(faults, fmt.Sprintf("by %s it ended with %v", way, err))
	}
	return time.Since(start), append(faults, leftBy(w)...)
}

// hasOtherFocus reports whether another window of the program than its first has the keyboard.
func hasOtherFocus(w *desktest.Window) bool {
	out, err := w.Tool("xdotool", "getactivewindow")
	id := strings.TrimSpace(out)
	if err != nil || id == w.ID {
		return false
	}
	pid, _ := w.Tool("xdotool", "getwindowpid", id)
	return strings.TrimSpace(pid) == strconv.Itoa(w.Cmd.Process.Pid)
}

// forced counts the programs that were ended by their own limit of three seconds. That is no
// failure: on a loaded machine the toolkit's software painter may draw its first picture for
// longer than that.
var forced atomic.Int32

// leftBy says what a program that ended left that it should not have.
func leftBy(w *desktest.Window) (faults []string) {
	if said := w.Said(); said != "" {
		faults = append(faults, fmt.Sprintf("it said %q", said))
	}
	if n := segmentsLeft(w.Cmd.Process.Pid); n > 0 {
		faults = append(faults, fmt.Sprintf("%d segments of shared memory are left", n))
	}
	if text, err := os.ReadFile(w.SettingsPath()); err == nil && !json.Valid(text) {
		faults = append(faults, "its settings are damaged")
	}
	switch m := w.Messages(); {
	case strings.Contains(m, "does not end by itself"):
		forced.Add(1)
	case strings.Contains(m, "panic") || strings.Contains(m, "goroutine "):
		faults = append(faults, "it kept a stack: "+m)
	}
	return faults
}

// windowOf is the window's number at its server.
func windowOf(w *desktest.Window) uint32 {
	id, _ := strconv.ParseUint(w.ID, 10, 32)
	return uint32(id)
}
