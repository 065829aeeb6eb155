package main

/*
#cgo LDFLAGS: -lX11
#include <X11/Xlib.h>
#include <unistd.h>

extern void displayGone(void);
extern int errorMet(unsigned long, int, int);

// Xlib ends the program when its display is gone; here it says why first. _exit, since
// nothing that would run at exit can still reach the display.
static int onDisplayGone(Display *display) {
	(void)display;
	displayGone();
	_exit(1);
	return 0;
}

// Xlib ends the program at every error too, with lines of its own on standard error.
static int onError(Display *display, XErrorEvent *e) {
	(void)display;
	if (errorMet(e->resourceid, e->error_code, e->request_code)) _exit(1);
	return 0;
}

static void watchDisplay(void) {
	XSetIOErrorHandler(onDisplayGone);
	XSetErrorHandler(onError);
}
*/
import "C"

import (
	"context"
	"errors"
	"log"
	"os"
	"sync/atomic"

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
	on := func(words wording.Phrase) wording.Phrase { return wording.On(words, env("DISPLAY")) }
	switch {
	case errors.Is(err, xconn.ErrNoDisplay) && env("DISPLAY") == "" && env("WAYLAND_DISPLAY") != "":
		return wording.Cannot(what, "this Wayland session has no X display", "install Xwayland, or log in with an X11 session")
	case errors.Is(err, xconn.ErrNoDisplay) && env("DISPLAY") == "":
		return wording.Cannot(what, "there is no display to open it on", "start it from your desktop, or use a command such as read")
	case errors.Is(err, xconn.ErrNoDisplay):
		return wording.Cannot(what, on("there is no display %s, which DISPLAY names"), "start it from your desktop, or correct DISPLAY")
	case errors.Is(err, xconn.ErrRefused):
		return wording.Cannot(what, on("the display %s does not let you in"), "start it as the user who is logged in there")
	case errors.Is(err, xconn.ErrNotAnswering):
		return wording.Cannot(what, on("the display %s does not answer"), "try again when it does")
	}
	return wording.Explain(what, err)
}

// whenGone runs when the window's own display, or the window itself, is gone, before the
// program ends; it is told what happened.
var whenGone = func(what wording.Phrase) {}

// ownWindow is the window as X knows it; 0 before there is one.
var ownWindow atomic.Uintptr

// onGone has f run when the window's own display is gone, or when another program took the
// window away. Exit code 1 comes then; f is the last to run.
func onGone(f func(what wording.Phrase)) {
	whenGone = f
	C.watchDisplay()
}

//export displayGone
func displayGone() { whenGone("its display is gone") }

// errorMet reports whether an error that the X server answered with ends the program: it is
// about a window that is not there any more. All others are told to who mends the program.
//
//export errorMet
func errorMet(resource C.ulong, code, request C.int) C.int {
	if own := ownWindow.Load(); own != 0 && uintptr(resource) == own {
		whenGone("another program took its window away")
		return 1
	}
	log.Printf("the X server answers request %d on %#x with error %d", request, resource, code)
	return 0
}
