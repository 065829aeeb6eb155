package attack

import (
	"fmt"
	"time"

	"app.tonedesk/capture/xvfbtest"
	"app.tonedesk/cmd/desk/desktest"
)

// answerWithin is what an answer may take, but for the time in which a thread of the program or of its
// display waits for a core that others have; our choice. In the short attack only a window that hangs is told apart.
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
	waits := watchWaiting(w.Cmd.Process.Pid, w.Server.Pid())
	took, err := painter.Ping(windowOf(w), most)
	own := waits.own(took)
	if err != nil {
		return "", err
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
