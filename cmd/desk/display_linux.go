package main

/*
#cgo LDFLAGS: -lX11
#include <X11/Xlib.h>
#include <unistd.h>

extern void displayLost(void);

// Xlib ends the program when its display is gone; here it says why first. _exit, since
// nothing that would run at exit can still reach the display.
static int onDisplayLost(Display *display) {
	(void)display;
	displayLost();
	_exit(1);
	return 0;
}

static void watchForDisplayLost(void) { XSetIOErrorHandler(onDisplayLost); }
*/
import "C"

import (
	"context"
	"errors"
	"os"

	"app.tonedesk/capture/xconn"
	"app.tonedesk/gui/wording"
)

// probeDisplay asks the window's own display whether it lets us in. It has to be over
// before the screen is watched: there is one connection at a time.
func probeDisplay(ctx context.Context) error { return xconn.Probe(ctx, os.Getenv("DISPLAY")) }

// sayNoDisplay says why the window's own display does not let us in, and what to do. env gives
// environment variables.
func sayNoDisplay(err error, env func(string) string) string {
	const what = "open the window"
	name := wording.Quote(env("DISPLAY"))
	switch {
	case errors.Is(err, xconn.ErrNoDisplay) && env("DISPLAY") == "" && env("WAYLAND_DISPLAY") != "":
		return wording.Sentence(what, "this Wayland session has no X display", "install Xwayland, or log in with an X11 session")
	case errors.Is(err, xconn.ErrNoDisplay) && env("DISPLAY") == "":
		return wording.Sentence(what, "there is no display to open it on", "start it from your desktop, or use a command such as read")
	case errors.Is(err, xconn.ErrNoDisplay):
		return wording.Sentence(what, "there is no display "+name+", which DISPLAY names", "start it from your desktop, or correct DISPLAY")
	case errors.Is(err, xconn.ErrRefused):
		return wording.Sentence(what, "the display "+name+" does not let you in", "start it as the user who is logged in there")
	case errors.Is(err, xconn.ErrNotAnswering):
		return wording.Sentence(what, "the display "+name+" does not answer", "try again when it does")
	}
	return wording.Explain(what, err)
}

// whenDisplayLost runs when the window's own display is gone, before the program ends.
var whenDisplayLost = func() {}

// onDisplayLost has f run when the window's own display is gone. Xlib ends the program
// then, with exit code 1; f is the last to run.
func onDisplayLost(f func()) {
	whenDisplayLost = f
	C.watchForDisplayLost()
}

//export displayLost
func displayLost() { whenDisplayLost() }
