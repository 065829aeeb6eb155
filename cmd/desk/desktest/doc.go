// Package desktest builds the program and drives it from outside, for tests only: its
// commands, and its window on a virtual screen, with real pointer and key events. What the
// window shows it reads from the trace (desk --trace).
package desktest
