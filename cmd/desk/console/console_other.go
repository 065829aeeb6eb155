//go:build !windows

package console

import (
	"io"
	"os"
)

// Errors returns where sentences for the user go.
func Errors() io.Writer { return os.Stderr }

// Heard reports whether somebody may read them: at a terminal, or at the other end of a pipe. Who
// starts the program by a click leaves it the null device or a log.
func Heard() bool { return heard(os.Stderr) }

func heard(f *os.File) bool {
	info, err := f.Stat()
	if err != nil {
		return false
	}
	null, err := os.Stat(os.DevNull)
	device := info.Mode()&os.ModeCharDevice != 0 && !(err == nil && os.SameFile(info, null))
	return device || info.Mode()&os.ModeNamedPipe != 0
}

// Leave has nothing to let go of: here what a program does without its terminal is the shell's to
// say. It returns to.
func Leave(to io.Writer) io.Writer { return to }
