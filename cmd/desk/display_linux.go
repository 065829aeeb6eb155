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
	"os"

	"app.tonedesk/capture/xconn"
)

// probeDisplay asks the window's own display whether it lets us in. It has to be over
// before the screen is watched: there is one connection at a time.
func probeDisplay(ctx context.Context) error { return xconn.Probe(ctx, os.Getenv("DISPLAY")) }

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
