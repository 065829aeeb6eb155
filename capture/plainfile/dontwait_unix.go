//go:build unix

package plainfile

import "syscall"

// dontWait has a pipe opened at once, and a terminal not become the program's own.
const dontWait = syscall.O_NONBLOCK | syscall.O_NOCTTY
