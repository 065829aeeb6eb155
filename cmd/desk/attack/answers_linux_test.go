package attack

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// answerWithin is what an answer may take, but for what the program waits for a core that others
// have; our choice. In the short attack only a window that hangs is told apart.
var answerWithin = time.Duration(times(3000, 500)) * time.Millisecond

// answered is how long a program took to answer.
type answered struct {
	slowest, slowestOwn time.Duration // by the clock; without waiting for a core
	asked, late         int           // later by the clock than answerWithin
}

func (a *answered) String() string {
	return fmt.Sprintf("%d of %d later by the clock, the slowest %v, of which %v without waiting for a core", a.late, a.asked, a.slowest, a.slowestOwn)
}

// ask asks a program for a sign of life, and says if it comes too late. A window that has gone is an
// error.
func (a *answered) ask(w *desktest.Window, painter *xvfbtest.Painter) (late string, err error) {
	const most = 10 * time.Second
	pid := w.Cmd.Process.Pid
	before := waited(pid)
	took, err := painter.Ping(windowOf(w), most)
	if err != nil {
		return "", err
	}
	own := took
	for thread, now := range waited(pid) {
		own = min(own, max(0, took-(now-before[thread])))
	}
	a.asked++
	if took > answerWithin {
		a.late++
	}
	if took > a.slowest {
		a.slowest, a.slowestOwn = took, own
	}
	if own > answerWithin {
		return fmt.Sprintf("it took %v to answer, %v of it without waiting for a core", took, own), nil
	}
	return "", nil
}

// waited returns how long each thread of a process has waited for a core so far. Source: Linux kernel
// documentation, scheduler/sched-stats: the second number, in nanoseconds.
func waited(pid int) map[string]time.Duration {
	threads := map[string]time.Duration{}
	paths, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/schedstat", pid))
	for _, path := range paths {
		text, _ := os.ReadFile(path)
		if f := bytes.Fields(text); len(f) == 3 {
			n, _ := strconv.ParseInt(string(f[1]), 10, 64)
			threads[path] = time.Duration(n)
		}
	}
	return threads
}

// answersNow says if the window does not answer.
func answersNow(w *desktest.Window, painter *xvfbtest.Painter) []string {
	return new(answered).faults(w, painter)
}

// faults asks, and says what is wrong; a window that has gone is too.
func (a *answered) faults(w *desktest.Window, painter *xvfbtest.Painter) []string {
	late, err := a.ask(w, painter)
	switch {
	case err != nil:
		return []string{"it does not answer: " + err.Error()}
	case late != "":
		return []string{late}
	}
	return nil
}
