package capture

import (
	"context"
	"image"
	"strings"
	"unicode"
)

// Window describes a window of another program.
type Window struct {
	ID        uint64          // the display's number of it; means nothing once the window is closed
	Title     string          // one line of valid text, as its program gives it
	Class     string          // what program it is of; stays the same from start to start
	Rect      image.Rectangle // its inside without the frame, desktop pixels
	Minimised bool            // or on another workspace: its program paints nothing
	Alike     int             // of one that is followed: how many others might be meant as well, by title and class
}

// Follower is a Backend that can read a window wherever it lies. Windows of this process, and
// those that own names (by the numbers that the window's toolkit gives), are never found: the
// process's number alone doesn't tell in a sandbox.
type Follower interface {
	Backend
	// Windows returns the windows that can be followed, the topmost first.
	Windows(ctx context.Context, own ...uint64) ([]Window, error)
	// WindowAt returns the window that shows at p, a place in desktop pixels: p may lie on
	// its frame, and under one of our own windows. found is false where another thing lies on
	// top, such as a panel, or nothing does.
	WindowAt(ctx context.Context, p image.Point, own ...uint64) (w Window, found bool, err error)
	// Follow begins to read a window's inside, or part of it: a rectangle from the inside's
	// top left, read where it meets the inside; the zero rectangle is all. The window is w.ID
	// if that is of w's class, else the topmost of w's title and class. It need not be there yet.
	// The error wraps ErrEmpty for a part of no size, ErrUnsupported where the display can't.
	Follow(ctx context.Context, w Window, part image.Rectangle, own ...uint64) (WindowStream, error)
}

// Pointer is a Follower on whose screen the painter can point at a window.
type Pointer interface {
	Follower
	// Point has the painter point at a window: the pointer becomes a cross, and what lies below
	// it is outlined, until a click or Enter takes it. Nothing of that reaches another program.
	// over is told which window it is, at the beginning and whenever it is another; found is
	// false where there is none that could be followed, such as one of our own. It is called on a
	// goroutine of Point's, and must not wait for long. The error wraps ErrGivenUp where the
	// painter ended it (Esc, the right button, a minute of nothing) or ctx did, ErrPointerTaken
	// where another program holds the pointer. However it ends, pointer and keyboard are free
	// again.
	Point(ctx context.Context, over func(w Window, found bool), own ...uint64) (Window, error)
}

// WindowStream reads a window, also while it is covered or reaches off the screen. While there
// is nothing to read Grab gives errors that wrap ErrMinimised, ErrNoWindow (closed), ErrPart
// (the window has become too small for it) or ErrFormat (of a depth that we can't read);
// it goes on by itself when that ends, also with another window of the same title and class.
type WindowStream interface {
	Stream
	Notifier
	// Window describes the window as it was when Grab last saw it. It may be called while a
	// Grab runs.
	Window() Window
}

// sought returns the one of windows that is wanted: by its number, if that is of the same
// class, or the topmost of the same title and class, rather one that can be read; then it says how
// many others of these there are.
func sought(wanted Window, windows []Window) (best Window, found bool) {
	rank, named := 0, 0
	for _, w := range windows {
		this := 0
		if w.Class == wanted.Class && w.Title == wanted.Title {
			named++
		}
		switch {
		case w.Class != wanted.Class:
		case w.ID == wanted.ID:
			this = 3
		case w.Title == wanted.Title && !w.Minimised:
			this = 2
		case w.Title == wanted.Title:
			this = 1
		}
		if this > rank {
			best, rank = w, this
		}
	}
	if best.Alike = wanted.Alike; rank < 3 {
		best.Alike = max(named-1, 0)
	}
	return best, rank > 0
}

// mostTitle is how many letters of a title are kept. Our choice.
const mostTitle = 200

// oneLine returns a title that is short, and steers no terminal or line of text.
func oneLine(title string) string {
	title = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, title)
	title = strings.Join(strings.Fields(title), " ")
	if letters := []rune(title); len(letters) > mostTitle {
		title = string(letters[:mostTitle-1]) + "…"
	}
	return title
}
