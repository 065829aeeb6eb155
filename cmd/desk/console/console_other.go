//go:build !windows

package console

import (
	"io"
	"os"
)

// Errors returns where sentences for the user go.
func Errors() io.Writer { return os.Stderr }

// Leave has nothing to let go of: here what a program does without its terminal is the shell's to
// say. It returns to.
func Leave(to io.Writer) io.Writer { return to }
