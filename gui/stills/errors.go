package stills

import (
	"errors"
	"strings"
)

// What can go wrong with a still, beside errors of io/fs and of the system.
var (
	// ErrDamaged: what lies in a still's folder is no still.
	ErrDamaged = errors.New("still is damaged")
	// ErrNewer: a newer program's still; it is left alone.
	ErrNewer = errors.New("still of a newer version")
	// ErrGone: there is no such still any more.
	ErrGone = errors.New("no such still")
	// ErrBusy: another program has been changing the stills for too long.
	ErrBusy = errors.New("stills are in use by another program")
	// ErrLock: what stands where a lock should be is no file.
	ErrLock = errors.New("lock is not a file")
	// ErrHeld: another window marks the still.
	ErrHeld = errors.New("still is marked in another window")
	// ErrUnheld: the still was opened to be read only, or was let go of.
	ErrUnheld = errors.New("still is not open to be marked")
	// ErrChanged: the still was changed since it was looked at.
	ErrChanged = errors.New("still was changed meanwhile")
	// ErrEnding: a file's name ends in none of Endings.
	ErrEnding = errors.New("ending of the name is not one of " + strings.Join(Endings(), ", "))
	// ErrPicture: the picture to keep has no pixels, or sizes that contradict each other.
	ErrPicture = errors.New("no picture to keep")
)

// Endings are those of the files that a still can be exported to: the critique sheet as a
// picture or as a PDF file, the picture in layers, and what is known of it.
func Endings() []string { return []string{".png", ".pdf", ".ora", ".json"} }
