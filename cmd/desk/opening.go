package main

import (
	"bytes"
	"io"
	"log"
	"slices"
	"sync/atomic"
	"time"

	"app.tonedesk/cmd/desk/command"
	"app.tonedesk/gui/host"
	"app.tonedesk/gui/wording"
)

// openMost is how long the display may take to show the window. Our choice: a busy machine
// without a graphics card takes two seconds (measured).
const openMost = 30 * time.Second

// refusals are how the toolkit begins to say that it can't draw a window. It tells the
// standard logger alone: a first window it then goes without, for ever, and at a further one
// it ends the program.
var refusals = [][]byte{
	[]byte("Fyne error:  window creation error"),
	[]byte("Fyne error:  failed to initialise GLFW"),
	[]byte("Fyne error:  failed to initialise OpenGL"),
}

// unreachable is how it begins to say that the display, which let us in a moment ago, does not let
// it in: a server of one program, which starts anew when our question was its last client. It
// breaks down then.
var unreachable = []byte("PlatformError: X11: Failed to open display")

// noDesktop is how it begins to say on Windows that there is nowhere for a window: no desktop that
// somebody is logged in on. It breaks down then too.
var noDesktop = []byte("PlatformError: Win32: Failed to create helper window")

// opening sees to it that the window opens, or that the program says why not and ends.
type opening struct {
	to   io.Writer // what the toolkit says goes on to it
	say  func(sentence string)
	save func() error // the settings
	exit func(code int)

	refused, lost, nowhere, running atomic.Bool
}

// begin waits for the window from now on; opened says that it is there. From then on a window
// that can't be drawn is one more, such as the one to choose a region on.
func (o *opening) begin() (opened func()) {
	late := time.AfterFunc(openMost, func() {
		log.Printf("the window does not open:\n%s", stacks())
		o.end(wording.Cannot("open the window", "the display does not draw it", saidMore("try again when it answers%s")))
	})
	o.to = log.Writer()
	log.SetOutput(o)
	return func() {
		late.Stop()
		o.running.Store(true)
	}
}

// refuses reports whether the toolkit refused to draw a window in f. It may break down then.
func (o *opening) refuses(f func()) (refused bool) {
	defer func() {
		if refused = o.refused.Load(); !refused {
			return
		}
		if r := recover(); r != nil {
			log.Printf("the toolkit broke down after that: %v", r)
		}
	}()
	f()
	return false
}

// Write looks for the toolkit's words in a message, and passes it on.
func (o *opening) Write(message []byte) (int, error) {
	n, err := o.to.Write(message)
	if bytes.HasPrefix(message, unreachable) {
		o.lost.Store(true)
		o.refused.Store(true)
	}
	if bytes.HasPrefix(message, noDesktop) {
		o.nowhere.Store(true)
		o.refused.Store(true)
	}
	if slices.ContainsFunc(refusals, func(words []byte) bool { return bytes.HasPrefix(message, words) }) {
		o.refused.Store(true)
		if o.running.Load() {
			o.end(sayNoOpenGL())
		}
	}
	return n, err
}

// end ends the program with a sentence. Nobody can log meanwhile: saving, which may want to,
// is not waited for any longer than it takes as a rule.
func (o *opening) end(sentence string) {
	_ = host.Within(time.Second, o.save)
	o.say(sentence)
	o.exit(command.ExitUnread)
}

// why says why no window was opened.
func (o *opening) why() string {
	if o.nowhere.Load() {
		return wording.Cannot("open the window", "there is no display to open it on", "start it inside a desktop session, or use the commands read, spot and compare")
	}
	if o.lost.Load() {
		return wording.Cannot("open the window", "the display does not answer", saidMore("try again when it does%s"))
	}
	return sayNoOpenGL()
}

// sayNoOpenGL says why no window can be drawn.
func sayNoOpenGL() string {
	return wording.Cannot("open the window", "the display has no OpenGL 2.1 to draw with", saidMore("install the graphics card's driver, or Mesa%s"))
}
