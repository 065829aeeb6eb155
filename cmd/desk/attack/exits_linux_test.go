package attack

import (
	"encoding/json"
	"fmt"
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
	t.Parallel()
	y, r := newTally("exits at random moments"), chance(5)
	server := xvfbtest.Start(t, xvfbtest.Options{Width: 1024, Height: 800, WindowManager: true})
	painter, home := server.Painter(), t.TempDir()
	slowest := time.Duration(0)
	for range y.rounds(6, 300) {
		w := desktest.OpenIn(t, server, home, "", nil)
		wait := time.Duration(r.IntN(900)) * time.Millisecond
		if r.IntN(2) == 0 {
			wait /= 10
		}
		time.Sleep(wait) // the moment is what is tried
		start, way := time.Now(), []string{"SIGTERM", "SIGINT", "SIGHUP", "key", "close"}[r.IntN(5)]
		switch way {
		case "SIGTERM":
			_ = w.Cmd.Process.Signal(syscall.SIGTERM)
		case "SIGINT":
			_ = w.Cmd.Process.Signal(syscall.SIGINT)
		case "SIGHUP":
			_ = w.Cmd.Process.Signal(syscall.SIGHUP)
		case "key":
			w.Script(t.Context(), []string{"key --clearmodifiers ctrl+q"})
		case "close":
			painter.Close(windowOf(w))
		}
		var faults []string
		err, ended := w.Ended(endWithin)
		if !ended {
			faults = append(faults, fmt.Sprintf("it did not end within %v of %s, %v after its first picture", endWithin, way, wait))
			_ = w.Cmd.Process.Kill()
		} else if err != nil {
			faults = append(faults, fmt.Sprintf("by %s it ended with %v", way, err))
		}
		slowest = max(slowest, time.Since(start))
		y.try(t, append(faults, leftBy(w)...)...)
	}
	nothingLeft(t, y, home)
	y.measure("the slowest took %v, %d by force", slowest.Round(10*time.Millisecond), forced.Load())
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
