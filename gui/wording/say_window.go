package wording

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"app.tonedesk/capture"
	"app.tonedesk/gui/language"
)

// SayMinimised is the state of a window that shows nothing.
const SayMinimised language.Words = "minimised"

// PointAtIt is the name of the way to choose a window by pointing at it.
const PointAtIt language.Words = "Point at it"

// SayPointing says what to do while the painter points, and which window lies under the pointer;
// its name is short, and "" for none that can be followed.
func SayPointing(name string) string {
	if name == "" {
		return language.Say("Point at the window to follow; Esc ends")
	}
	return language.Say("%s: Enter or click takes it, Esc ends", name)
}

// ExplainPointing says why the painter can't point at a window.
func ExplainPointing(err error) string {
	return explain("point at a window", err, slices.Concat([]reason{
		{capture.ErrPointerTaken, "another program holds the pointer or the keyboard", "close what is open there and try again, or choose the window from the list"},
	}, followingReasons, reasons))
}

// SayWindow names a window by its title, else by its program.
func SayWindow(title, class string) string { return cmp.Or(title, class, language.Say("Window")) }

// SayAlike says that so many windows have the title and class of the followed one, and which it is.
func SayAlike(windows int) string {
	return language.Say("%d windows are called the same; this is the topmost", windows)
}

// SayNotFollowed says in short why a followed window can't be read.
func SayNotFollowed(err error) string {
	switch {
	case errors.Is(err, capture.ErrNoWindow):
		return language.Say("Window closed")
	case errors.Is(err, capture.ErrMinimised):
		return language.Say("Window minimised")
	case errors.Is(err, capture.ErrPart):
		return language.Say("Window too small")
	case errors.Is(err, capture.ErrNotAnswering), errors.Is(err, context.DeadlineExceeded):
		return language.Say("Screen does not answer")
	}
	return language.Say("Window can't be read")
}

// followingReasons are what errors mean where a window is followed; other errors mean there what
// they mean everywhere.
var followingReasons = []reason{
	{capture.ErrNoWindow, "the window is closed", "open it again, and following goes on by itself, or choose another"},
	{capture.ErrMinimised, "it is minimised, or on another workspace, where its program paints nothing", "bring it back, and following goes on by itself"},
	{capture.ErrPart, "it has become too small for the part that is watched", "make it larger, or watch all of it with E"},
	{capture.ErrFormat, "the window has a pixel format that would give wrong colours", "choose a region of the screen instead"},
	{capture.ErrWayland, "this Wayland session lets no program read windows", "log in with an X11 session, or open a picture file"},
	{capture.ErrUnsupported, "windows can't be followed on this system", "choose a region of the screen instead"},
}

// ExplainFollowing is Explain for a window that is to be followed.
func ExplainFollowing(what Phrase, err error) string {
	return explain(what, err, slices.Concat(followingReasons, reasons))
}
